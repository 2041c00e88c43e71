#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How the pull on an iron plunger grows with the ampere-turns: a dictionary, a loop, NumPy arrays.

Run:      PYTHONPATH=build/apps/python python3 apps/python/turns_and_force.py
Prints:   turns, current, peak force with its bar, and the field in the middle of the bore
Checked:  every row is ok; force per square of the ampere-turns falls as the steel fills up;
          the flux through the bore's middle, from A_phi, is the integral of Bz over it
All dimensions are invented. Care: the currents are for pulses, a winding held on them burns.
"""
import numpy as np

import coilpull

STEEL = {"law": "froehlich", "saturation_polarization_T": 2.1, "half_field_A_per_m": 500}


def solenoid(turns, current_A):
    """An iron plunger that is drawn into a coil in a steel tube; the same keys as in a device file."""
    return coilpull.Device({
        "title": f"solenoid of {turns} turns",
        "tolerance": 0.005,
        "core": {
            "tube": {"material": STEEL, "tube": {"inner_radius_mm": 11, "outer_radius_mm": 13, "from_mm": -15, "to_mm": 15}},
            "plunger": {"material": STEEL, "cylinder": {"radius_mm": 2, "from_mm": -10, "to_mm": 10}},
        },
        "coil": {"drive": {"tube": {"inner_radius_mm": 3, "outer_radius_mm": 10.5, "from_mm": -14, "to_mm": 14},
                           "turns": turns}},
        "motion": {"moving": ["plunger"], "displacement_mm": np.linspace(4, 12, 5)},
        "current": {"drive_A": [current_A]},
    })


def main():
    good = True
    ampere_turns, per_square = [], []
    for turns, source_A in ((400, 2.0), (600, 3.0), (800, 6.0)):
        device = solenoid(turns, source_A)
        table = device.table()
        good &= all(word == "ok" for row in table.status for word in row)
        force, bar = table.force_N[:, 0], table.force_numerical_error_N[:, 0]
        strongest = int(np.argmax(np.abs(force)))
        place = table.displacement_m[strongest]

        field = device.field(place, {"drive": source_A})
        radius = np.linspace(0, 1.5e-3, 151)
        _, bz = field.flux_density_T(radius, np.zeros_like(radius))
        flux = np.trapz(2 * np.pi * radius * bz, radius)
        around = 2 * np.pi * radius[-1] * field.vector_potential_Tm(radius[-1:], [0.0])[0]
        good &= abs(flux - around) < 1e-3 * abs(around)  # 150 intervals in a smooth field

        print(f"{turns} turns, {source_A:.1f} A: {force[strongest]:+.4f} +- "
              f"{bar[strongest]:.4f} N at {1e3 * place:.0f} mm, {bz[0]:.3f} T in the middle")
        ampere_turns.append(turns * source_A)
        per_square.append(abs(force[strongest]) / ampere_turns[-1] ** 2)
    return good and bool(np.all(np.diff(per_square) < 0))


if __name__ == "__main__":
    raise SystemExit(0 if main() else 1)
