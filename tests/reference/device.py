# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads the device files, with a reader of its own: of the program only the file format is shared."""

import math
import tomllib
from dataclasses import dataclass

MU0 = 4e-7 * math.pi  # H/m


@dataclass
class Part:
    """One part of the section. Lengths in metres, densities in tesla."""

    name: str
    kind: str  # "core", "coil" or "magnet"
    corners: list  # of (r, z), once round
    moving: bool
    turns: float = 0.0
    mu_r: float = 1.0
    remanence: float = 0.0  # along +z
    saturation: float = 0.0  # of the Froehlich law J = saturation * H / (H + half_field)
    half_field: float = 1.0  # A/m

    def shifted(self, displacement):
        by = displacement if self.moving else 0.0
        return [(r, z + by) for r, z in self.corners]


@dataclass
class Device:
    parts: list
    displacements: list  # m
    currents: list  # A

    def coil(self):
        (coil,) = [part for part in self.parts if part.kind == "coil"]
        return coil


def corners_of(table):
    if "profile" in table:
        return [(1e-3 * point["r_mm"], 1e-3 * point["z_mm"]) for point in table["profile"]]
    shape = table.get("tube", table.get("cylinder"))
    inner = 1e-3 * shape.get("inner_radius_mm", 0.0)
    outer = 1e-3 * shape.get("outer_radius_mm", shape.get("radius_mm"))
    low, high = 1e-3 * shape["from_mm"], 1e-3 * shape["to_mm"]
    return [(inner, low), (outer, low), (outer, high), (inner, high)]


def listed(values):
    """The numbers of a list or of { from, to, points }."""
    if isinstance(values, list):
        return values
    low, high, points = values["from"], values["to"], values["points"]
    return [low + (high - low) * k / (points - 1) for k in range(points)]


def read_device(path):
    with open(path, "rb") as stream:
        words = tomllib.load(stream)
    parts = []
    for kind in ("core", "coil", "magnet"):
        for name, table in words.get(kind, {}).items():
            part = Part(name, kind, corners_of(table), name in words["motion"]["moving"])
            if kind == "coil":
                part.turns = table["turns"]
            elif kind == "magnet":
                assert table["magnetised"] == "+z"
                part.mu_r = table["material"]["recoil_permeability"]
                part.remanence = table["material"]["remanence_T"]
            else:
                assert table["material"]["law"] == "froehlich"
                part.saturation = table["material"]["saturation_polarization_T"]
                part.half_field = table["material"]["half_field_A_per_m"]
            parts.append(part)
    (currents,) = words["current"].values()
    return Device(parts, [1e-3 * one for one in listed(words["motion"]["displacement_mm"])], listed(currents))
