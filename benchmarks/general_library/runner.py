# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs one of the two scripts over the table and prints error and CPU time, this process's own."""

import argparse
import contextlib
import csv
import json
import time
from pathlib import Path

import physics
from section_mesh import start_gmsh

REFERENCE = Path(__file__).resolve().parents[1] / "rod_and_disc_reference.csv"


class Split:
    """CPU seconds by stage: with split("meshing"): ..."""

    def __init__(self):
        self.seconds, self.steps = {}, 0

    @contextlib.contextmanager
    def __call__(self, stage):
        before = time.process_time()
        yield
        self.seconds[stage] = self.seconds.get(stage, 0.0) + time.process_time() - before


def reference():
    with open(REFERENCE, encoding="utf-8") as stream:
        lines = (line for line in stream if not line.startswith("#"))
        return {(float(row["displacement_mm"]), float(row["current_drive_A"])): float(row["force_N"])
                for row in csv.DictReader(lines)}


def spread(values, count):
    """count of the values, ends included."""
    if count >= len(values):
        return values
    return [values[round(k * (len(values) - 1) / max(1, count - 1))] for k in range(count)]


def run(table_of, name):
    parser = argparse.ArgumentParser()
    parser.add_argument("--displacements", type=int, default=1000, help="how many of them, evenly spread")
    parser.add_argument("--scale", type=float, default=1.0, help="of all sides of triangles")
    parser.add_argument("--json", action="store_true")
    given = parser.parse_args()
    device, split, truth = physics.read_device(physics.DEVICE), Split(), reference()
    start_gmsh()
    started = time.process_time()
    table = table_of(device, split, given.scale)
    worst, points = 0.0, 0
    for displacement in spread(device.displacements, given.displacements):
        for current, force in zip(device.currents, table.displacement(displacement)):
            worst = max(worst, abs(force - truth[round(1e3 * displacement, 9), round(current, 9)]))
            points += 1
    seconds = time.process_time() - started
    peak = max(abs(force) for force in truth.values())
    result = {"unknowns": table.unknowns, "error": worst / peak, "points": points, "start_s": started,
              "ms": 1e3 * seconds / points, "steps": split.steps / points,
              "split_ms": {stage: 1e3 * part / points for stage, part in split.seconds.items()}}
    if given.json:
        print(json.dumps(result))
        return
    print(f"{name}: {result['unknowns']} unknowns at the last displacement, error / peak {result['error']:.1e},"
          f" {points} points")
    print(f"CPU {result['ms']:.2f} ms a point, and {started:.2f} s once to start Python and libraries;"
          f" {result['steps']:.2f} Newton steps a point")
    for stage, part in result["split_ms"].items():
        print(f"  {stage:12s} {part:6.2f} ms a point")
