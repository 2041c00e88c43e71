# SPDX-License-Identifier: GPL-3.0-or-later
"""Triangles that shrink towards every corner of steel and magnets."""

from dataclasses import dataclass

import gmsh
from dolfinx.io import gmshio
from mpi4py import MPI


@dataclass
class Sizes:
    """Side of a triangle: smallest + growth * distance to the nearest corner, at most growth * radius / 4."""

    smallest: float  # m
    growth: float
    radius: float  # m, of the half circle beyond which all space is mapped into a ring


class Tags:
    """What the cells and edges are marked with. A cell of part i inside the slab of the coil: i + SLAB."""

    AIR, OUTSIDE, FIRST_PART, SLAB, END = 1, 2, 10, 100, 1000


def plane(corners):
    points = [gmsh.model.occ.addPoint(r, z, 0) for r, z in corners]
    lines = [gmsh.model.occ.addLine(a, b) for a, b in zip(points, points[1:] + points[:1])]
    return gmsh.model.occ.addPlaneSurface([gmsh.model.occ.addCurveLoop(lines)])


def half_disc(radius):
    centre, low, side, high = [gmsh.model.occ.addPoint(r, z, 0) for r, z in
                               ((0, 0), (0, -radius), (radius, 0), (0, radius))]
    arcs = [gmsh.model.occ.addCircleArc(low, centre, side), gmsh.model.occ.addCircleArc(side, centre, high)]
    axis = gmsh.model.occ.addLine(high, low)
    return gmsh.model.occ.addPlaneSurface([gmsh.model.occ.addCurveLoop(arcs + [axis])])


def mesh_section(device, displacement, centre, sizes):
    """The section, moved so that z = centre becomes the origin. Returns dolfinx mesh and cell and edge tags."""
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setNumber("Mesh.MeshSizeExtendFromBoundary", 0)
    gmsh.option.setNumber("Mesh.MeshSizeFromPoints", 0)
    outlines = [[(r, z - centre) for r, z in part.shifted(displacement)] for part in device.parts]
    coil = outlines[device.parts.index(device.coil())]
    inner, low, high = coil[0][0], coil[0][1], coil[2][1]

    surfaces = [plane(outline) for outline in outlines]
    slab = plane([(0, low), (inner, low), (inner, high), (0, high)])
    near, far = half_disc(sizes.radius), half_disc(2 * sizes.radius)
    tools = [(2, tag) for tag in surfaces + [slab, near, far]]
    _, children = gmsh.model.occ.fragment(tools, [])
    gmsh.model.occ.synchronize()

    of = [{tag for _, tag in found} for found in children]
    in_part, in_slab, in_near, everything = of[:-3], of[-3], of[-2], of[-1]
    groups = {}
    for tag in everything:
        mark = Tags.AIR if tag in in_near else Tags.OUTSIDE
        for i, mine in enumerate(in_part):
            if tag in mine:
                mark = Tags.FIRST_PART + i
        groups.setdefault(mark + (Tags.SLAB if tag in in_slab else 0), []).append(tag)
    for mark, mine in groups.items():
        gmsh.model.addPhysicalGroup(2, mine, mark)
    rim = [tag for _, tag in gmsh.model.getEntities(1)
           if gmsh.model.getType(1, tag) == "Circle"
           and max(abs(x) for x in gmsh.model.getBoundingBox(1, tag)[:5]) > 1.5 * sizes.radius]
    gmsh.model.addPhysicalGroup(1, rim, Tags.END)

    sharp = [corner for part, outline in zip(device.parts, outlines) for corner in outline
             if part.kind != "coil" and corner[0] > 0]
    blunt = [corner for part, outline in zip(device.parts, outlines) for corner in outline
             if part.kind == "coil" or corner[0] == 0]

    def size(dim, tag, r, z, _):
        nearest = min((r - a) ** 2 + (z - b) ** 2 for a, b in sharp) ** 0.5
        side = sizes.smallest + sizes.growth * nearest
        nearest = min((r - a) ** 2 + (z - b) ** 2 for a, b in blunt) ** 0.5
        side = min(side, 0.03 * sizes.growth * sizes.radius + sizes.growth * nearest)
        return min(side, 0.25 * sizes.growth * sizes.radius)

    gmsh.model.mesh.setSizeCallback(size)
    gmsh.model.mesh.generate(2)
    result = gmshio.model_to_mesh(gmsh.model, MPI.COMM_SELF, 0, gdim=2)
    gmsh.finalize()
    return result
