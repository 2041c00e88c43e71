# SPDX-License-Identifier: GPL-3.0-or-later
"""Solves the devices data/published/corner_*.toml and writes their forces and linkages with error estimates.

    python3 solve_corner_devices.py OUT.csv               all of data/published/corner_devices.csv
    python3 solve_corner_devices.py --energy DEVICE       force of the middle point against the slope of the coenergy
"""

import sys
from pathlib import Path

from device import read_device
from graded_mesh import Sizes, mesh_section
from scalar_potential import Section

DATA = Path(__file__).resolve().parents[2] / "data" / "published"
DEVICES = ["corner_rod_and_disc", "corner_sleeve_and_magnet", "corner_pot_and_cone"]

# (smallest triangle m, growth, radius of the half circle / radius of the device over its stroke, degree)
BEST = (1e-6, 0.42, 2.0, 4)
LOWER_DEGREE = (1e-6, 0.42, 2.0, 3)
COARSER = (5e-6, 0.6, 2.0, 4)
FARTHER = (5e-6, 0.6, 3.0, 4)

HEAD = [
    "# Three saturating devices with sharp corners, by finite elements of a general-purpose library (DOLFINx "
    "0.5.2, Gmsh 4.8.4): scalar potential, outside mapped into a ring; scripts and settings in tests/reference. "
    "force_error and linkage_error: change from degree 3 to 4, plus change from meshes 1.4 times as coarse with "
    "corners 5 times as coarse, plus change from a boundary 1.5 times as far",
    "device,displacement_mm,current_A,force_N,force_error_N,linkage_Wb,linkage_error_Wb,triangles",
]


def frame(device):
    """Middle of the device over its stroke, and the radius of the ball around it that holds all."""
    corners = [corner for d in device.displacements for part in device.parts for corner in part.shifted(d)]
    centre = 0.5 * (min(z for _, z in corners) + max(z for _, z in corners))
    return centre, max((r**2 + (z - centre) ** 2) ** 0.5 for r, z in corners)


def solved(device, displacement, settings, currents):
    """(force, linkage, coenergy) of each current, and the number of triangles."""
    smallest, growth, ratio, degree = settings
    centre, radius = frame(device)
    marked = mesh_section(device, displacement, centre, Sizes(smallest, growth, ratio * radius))
    section = Section(device, marked, ratio * radius, degree)
    triangles = marked[0].topology.index_map(2).size_local
    return [section.solve(current)[:3] for current in currents], triangles


def rows(name):
    device = read_device(DATA / f"{name}.toml")
    for displacement in device.displacements:
        best, triangles = solved(device, displacement, BEST, device.currents)
        lower, coarser, farther = (solved(device, displacement, other, device.currents)[0]
                                   for other in (LOWER_DEGREE, COARSER, FARTHER))
        for i, current in enumerate(device.currents):
            error = [abs(best[i][k] - lower[i][k]) + abs(best[i][k] - coarser[i][k])
                     + abs(coarser[i][k] - farther[i][k]) for k in range(2)]
            yield (f"{name},{1e3 * displacement:g},{current:g},{best[i][0]:.9g},{error[0]:.2g},"
                   f"{best[i][1]:.9g},{error[1]:.2g},{triangles}")


def energy_check(name):
    """Both forces of the middle displacement: from the stress, and from five coenergies on meshes of their own."""
    device = read_device(DATA / f"{name}.toml")
    middle, step = device.displacements[1], 0.1e-3
    force = solved(device, middle, BEST, device.currents)[0]
    around = {n: solved(device, middle + n * step, BEST, device.currents)[0] for n in (-2, -1, 1, 2)}
    for i, current in enumerate(device.currents):
        slope = (8 * (around[1][i][2] - around[-1][i][2]) - (around[2][i][2] - around[-2][i][2])) / (12 * step)
        print(f"{name}, {1e3 * middle:g} mm, {current:g} A: stress {force[i][0]:.7g} N, coenergy {slope:.7g} N",
              flush=True)


if __name__ == "__main__":
    if sys.argv[1] == "--energy":
        energy_check(sys.argv[2])
    else:
        with open(sys.argv[1], "w", encoding="utf-8") as out:
            for line in HEAD:
                print(line, file=out, flush=True)
            for device_name in DEVICES:
                for row in rows(device_name):
                    print(row, file=out, flush=True)
