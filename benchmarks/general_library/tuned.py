# SPDX-License-Identifier: GPL-3.0-or-later
"""The table of rod_and_disc.toml as an expert with the library writes it.

Order 3 on a graded mesh for v = psi q / r^2, q = r^2 + r0^2 (A_phi = r v / q, regular on the axis). Forms are compiled
once and bound to each new mesh; what is linear is assembled once a displacement, the steel alone in every Newton step;
one symbolic Cholesky factorisation a displacement; start extrapolated along the current.
"""

import numpy as np
import ufl
from dolfinx import cpp, fem, jit
from dolfinx.mesh import locate_entities_boundary
from petsc4py import PETSc

import physics
from runner import run
from section_mesh import AIR, OUTSIDE, Sizes, frame_of, mesh_section

SIZES = Sizes(sharp=0.4e-3, growth=1.1, coil=7e-3, rim=24e-3, ratio=1.8)
ORDER = 3
BLENDING = 3e-3  # r0, m
CLOSE_ENOUGH = 1e-7  # energy still to be won in a step over what the magnets give: the last step


def flux(v, r):
    q = r**2 + BLENDING**2
    return ufl.as_vector((-r / q * v.dx(1), 2 * BLENDING**2 / q**2 * v + r / q * v.dx(0)))


class Forms:
    """All integrals, compiled with the first mesh; bound to another one without any symbolic work."""

    def __init__(self, device, radius, mesh, space, hat_space):
        x, domain = ufl.SpatialCoordinate(mesh), mesh.ufl_domain()
        dx = ufl.Measure("dx", domain, metadata={"quadrature_degree": 2 * ORDER})
        r, u, v = x[0], ufl.TrialFunction(space), ufl.TestFunction(space)
        hat, hat_test = ufl.TrialFunction(hat_space), ufl.TestFunction(hat_space)
        state, weight = ufl.Coefficient(space), ufl.Coefficient(hat_space)
        roles = {state: "state", weight: "weight"}
        b, b_test = flux(u, r), flux(v, r)
        turn = 2 * ufl.pi * r
        ufl_forms = {
            "linear": turn * ufl.dot(physics.air(b), b_test) * dx(AIR)
            + turn * ufl.dot(physics.outside(b, x, radius), b_test) * dx(OUTSIDE),
            "pattern": u * v * dx(metadata={"quadrature_degree": 1}),  # with room for the steel
            "per_ampere": 0,
            "magnets": 0,
            "steel": 0,
            "laplace": ufl.dot(ufl.grad(hat), ufl.grad(hat_test)) * dx,
            "force": turn * physics.pull(flux(state, r), weight) * dx(AIR),
        }
        for part in device.parts:
            here = dx(physics.tag_of(device, part))
            if part.kind == "core":
                ufl_forms["steel"] += turn * ufl.dot(physics.froehlich(part, flux(state, r)), b_test) * here
                continue
            ufl_forms["linear"] += turn / (physics.MU0 * part.mu_r) * ufl.dot(b, b_test) * here
            if part.kind == "magnet":
                ufl_forms["magnets"] += turn * part.remanence / (physics.MU0 * part.mu_r) * b_test[1] * here
            else:
                ufl_forms["per_ampere"] += turn * physics.turns_per_area(part) * r / (r**2 + BLENDING**2) * v * here
        ufl_forms["tangent"] = ufl.derivative(ufl_forms["steel"], state, u)
        self.compiled = {}
        for name, form in ufl_forms.items():
            binary, module, code = jit.ffcx_jit(mesh.comm, form, form_compiler_params={"scalar_type": "double"})
            found = form.coefficients()
            needs = [roles[found[binary.original_coefficient_position[k]]]
                     for k in range(binary.num_coefficients)]
            hats = [argument.ufl_function_space() is hat_space for argument in form.arguments()]
            self.compiled[name] = (binary, module, code, needs, hats)

    def bind(self, mesh, tags, space, hat_space, functions):
        kind = type("Form", (fem.forms.FormMetaClass, cpp.fem.Form_float64), {})
        kinds = cpp.fem.IntegralType
        where = {kinds.cell: tags, kinds.exterior_facet: None, kinds.interior_facet: None, kinds.vertex: None}
        inner_mesh = mesh.ufl_domain().ufl_cargo()
        return {name: kind(binary, [(hat_space if hat else space)._cpp_object for hat in hats],
                           [functions[need]._cpp_object for need in needs], [], where, inner_mesh, module.ffi, code)
                for name, (binary, module, code, needs, hats) in self.compiled.items()}


def cholesky(matrix):
    """The ordering is kept as long as the pattern is. Not in dense blocks: at this size they take twice as long."""
    solver = PETSc.KSP().create(matrix.comm)
    solver.setOperators(matrix)
    solver.setType("preonly")
    solver.getPC().setType("cholesky")
    solver.getPC().setFactorSolverType("cholmod")
    solver.setFromOptions()
    return solver


class Table:
    def __init__(self, device, split, scale):
        self.device, self.split, self.sizes = device, split, SIZES.times(scale)
        self.frame = frame_of(device, SIZES.ratio)
        self.forms = None

    def displacement(self, displacement):
        """Forces at all currents, N."""
        with self.split("meshing"):
            mesh, tags = mesh_section(self.device, displacement, self.frame, self.sizes)
        with self.split("set-up"):
            section = self.section(mesh, tags)
        return self.along_currents(*section)

    def section(self, mesh, tags):
        space, hat_space = fem.FunctionSpace(mesh, ("Lagrange", ORDER)), fem.FunctionSpace(mesh, ("Lagrange", 1))
        self.unknowns = space.dofmap.index_map.size_local
        if not self.forms:
            self.forms = Forms(self.device, self.frame.radius, mesh, space, hat_space)
        state, weight = fem.Function(space), fem.Function(hat_space)
        forms = self.forms.bind(mesh, tags, space, hat_space, {"state": state, "weight": weight})
        far = locate_entities_boundary(mesh, 1, lambda x: np.hypot(x[0], x[1]) > 1.99 * self.frame.radius)
        edge = fem.locate_dofs_topological(space, 1, far)
        fixed = [fem.dirichletbc(0.0, edge, space)]
        linear = fem.petsc.assemble_matrix(forms["pattern"])
        linear.assemble()
        linear.zeroEntries()
        fem.petsc.assemble_matrix(linear, forms["linear"], bcs=fixed)
        linear.assemble()
        loads = [fem.petsc.assemble_vector(forms[name]) for name in ("magnets", "per_ampere")]
        self.find_weight(forms["laplace"], weight, hat_space, tags)
        return forms, state, linear, loads

    def find_weight(self, laplace, weight, hat_space, tags):
        """1 on what moves, 0 on what does not, harmonic in the air between."""
        held = []
        for cells, value in physics.held_cells(self.device, tags):
            held.append(np.unique(hat_space.dofmap.list.array.reshape(-1, 3)[cells]))
            weight.x.array[held[-1]] = value
        fixed = [fem.dirichletbc(weight, np.unique(np.concatenate(held)))]
        matrix = fem.petsc.assemble_matrix(laplace, bcs=fixed)
        matrix.assemble()
        right = matrix.createVecRight()
        fem.petsc.apply_lifting(right, [laplace], [fixed])
        fem.petsc.set_bc(right, fixed)
        cholesky(matrix).solve(right, weight.vector)

    def along_currents(self, forms, state, linear, loads):
        tangent = linear.duplicate(copy=True)
        solver = cholesky(tangent)
        residual, direction = tangent.createVecs()
        x, before, forces = state.vector, None, []

        def find_residual(current):
            with self.split("residual"):
                linear.mult(x, residual)
                residual.axpy(-1.0, loads[0])
                residual.axpy(-current, loads[1])
                fem.petsc.assemble_vector(residual, forms["steel"])

        for current in self.device.currents:
            last = x.copy()
            if before:  # currents are evenly spaced
                x.axpby(-1.0, 2.0, before)
            before = last if forces else None
            find_residual(current)
            for _ in range(60):
                with self.split("tangent"):
                    linear.copy(tangent, PETSc.Mat.Structure.SAME_NONZERO_PATTERN)
                    fem.petsc.assemble_matrix(tangent, forms["tangent"])
                    tangent.assemble()
                with self.split("solves"):
                    solver.setOperators(tangent)
                    solver.solve(residual, direction)
                slope, share = residual.dot(direction), 1.0
                x.axpy(-1.0, direction)
                self.split.steps += 1
                if slope < CLOSE_ENOUGH * loads[0].dot(x):
                    break
                find_residual(current)
                while abs(residual.dot(direction)) > slope:  # past the valley and up again
                    share /= 2
                    x.axpy(share, direction)
                    find_residual(current)
            else:
                raise RuntimeError(f"no convergence at {current} A")
            with self.split("force"):
                forces.append(fem.assemble_scalar(forms["force"]))
        return forces


if __name__ == "__main__":
    PETSc.Options()["mat_cholmod_factor"] = "SIMPLICIAL"
    run(Table, "tuned")
