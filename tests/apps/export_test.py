# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes a table of an invented device whose coenergy is known in closed form, exports it in every format and reads
each back with a program that is not ours: NumPy, SciPy, netCDF4-python, a C compiler, ngspice.
Run: python3 export_test.py <coilpull> <scratch folder>.   Exit 77: some reader is missing, and which.
"""
import json
import math
import re
import shutil
import subprocess
import sys
from pathlib import Path

SKIPPED = 77
try:
    import numpy as np
except ImportError:
    print("NOT TESTED, nothing of it: no python3-numpy (bash apps/install_packages developer)")
    sys.exit(SKIPPED)

program, scratch = sys.argv[1], Path(sys.argv[2])
missing = []
CIRCUIT = 'dr*/ive "é"'  # ends a comment of C, quotes, and is no ASCII
TITLE = '*/ #error " \\ ?\u003f/ é \n.end'
ohm, volt, displacement = 2.0, 6.0, 3.3e-3


def force(z, i):  # W' = 0.05 exp(-s^2) + 6e-3 i exp(-s^2/2) + 1e-3 i^2 (2 + exp(-s^2)), s = z / 4 mm
    s = z / 4e-3
    g, h = np.exp(-s * s), np.exp(-s * s / 2)
    return (-2 * s * g * (0.05 + 1e-3 * i * i) - s * h * 6e-3 * i) / 4e-3


def linkage(z, i):
    s = z / 4e-3
    return 6e-3 * np.exp(-s * s / 2) + 2e-3 * i * (2 + np.exp(-s * s))


def coenergy(z, i):
    s = z / 4e-3
    return 0.05 * np.exp(-s * s) + 6e-3 * i * np.exp(-s * s / 2) + 1e-3 * i * i * (2 + np.exp(-s * s))


PEAK_N, PEAK_WB = 13.0, 30e-3  # about what the table reaches
Z = np.linspace(-8e-3, 8e-3, 33)
I = np.linspace(-4, 4, 9)


def near(seen, expected, within, what):
    off = np.max(np.abs(np.asarray(seen, dtype=float) - expected))
    assert off < within, f"{what}: off by {off}, allowed {within}"


def run(*words, cwd=scratch, code=0):
    done = subprocess.run([str(w) for w in words], cwd=cwd, capture_output=True, text=True)
    assert done.returncode == code, f"{words}: {done.returncode}\n{done.stdout}{done.stderr}"
    return done.stdout + done.stderr


def write_table():
    shutil.rmtree(scratch, ignore_errors=True)
    out = scratch / "pusher_out"
    out.mkdir(parents=True)
    name = CIRCUIT.replace('"', '""')
    head = ["displacement_mm", f'"current_{name}_A"', "current_other_A", "force_N", "force_numerical_error_N",
            f'"flux_linkage_{name}_Wb"', f'"flux_linkage_numerical_error_{name}_Wb"', "coenergy_J"]
    lines = [",".join(head)]
    for other in (0, 1):
        for z in Z:
            for i in I:
                row = [1e3 * z, i, other, force(z, i) + other, 1e-4, linkage(z, i), 1e-7, coenergy(z, i)]
                lines.append(",".join(repr(float(x)) for x in row))
    (out / "force_table.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    (out / "force_table.csv-metadata.json").write_text(json.dumps({"dc:title": TITLE}))


def check_arrays(read, what):
    z, i = np.ravel(read("displacement_m")), np.ravel(read("current_A"))
    assert (len(z), len(i)) == (65, 17), what
    zz, ii = np.meshgrid(z, i, indexing="ij")
    # the fit is within the bars, 1e-4 N and 1e-7 Wb, at the rows; half way between, splines add about as much
    near(read("force_N"), force(zz, ii), 1e-3, what)
    near(read("flux_linkage_Wb"), linkage(zz, ii), 1e-6, what)
    near(read("inductance_H"), 2e-3 * (2 + np.exp(-((zz / 4e-3) ** 2))), 1e-5, what)
    # force and linkage of a grid come from one W': their cross slopes agree up to the parabolas of the stencil
    cross = np.gradient(read("force_N"), i, axis=1) - read("force_per_ampere_N_per_A")
    near(cross[:, 1:-1], 0, 2e-3, what + ": dF/di")


def check_numpy():
    with np.load(scratch / "pusher_out/pusher.npz", allow_pickle=False) as file:
        check_arrays(lambda name: file[name], "npz")
        assert str(file["circuit"]) == CIRCUIT and "é" in str(file["title"]) and "\n" not in str(file["title"])


def check_mat():
    try:
        from scipy.io import loadmat
    except ImportError:
        return missing.append("python3-scipy")
    file = loadmat(scratch / "pusher_out/pusher.mat")
    head = (scratch / "pusher_out/pusher.mat").read_bytes()[:116].rstrip(b" \0")
    assert head == b"MATLAB 5.0 MAT-file, by coilpull", head  # no date: the same table gives the same bytes
    check_arrays(lambda name: file[name], "mat")
    assert file["circuit"][0] == CIRCUIT


def check_netcdf():
    try:
        from netCDF4 import Dataset
    except ImportError:
        return missing.append("python3-netcdf4")
    with Dataset(scratch / "pusher_out/pusher.nc") as file:
        check_arrays(lambda name: np.array(file[name][:]), "netcdf")
        assert file["force_N"].units == "N" and file["force_N"].dimensions == ("displacement_m", "current_A")
        assert file.circuit == CIRCUIT and file.Conventions.startswith("CF-1")


def check_modelica():
    """By the format's own words: '#1', then  double name(rows,columns)  and so many numbers; # starts a comment."""
    lines = (scratch / "pusher_out/pusher_tables.txt").read_text(encoding="utf-8").split("\n")
    assert lines[0] == "#1"
    text = "\n".join(line.split("#")[0] for line in lines[1:])
    found = {}
    for name, rows, columns, numbers in re.findall(r"double (\w+)\((\d+),(\d+)\)([^a-z]*(?:e[-+]?\d+[^a-z]*)*)", text):
        found[name] = np.array(numbers.split(), dtype=float).reshape(int(rows), int(columns))
    assert sorted(found) == ["coenergy", "flux_linkage", "force", "force_per_ampere", "inductance"], sorted(found)
    matrix = found["force"]
    zz, ii = np.meshgrid(matrix[1:, 0], matrix[0, 1:], indexing="ij")
    near(matrix[1:, 1:], force(zz, ii), 1e-3, "modelica")


def check_c(fixed):
    compiler = shutil.which("cc") or shutil.which("gcc")
    if not compiler:
        return missing.append("gcc")
    end = {"z": "um", "scale": 1e6, "i": "mA", "iscale": 1e3, "f": "mN", "fscale": 1e3, "l": "uWb", "lscale": 1e6} \
        if fixed else {"z": "m", "scale": 1, "i": "A", "iscale": 1, "f": "N", "fscale": 1, "l": "Wb", "lscale": 1}
    run(program, "export", "pusher.toml", "--circuit", CIRCUIT, "--to", "c", *(["--fixed-point"] if fixed else []))
    places = [(-7.9e-3, -3.9), (displacement, 1.23), (8e-3, 4), (-8e-3, -4), (0, 0), (20e-3, 1.0), (1e-3, -9.0)]
    calls = ""
    for z, i in places:
        z_, i_ = (round(z * end["scale"]), round(i * end["iscale"])) if fixed else (f"{float(z)}f", f"{float(i)}f")
        calls += f'  printf("%.9g %.9g %d\\n", (double)pusher_force_{end["f"]}({z_}, {i_}), ' \
                 f'(double)pusher_linkage_{end["l"]}({z_}, {i_}), pusher_covers({z_}, {i_}));\n'
    (scratch / "firmware.c").write_text(
        '#include <stdio.h>\n#include "pusher_out/pusher_table.h"\n#include "pusher_out/pusher_table.h"\n'
        "int main(void) {\n" + calls + "  return 0;\n}\n")
    run(compiler, "-std=c99", "-trigraphs", "-pedantic", "-Wall", "-Wextra", "-Wconversion", "-Werror", "-O2",
        "firmware.c", "-o", "firmware")
    for (z, i), line in zip(places, run(scratch / "firmware").split("\n")):
        f, l, covers = (float(word) for word in line.split())
        inside = abs(z) <= 8e-3 and abs(i) <= 4
        assert covers == (1 if inside else 0), f"covers({z}, {i})"
        z, i = min(max(z, -8e-3), 8e-3), min(max(i, -4), 4)  # beyond: the nearest edge
        # straight lines over 0.25 mm: (h / length)^2 / 8 of the peak
        near(f / end["fscale"], force(z, i), 3e-3 * PEAK_N, f"C, fixed {fixed}, force at {z}, {i}")
        near(l / end["lscale"], linkage(z, i), 3e-3 * PEAK_WB, f"C, fixed {fixed}, linkage at {z}, {i}")


def check_ngspice():
    if not shutil.which("ngspice"):
        return missing.append("ngspice")
    (scratch / "pusher_out/run.cir").write_text(
        f"* the magnet is held at {displacement} m, the coil is put to {volt} V through {ohm} ohm\n"
        f".include pusher.cir\nvs in 0 pulse(0 {volt} 0 1u 1u 1)\nrw in a {ohm}\nvz z 0 {displacement}\n"
        "x1 a 0 z f pusher\n.tran 5u 5m\n.control\nrun\nwrdata seen.txt v(f) i(vs) v(a)\nquit\n.endc\n.end\n")
    run("ngspice", "-b", "run.cir", cwd=scratch / "pusher_out")
    seen = np.loadtxt(scratch / "pusher_out/seen.txt")
    t, f, current, coil = seen[:, 0], seen[:, 1], -seen[:, 3], seen[:, 5]
    # RL rise: at fixed z the linkage is straight in i, L = 2e-3 (2 + exp(-s^2)); started from the rest
    inductance = 2e-3 * (2 + math.exp(-((displacement / 4e-3) ** 2)))
    near(current, volt / ohm * (1 - np.exp(-t * ohm / inductance)), 2e-3 * volt / ohm, "ngspice: current")
    near(f[5:], force(displacement, current[5:]), 3e-3 * PEAK_N, "ngspice: force")
    # what the coil's voltage adds up to is the change of its flux linkage
    added = float(np.sum((coil[1:] + coil[:-1]) / 2 * np.diff(t)))
    near(added, linkage(displacement, current[-1]) - linkage(displacement, 0), 1e-4, "ngspice: flux")


def check_refusals():
    said = run(program, "export", "pusher.toml", "--to", "npz", code=2)
    assert "several circuits" in said and "--circuit" in said, said
    said = run(program, "export", "nowhere.toml", "--to", "npz", code=2)
    assert "there is no such table" in said, said
    said = run(program, "export", "pusher.toml", "--circuit", "other", "--to", "xls", code=2)
    assert "npz" in said, said


write_table()
run(program, "export", "pusher.toml", "--circuit", CIRCUIT, "--to", "npz", "--to", "xspice", "--to", "modelica")
check_numpy()
check_modelica()
check_ngspice()
check_c(fixed=False)
check_c(fixed=True)
check_refusals()
arrays = subprocess.run([program, "export", "pusher.toml", "--circuit", CIRCUIT, "--to", "mat", "--to", "netcdf"],
                        cwd=scratch, capture_output=True, text=True)
if "this build has no libmatio" in arrays.stderr:
    missing.append("libmatio-dev and libnetcdf-dev in this build")
else:
    assert arrays.returncode == 0, arrays.stderr
    check_mat()
    check_netcdf()
if missing:
    print("NOT TESTED for want of " + ", ".join(missing) + ": bash apps/install_packages developer")
    sys.exit(SKIPPED)
shutil.rmtree(scratch)
