# SPDX-License-Identifier: GPL-3.0-or-later
"""Opens a report in headless Chromium and uses it as a person does: mouse, keys, wide and narrow, light and dark, paper.

Run: python3 browser_test.py <coilpull> <01_tube_pusher.toml> <scratch folder> [results folder]
Needs Debian's chromium-driver and python3-selenium. Leaves screenshots in the scratch folder, to be looked at.
"""
import base64
import pathlib
import re
import subprocess
import sys

try:
    from selenium import webdriver
    from selenium.webdriver.common.action_chains import ActionChains
    from selenium.webdriver.common.by import By
    from selenium.webdriver.common.keys import Keys
    from selenium.webdriver.chrome.service import Service
except ImportError:
    print("report: needs python3-selenium and chromium-driver (bash apps/install_packages developer): NOT TESTED")
    sys.exit(77)

program, device, scratch = (pathlib.Path(word).resolve() for word in sys.argv[1:4])
scratch.mkdir(parents=True, exist_ok=True)
if not pathlib.Path("/usr/bin/chromedriver").exists():
    print("report: no /usr/bin/chromedriver: NOT TESTED")
    sys.exit(77)


def make_report():
    """A hostile title and hostile names: what the file says must never become part of the page."""
    text = device.read_text()
    text = re.sub(r"points = \d+", "points = 5", text)
    text = re.sub(r"(?m)^tolerance = \S+", "tolerance = 0.02", text)
    text = re.sub(r'(?m)^title.*$', 'title = "<img src=x onerror=alert(1)></script><b>&amp; tube"', text)
    text = text.replace("[coil.drive]", '[coil."<i>drive"]').replace("drive_A", '"<i>drive_A"')
    (scratch / "hostile_out").mkdir(exist_ok=True)
    (scratch / "hostile_out" / "variants.csv").write_text(
        "variant,core.sleeve.material,strongest_N,status\r\n1,<b>soft</b>,9.5,ok\r\n2,hard,10.25,ok\r\n3,none,NaN,due\r\n4,other,-3,ok\r\n")
    file = scratch / "hostile.toml"
    file.write_text(text)
    done = subprocess.run([program, "report", file, "-o", scratch / "hostile_out", "--quiet"], capture_output=True, text=True)
    if done.returncode == 2 and "<i>drive" in done.stderr:  # such names are refused: the title stays hostile
        file.write_text(text.replace("<i>drive", "drive").replace('"drive_A"', "drive_A"))
        done = subprocess.run([program, "report", file, "-o", scratch / "hostile_out", "--quiet"], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return scratch / "hostile_out" / "report.html"


def open_browser(width, height, dark):
    options = webdriver.ChromeOptions()
    for word in ("--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", f"--window-size={width},{height}"):
        options.add_argument(word)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                           {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False})
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia",
                           {"features": [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]})
    return driver


def check_quiet(driver):
    """No word on the console, and nothing asked of any network."""
    said = [entry for entry in driver.get_log("browser") if "getImageData" not in entry["message"]]  # ink() of this test
    assert not said, said
    asked = [found for entry in driver.get_log("performance")
             for found in re.findall(r'"url":"((?!file:|data:|about:|chrome)[^"]+)"', entry["message"])
             if "requestWillBeSent" in entry["message"]]
    assert not asked, asked


def reading(driver):
    return driver.find_element(By.CSS_SELECTOR, "#force .reading").text


def ink(driver):
    """How much is drawn on the canvas of the force: the sum of what its pixels cover."""
    return driver.execute_script(
        "const c = document.querySelector('#force canvas'); const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;"
        "let n = 0; for (let i = 3; i < d.length; i += 4) n += d[i]; return n;")


def use_it(driver):
    plot = driver.find_element(By.CSS_SELECTOR, "#force .plot")
    driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", plot)
    assert "Point at the curves" in reading(driver)
    ActionChains(driver).move_to_element(plot).perform()
    assert re.search(r"at -?[\d.]+ mm", reading(driver)) and "\u00b1" in reading(driver), reading(driver)
    assert "input" in reading(driver), "the spread of the input is not told"
    # Bands off, one after the other: each takes ink away, and back again.
    boxes = driver.find_elements(By.CSS_SELECTOR, "#force .bands input")
    assert len(boxes) == 2
    for box in boxes:
        full = ink(driver)
        box.click()
        less = ink(driver)
        assert less < full or not demo, f"a band is still there: {less}, {full}"  # of others the axis may follow
        box.click()
        assert ink(driver) == full, "a band does not come back"
    # A curve off and on, by the space bar.
    full, curve = ink(driver), driver.find_element(By.CSS_SELECTOR, "#curves input")
    curve.send_keys(Keys.SPACE)
    assert ink(driver) < full
    curve.send_keys(Keys.SPACE)
    # The chart by keys alone.
    driver.execute_script("arguments[0].focus()", plot)
    ActionChains(driver).send_keys(Keys.HOME).perform()
    first = reading(driver)
    ActionChains(driver).send_keys(Keys.ARROW_RIGHT).perform()
    assert first != reading(driver) and ("at 0 mm" in first or not demo), first
    # Zoom by dragging, back by Escape.
    whole = driver.execute_script("return document.querySelector('#force .plot').innerText")
    ActionChains(driver).move_to_element_with_offset(plot, -100, 20).click_and_hold().move_by_offset(150, 0).release().perform()
    assert driver.execute_script("return document.querySelector('#force .plot').innerText") != whole, "no zoom"
    driver.execute_script("arguments[0].focus()", plot)
    ActionChains(driver).send_keys(Keys.ESCAPE).perform()
    assert driver.execute_script("return document.querySelector('#force .plot').innerText") == whole, "no way back"


def column(driver, number):
    return [row.find_elements(By.TAG_NAME, "td")[number].text for row in driver.find_elements(By.CSS_SELECTOR, "table.sortable tbody tr")]


def sort_variants(driver):
    """By a number that is no number in one row, up by the mouse and down by the keys; by words."""
    heads = driver.find_elements(By.CSS_SELECTOR, "table.sortable th button")
    driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", heads[2])
    ActionChains(driver).move_to_element(heads[2]).click().perform()
    assert column(driver, 2) == ["-3", "9.5", "10.25", "not known"], column(driver, 2)
    heads[2].send_keys(Keys.ENTER)
    assert column(driver, 2) == ["10.25", "9.5", "-3", "not known"], column(driver, 2)
    ActionChains(driver).move_to_element(heads[1]).click().perform()
    assert column(driver, 0) == ["1", "2", "3", "4"], column(driver, 0)  # <b>soft</b> before hard, none, other


def check_advice(driver):
    titles = [title.text for title in driver.find_elements(By.TAG_NAME, "h2")]
    for wanted in ("Winding and heat", "What parts have to bear", "Sensor exit", "When to switch", "Does it move, does it hold", "Stroke"):
        assert wanted in titles, (wanted, titles)
        section = driver.find_element(By.XPATH, f"//section[h2='{wanted}']")
        assert section.find_elements(By.CSS_SELECTOR, "figure img"), wanted
        assert len(section.find_element(By.CLASS_NAME, "lines").text) > 100, wanted


def check_names(driver):
    assert driver.find_element(By.TAG_NAME, "h1").text.startswith("<img src=x onerror"), "the title has become markup"
    assert not driver.find_elements(By.CSS_SELECTOR, "i, b, img[src=x]"), "a name has become markup"


def every_stop(driver):
    """Tab reaches every link, box and chart; what has focus shows it."""
    stops = set()
    driver.execute_script("document.activeElement.blur(); scrollTo(0, 0)")
    for _ in range(80):
        ActionChains(driver).send_keys(Keys.TAB).perform()
        kind = driver.execute_script("const a = document.activeElement; return a.tagName + '.' + a.className")
        stops.add(kind.split(" ")[0])
        outlined = driver.execute_script("return getComputedStyle(document.activeElement).outlineStyle")
        assert kind.startswith("BODY") or outlined != "none", kind
    for wanted in ("A.", "INPUT.", "DIV.plot", "SUMMARY."):
        assert wanted in stops, (wanted, stops)


demo = len(sys.argv) == 4
report = pathlib.Path(sys.argv[4]) / "report.html" if not demo else make_report()
assert report.stat().st_size < 1_000_000, report.stat().st_size
for width, height, dark in ((1280, 900, False), (1280, 900, True), (390, 844, False), (390, 844, True)):
    driver = open_browser(width, height, dark)
    try:
        driver.get(report.resolve().as_uri())
        took = driver.execute_script(
            "const n = performance.getEntriesByType('navigation')[0]; return n.loadEventEnd - n.startTime")
        assert driver.execute_script("return document.documentElement.scrollWidth") <= width, "the page is wider than the screen"
        use_it(driver)
        if demo:
            check_names(driver)
            check_advice(driver)
            sort_variants(driver)
        if width > 1000 and not dark:
            every_stop(driver)
            paper = driver.execute_cdp_cmd("Page.printToPDF", {"printBackground": False})
            (scratch / "paper.pdf").write_bytes(base64.b64decode(paper["data"]))
        check_quiet(driver)
        driver.execute_script("scrollTo(0, 0)")
        tall = driver.execute_script("return document.documentElement.scrollHeight")
        shot = driver.execute_cdp_cmd("Page.captureScreenshot", {"captureBeyondViewport": True, "clip": {
            "x": 0, "y": 0, "width": width, "height": min(tall, 16000), "scale": 1}})
        name = f"{'wide' if width > 1000 else 'narrow'}_{'dark' if dark else 'light'}.png"
        (scratch / name).write_bytes(base64.b64decode(shot["data"]))
        print(f"{name}: good, loaded in {took:.0f} ms")
    finally:
        driver.quit()
print(f"{report.stat().st_size} bytes")
