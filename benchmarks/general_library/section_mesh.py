# SPDX-License-Identifier: GPL-3.0-or-later
"""Triangles of the section at one displacement: parts, air up to a half circle, and a ring that stands for the rest."""

from dataclasses import dataclass

import dolfinx
import gmsh
import numpy as np
import ufl
from mpi4py import MPI

AIR, OUTSIDE, FIRST_PART = 1, 2, 10
TRIANGLE = 2  # gmsh's number of the straight one


@dataclass
class Sizes:
    """Sides of triangles, m; between the points named they grow linearly."""

    sharp: float  # at corners of steel and magnet
    growth: float  # in the middle of a side of theirs: sharp + growth * distance to its ends
    coil: float  # at the corners of the coil
    rim: float  # on the half circle; twice that at the end of the ring
    ratio: float  # radius of the half circle over that of the device over its stroke

    def times(self, scale):
        return Sizes(scale * self.sharp, scale * self.growth, scale * self.coil, scale * self.rim, self.ratio)


@dataclass
class Frame:
    centre: float  # middle of the device over its stroke, which becomes z = 0, m
    radius: float  # of the half circle, m


def frame_of(device, ratio):
    corners = [c for d in device.displacements for part in device.parts for c in part.shifted(d)]
    centre = 0.5 * (min(z for _, z in corners) + max(z for _, z in corners))
    return Frame(centre, ratio * max((r**2 + (z - centre) ** 2) ** 0.5 for r, z in corners))


def outline(part, corners, sizes):
    """Points and lines once round, with a point in the middle of each side of steel and magnet."""
    geo, points = gmsh.model.geo, []
    for (r, z), (r_next, z_next) in zip(corners, corners[1:] + corners[:1]):
        half = 0.5 * ((r_next - r) ** 2 + (z_next - z) ** 2) ** 0.5
        middle = sizes.sharp + sizes.growth * half
        if part.kind == "coil":
            points.append(geo.addPoint(r, z, 0, sizes.coil))
            continue
        points.append(geo.addPoint(r, z, 0, sizes.sharp if r > 0 else middle))
        if r > 0 and r_next > 0:
            points.append(geo.addPoint(0.5 * (r + r_next), 0.5 * (z + z_next), 0, middle))
    return points, [geo.addLine(a, b) for a, b in zip(points, points[1:] + points[:1])]


def half_circle(centre, radius, size):
    geo = gmsh.model.geo
    low, side, high = [geo.addPoint(r, z, 0, size) for r, z in ((0, -radius), (radius, 0), (0, radius))]
    return low, high, [geo.addCircleArc(low, centre, side), geo.addCircleArc(side, centre, high)]


def gmsh_section(device, displacement, frame, sizes):
    """Meshes in gmsh. Parts do not touch; those that reach the axis start with their corner there. {tag: surface}"""
    gmsh.clear()
    geo, surfaces, on_axis, apart = gmsh.model.geo, {}, [], []
    for i, part in enumerate(device.parts):
        corners = [(r, z - frame.centre) for r, z in part.shifted(displacement)]
        points, lines = outline(part, corners, sizes)
        loop = geo.addCurveLoop(lines)
        surfaces[FIRST_PART + i] = geo.addPlaneSurface([loop])
        if corners[0][0] == 0:
            on_axis.append((corners[0][1], points[0], points[-1], lines[:-1]))
        else:
            apart.append(loop)
    centre = geo.addPoint(0, 0, 0, sizes.rim)
    low, high, arcs = half_circle(centre, frame.radius, sizes.rim)
    last, edge = low, []
    for _, first, last_of_part, lines in sorted(on_axis):
        edge += [geo.addLine(last, first)] + lines
        last = last_of_part
    edge += [geo.addLine(last, high)] + [-arc for arc in reversed(arcs)]
    surfaces[AIR] = geo.addPlaneSurface([geo.addCurveLoop(edge)] + apart)
    end_low, end_high, end_arcs = half_circle(centre, 2 * frame.radius, 2 * sizes.rim)
    edge = [geo.addLine(end_low, low)] + arcs + [geo.addLine(high, end_high)] + [-arc for arc in reversed(end_arcs)]
    surfaces[OUTSIDE] = geo.addPlaneSurface([geo.addCurveLoop(edge)])
    geo.synchronize()
    gmsh.model.mesh.generate(2)
    return surfaces


def mesh_section(device, displacement, frame, sizes, domain=None):
    """Returns the dolfinx mesh and the tags of its cells; domain: of the mesh before, when forms shall be kept."""
    surfaces = gmsh_section(device, displacement, frame, sizes)
    nodes = [gmsh.model.mesh.getElementsByType(TRIANGLE, surface)[1] for surface in surfaces.values()]
    tags = np.concatenate([np.full(len(mine) // 3, tag, dtype=np.int32) for tag, mine in zip(surfaces, nodes)])
    used, cells = np.unique(np.concatenate(nodes), return_inverse=True)
    numbers, points, _ = gmsh.model.mesh.getNodes()
    order = np.argsort(numbers)
    points = points.reshape(-1, 3)[order[np.searchsorted(numbers, used, sorter=order)], :2]
    domain = domain or ufl.Mesh(ufl.VectorElement("Lagrange", "triangle", 1))
    mesh = dolfinx.mesh.create_mesh(MPI.COMM_SELF, cells.reshape(-1, 3), points, domain)
    tags = tags[mesh.topology.original_cell_index]
    return mesh, dolfinx.mesh.meshtags(mesh, 2, np.arange(len(tags), dtype=np.int32), tags)


def start_gmsh():
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setNumber("General.NumThreads", 1)
