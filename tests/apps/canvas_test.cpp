// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/canvas.hpp"

#include <doctest/doctest.h>
#include <malloc.h>

#include "apps/output/plain_text.hpp"

using namespace coilpull;

namespace {

unsigned big_endian(const std::string& bytes, std::size_t at) {
  unsigned value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = value << 8U | static_cast<unsigned char>(bytes.at(at + i));
  return value;
}

}  // namespace

TEST_CASE("a PNG has the size of its sheet times the scale") {
  const Canvas canvas(120, 45.5);
  for (const int scale : {1, 2, 3}) {
    const std::string png = canvas.png(scale);
    CHECK(png.substr(0, 8) == "\x89PNG\r\n\x1a\n");  // PNG (ISO/IEC 15948) 5.2; IHDR follows: 11.2.2
    CHECK(big_endian(png, 16) == 120u * scale);
    CHECK(big_endian(png, 20) == static_cast<unsigned>(45.5 * scale + 0.5));
  }
}

TEST_CASE("a title cannot become markup in an SVG") {
  Canvas canvas(200, 60);
  const std::string title = "a < b & <script>alert(1)</script> \"x\"";
  canvas.text({10, 30}, title);
  const std::string svg = canvas.svg(title);
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("<title>a &lt; b &amp; &lt;script&gt;alert(1)&lt;/script&gt; \"x\"</title>") !=
        std::string::npos);
}

TEST_CASE("text that is no UTF-8, or no text at all, is drawn as well as it can be") {
  // RFC 3629: overlong forms, surrogates, values above U+10FFFF and lone bytes are no UTF-8.
  CHECK(plain_text("\xC0\xAF") == "??");
  CHECK(plain_text("\xED\xA0\x80") == "???");
  CHECK(plain_text("\xF4\x90\x80\x80") == "????");
  CHECK(plain_text("\xE2\x82") == "??");
  CHECK(plain_text("tab\there\n") == "tab here ");
  CHECK(plain_text("H\xC3\xBClse \xE2\x82\xAC \xF0\x9F\xA7\xB2") ==
        "H\xC3\xBClse \xE2\x82\xAC \xF0\x9F\xA7\xB2");

  Canvas canvas(100, 40);
  canvas.text({5, 20}, std::string("\xFF\x01") + "ok");
  const std::string drawn = canvas.png(1);
  CHECK(drawn != Canvas(100, 40).png(1));
}

TEST_CASE("text is shortened between letters until it fits") {
  const Canvas canvas(100, 40);
  const std::string long_name = "\xC3\xBC\xC3\xBC\xC3\xBC\xC3\xBC\xC3\xBC\xC3\xBC\xC3\xBC\xC3\xBC";
  CHECK(canvas.shortened(long_name, 1e6, 12) == long_name);
  const std::string short_name = canvas.shortened(long_name, 0.6 * canvas.text_length(long_name, 12), 12);
  CHECK(short_name.size() < long_name.size());
  CHECK(short_name.substr(short_name.size() - 3) == "...");
  CHECK(plain_text(short_name) == short_name);  // no letter was cut in half
  CHECK(canvas.text_length(short_name, 12) <= 0.6 * canvas.text_length(long_name, 12));
}

TEST_CASE("what a picture was drawn from is given back when it is written in any format") {
  const auto written = [] {
    Canvas canvas(100, 40);
    for (int k = 0; k < 1000; ++k) canvas.ring({k / 10.0, 20}, 5, {});
    return canvas.svg("rings").size() + canvas.pdf("rings").size() + canvas.png(1).size();
  };
  CHECK(written() > 10000);  // what stays for ever, fonts above all, is there from now on
  const std::size_t before = mallinfo2().uordblks;
  for (int k = 0; k < 10; ++k) written();
  CHECK(mallinfo2().uordblks < before + 100000);  // one drawing takes ten times that
}
