# SPDX-License-Identifier: GPL-3.0-or-later
"""The equations both scripts share, in UFL: H of B for each material, the mapped outside, Maxwell's stress.

Outside the half circle of radius R, all space is mapped into the ring R < s < 2 R by rho = R^2 / (2 R - s). With
psi = r A kept, the reluctivity becomes nu0 (s/R)^2 along s and nu0 ((2 R - s)/R)^2 across; psi = 0 at s = 2 R.
"""

import sys
from pathlib import Path

import ufl

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "tests" / "reference"))
from device import MU0, read_device  # noqa: E402

from section_mesh import FIRST_PART, OUTSIDE  # noqa: E402

DEVICE = Path(__file__).resolve().parents[1] / "rod_and_disc.toml"


def froehlich(part, b):
    """H of B where J = Js H / (H + Ha): the positive root of mu0 H^2 + (mu0 Ha + Js - B) H = Ha B."""
    size = ufl.sqrt(ufl.dot(b, b) + 1e-16)
    p = MU0 * part.half_field + part.saturation - size
    return 2 * part.half_field / (p + ufl.sqrt(p**2 + 4 * MU0 * part.half_field * size)) * b


def air(b):
    return b / MU0


def magnet(part, b):
    return (b - ufl.as_vector((0.0, part.remanence))) / (MU0 * part.mu_r)


def outside(b, x, radius):
    s = ufl.sqrt(ufl.dot(x, x))
    along, across = x / s, ufl.as_vector((-x[1], x[0])) / s
    return ((s / radius) ** 2 * ufl.dot(b, along) * along
            + ((2 * radius - s) / radius) ** 2 * ufl.dot(b, across) * across) / MU0


def h_of(part, b):
    return {"core": lambda: froehlich(part, b), "magnet": lambda: magnet(part, b), "coil": lambda: air(b)}[part.kind]()


def turns_per_area(coil):
    (inner, low), _, (outer, high), _ = coil.corners
    return coil.turns / ((outer - inner) * (high - low))


def pull(b, g):
    """Density of the force along z: - T . grad g, g = 1 on what moves and 0 on what does not."""
    slope = ufl.grad(g)
    return -(b[1] * ufl.dot(b, slope) - 0.5 * ufl.dot(b, b) * slope[1]) / MU0


def tag_of(device, part):
    return FIRST_PART + device.parts.index(part)


def held_cells(device, tags):
    """(cells, value of g) of everything but air."""
    yield tags.find(OUTSIDE), 0.0
    for part in device.parts:
        yield tags.find(tag_of(device, part)), float(part.moving)
