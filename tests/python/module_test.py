# SPDX-License-Identifier: GPL-3.0-or-later
"""The Python module against the program and against what is known. Run by ctest, which sets PYTHONPATH."""
import csv
import os
import pathlib
import signal
import subprocess
import tempfile
import threading
import time
import unittest

import numpy as np

import coilpull

SOURCE = pathlib.Path(os.environ["COILPULL_SOURCE"])
SMALL = SOURCE / "tests/apps/small.toml"


def loop_of_air(**changes):
    """A thin coil in air and a magnet: no steel, so that fields are known."""
    device = {
        "title": "coil in air",
        "tolerance": 0.01,
        "coil": {"drive": {"tube": {"inner_radius_mm": 20, "outer_radius_mm": 20.4, "from_mm": -0.2, "to_mm": 0.2}, "turns": 10}},
        "magnet": {"plunger": {"material": {"remanence_T": 1.2, "recoil_permeability": 1.05},
                               "cylinder": {"radius_mm": 3, "from_mm": 8, "to_mm": 12}, "magnetised": "+z"}},
        "motion": {"moving": ("plunger",), "displacement_mm": np.array([0, 5.0])},
        "current": {"drive_A": [np.float64(-2), 0, 2]},
    }
    device.update(changes)
    return device


class Tables(unittest.TestCase):
    def test_the_arrays_are_the_columns_of_the_programs_table(self):
        table = coilpull.Device.from_file(SMALL).table()
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([os.environ["COILPULL_PROGRAM"], "table", SMALL, "-o", folder, "--no-pictures", "--quiet", "--no-audit"],
                           check=True, capture_output=True)
            with open(pathlib.Path(folder) / "force_table.csv", newline="", encoding="utf-8") as file:
                rows = list(csv.DictReader(file))
        # The same code and the same numbers of the same machine: to the last bit.
        np.testing.assert_array_equal(table.force_N.ravel(), [float(row["force_N"]) for row in rows])
        np.testing.assert_array_equal(table.force_numerical_error_N.ravel(), [float(row["force_numerical_error_N"]) for row in rows])
        np.testing.assert_array_equal(table.coenergy_J.ravel(), [float(row["coenergy_J"]) for row in rows])
        for k, circuit in enumerate(table.circuits):
            np.testing.assert_array_equal(table.flux_linkage_Wb[:, :, k].ravel(), [float(row[f"flux_linkage_{circuit}_Wb"]) for row in rows])
        self.assertEqual([word for row in table.status for word in row], [row["status"] for row in rows])
        self.assertEqual(table.force_N.shape, (len(table.displacement_m), len(table.current_A)))

    def test_without_steel_the_current_adds_a_force_of_its_own_sense_and_size(self):
        table = coilpull.Device(loop_of_air()).table()
        off = table.force_N[:, 1]
        added = table.force_N[:, [0, 2]] - off[:, None]
        # Linear materials: the force of the current on the magnet is odd in it; what is left is the bars.
        bars = table.force_numerical_error_N.sum(axis=1)
        self.assertTrue(np.all(np.abs(added.sum(axis=1)) <= bars))
        self.assertTrue(np.all(np.abs(added[:, 1]) > 3 * bars))
        self.assertTrue(np.all(np.isnan(table.force_slope_N_per_m)))

    def test_progress_ends_with_all_rows_and_what_it_raises_ends_the_run(self):
        seen = []
        coilpull.Device(loop_of_air()).table(progress=lambda done, rows: seen.append((done, rows)))
        self.assertEqual(seen[-1][0], seen[-1][1])
        self.assertGreaterEqual(seen[-1][1], 6)

        def tired(done, rows):
            raise ArithmeticError("enough")

        with self.assertRaisesRegex(ArithmeticError, "enough"):
            coilpull.Device(loop_of_air()).table(progress=tired)

    def test_an_interrupt_ends_a_long_table(self):
        long = loop_of_air(motion={"moving": ["plunger"], "displacement_mm": {"from": 0, "to": 20, "points": 1001}}, tolerance=0.0001)
        begun = threading.Event()

        def press():
            begun.wait(60)
            time.sleep(0.2)
            os.kill(os.getpid(), signal.SIGINT)

        threading.Thread(target=press).start()
        with self.assertRaises(KeyboardInterrupt):
            coilpull.Device(long).table(progress=lambda done, rows: begun.set())


class Fields(unittest.TestCase):
    def test_the_field_in_a_thin_loop_is_that_of_the_formula(self):
        # B = mu0 N I / (2 a) in the middle of a loop. Jackson, Classical Electrodynamics, 3rd ed., sec. 5.5.
        # The winding is 0.4 mm square at a mean radius of 20.2 mm: (0.4 / 20.2)^2 / 6 = 7e-5 at most.
        device = loop_of_air()
        del device["magnet"], device["motion"]
        field = coilpull.Device(device).field(0.0, {"drive": 2.0})
        _, bz = field.flux_density_T(np.zeros(1), np.zeros(1))
        self.assertAlmostEqual(bz[0] / (4e-7 * np.pi * 10 * 2 / (2 * 20.2e-3)), 1, delta=2e-4)

    def test_points_keep_their_shape_and_are_nan_outside(self):
        field = coilpull.Device(loop_of_air()).field(displacement_m=0.0, current_A={})
        r, z = np.meshgrid(np.linspace(0, 3 * field.radius_m, 7), np.linspace(-0.01, 0.01, 3))
        br, bz = field.flux_density_T(r, z)
        self.assertEqual(bz.shape, (3, 7))
        outside = np.hypot(r, z - field.centre_m) >= field.radius_m
        np.testing.assert_array_equal(np.isnan(bz), outside)
        np.testing.assert_array_equal(np.isnan(br), outside)
        with self.assertRaises(ValueError):
            field.flux_density_T(np.zeros(2), np.zeros(3))


class Refusals(unittest.TestCase):
    def test_a_dictionary_reads_as_the_file_of_the_same_words(self):
        text = coilpull.Device.from_file(SMALL).text
        again = coilpull.Device(loop_of_air())
        self.assertIn('"drive"', coilpull.device_text(loop_of_air()))
        with tempfile.NamedTemporaryFile("w", suffix=".toml") as file:
            file.write(again.text)
            file.flush()
            self.assertEqual(coilpull.Device.from_file(file.name).text, again.text)
        self.assertNotEqual(text, again.text)

    def test_words_with_quotes_and_line_ends_stay_words(self):
        title = 'a "quoted" \\ title\n[coil.x]\t\x01 \u00e4'
        self.assertEqual(coilpull.Device(loop_of_air(title='plain "x" \\ \u00e4')).title, 'plain "x" \\ \u00e4')
        self.assertNotIn("\n[coil.x]", coilpull.device_text({"title": title}))

    def test_mistakes_are_refused_in_the_words_of_the_program(self):
        for changes, words in (({"coil": {"drive": {"turns": -3}}}, "turns|tube"),
                               ({"coil": {"drive": {"tube": {}, "trns": 3}}}, r"\[coil.drive\]"),
                               ({"tolerance": float("nan")}, "tolerance"),
                               ({"current": {"drive_A": []}}, "drive_A")):
            with self.assertRaisesRegex(coilpull.BadDevice, words):
                coilpull.Device(loop_of_air(**changes))
        with self.assertRaisesRegex(TypeError, "tolerance"):
            coilpull.Device(loop_of_air(tolerance=object()))
        with self.assertRaisesRegex(ValueError, "no circuit is called main; there are: drive"):
            coilpull.Device(loop_of_air()).field(0.0, {"main": 1.0})
        overlapping = loop_of_air(motion={"moving": ["plunger"], "displacement_mm": [0, 1]})
        overlapping["magnet"]["plunger"]["cylinder"] = {"radius_mm": 20.3, "from_mm": -5, "to_mm": 5}
        with self.assertRaisesRegex(coilpull.BadDevice, r"\[magnet.plunger\]"):
            coilpull.Device(overlapping).table()


if __name__ == "__main__":
    unittest.main()
