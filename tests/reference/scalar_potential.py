# SPDX-License-Identifier: GPL-3.0-or-later
"""The field of a section by the scalar potential: H = T - grad phi with curl T = J and div B = 0.

The program under test does the opposite: it takes B from a vector potential, so that div B = 0 holds and
curl H = J is approximated. It ends space by a series of multipoles; here the outside of the half circle of
radius R is mapped into the ring R < s < 2 R by rho = R^2 / (2 R - s), which leaves a permeability of
mu0 (R/s)^2 along s and of mu0 (R / (2 R - s))^2 across; phi = 0 at s = 2 R.

T points along z: in the bore of the coil it is NI over the coil's height, in the winding it falls to 0
linearly with r, elsewhere it is 0.
"""

import numpy as np
import ufl
from dolfinx import fem
from petsc4py import PETSc

from device import MU0
from graded_mesh import Tags


class Section:
    """One mesh with its materials; solves for one current after the other."""

    def __init__(self, device, marked_mesh, radius, degree):
        self.mesh, self.cells, self.edges = marked_mesh
        self.device = device
        self.r, z = ufl.SpatialCoordinate(self.mesh)
        self.space = fem.FunctionSpace(self.mesh, ("Lagrange", degree))
        self.phi = fem.Function(self.space)
        self.current = fem.Constant(self.mesh, 0.0)
        self.quadrature = {"quadrature_degree": 2 * degree + 4}
        end = fem.locate_dofs_topological(self.space, 1, self.edges.find(Tags.END))
        self.fixed = [fem.dirichletbc(0.0, end, self.space)]

        parts = device.parts
        coil = device.coil()
        inner, outer = coil.corners[0][0], coil.corners[1][0]
        height = coil.corners[2][1] - coil.corners[0][1]
        winding = self.marked(lambda part, slab: part is coil)
        bore = self.marked(lambda part, slab: slab)
        ramp = bore + winding * (outer - self.r) / (outer - inner)
        self.t_per_ampere = ufl.as_vector((0.0, coil.turns / height * ramp))
        self.field = self.t_per_ampere * self.current - ufl.grad(self.phi)

        self.mu = self.per_part(lambda part: part.mu_r * MU0, MU0)
        self.saturation = self.per_part(lambda part: part.saturation, 0.0)
        self.half_field = self.per_part(lambda part: part.half_field, 1.0)
        self.remanence = self.per_part(lambda part: part.remanence, 0.0)

        outside = self.tagged({Tags.OUTSIDE: 1.0}, 0.0)
        s = ufl.sqrt(self.r**2 + z**2)
        along = ufl.as_vector((self.r, z)) / s
        across = ufl.as_vector((-z, self.r)) / s
        h = self.field
        size = ufl.sqrt(ufl.dot(h, h) + 1e-10)
        inside = (self.mu + self.saturation / (size + self.half_field)) * h
        inside += ufl.as_vector((0.0, self.remanence))
        mapped = MU0 * ((radius / s) ** 2 * ufl.dot(h, along) * along
                        + (radius / (2 * radius - s)) ** 2 * ufl.dot(h, across) * across)
        self.b = (1 - outside) * inside + outside * mapped
        self.outside = outside

        test = ufl.TestFunction(self.space)
        residual = self.integral(-ufl.dot(self.b, ufl.grad(test)))
        self.residual = fem.form(residual)
        self.tangent = fem.form(ufl.derivative(residual, self.phi))
        self.weight = self.force_weight()
        self.force_form = fem.form(self.force())
        self.linkage_form = fem.form(self.integral(ufl.dot(self.b, self.t_per_ampere)))
        self.coenergy_form = fem.form(self.coenergy(size, along, across, radius, s))

    def integral(self, density):
        return 2 * ufl.pi * self.r * density * ufl.dx(metadata=self.quadrature)

    def tagged(self, values, otherwise):
        """A number for each cell, by its tag."""
        space = fem.FunctionSpace(self.mesh, ("DG", 0))
        result = fem.Function(space)
        result.x.array[:] = otherwise
        for tag, value in values.items():
            result.x.array[self.cells.find(tag)] = value
        return result

    def per_part(self, value, otherwise):
        values = {}
        for i, part in enumerate(self.device.parts):
            values[Tags.FIRST_PART + i] = values[Tags.FIRST_PART + i + Tags.SLAB] = value(part)
        return self.tagged(values, otherwise)

    def marked(self, choose):
        """1 in the cells of parts, or air, that are chosen; slab tells whether they lie inside the coil's bore."""
        values = {Tags.AIR + Tags.SLAB: float(choose(None, True))}
        for i, part in enumerate(self.device.parts):
            values[Tags.FIRST_PART + i] = float(choose(part, False))
            values[Tags.FIRST_PART + i + Tags.SLAB] = float(choose(part, True))
        return self.tagged(values, 0.0)

    def force_weight(self):
        """1 on what moves, 0 on all other parts and outside, harmonic in the air between."""
        g = fem.Function(self.space)
        held = fem.Function(self.space)
        dofs = []
        for tag in np.unique(self.cells.values):
            if tag % Tags.SLAB == Tags.AIR:
                continue
            mine = fem.locate_dofs_topological(self.space, 2, self.cells.find(tag))
            part = None if tag == Tags.OUTSIDE else self.device.parts[tag % Tags.SLAB - Tags.FIRST_PART]
            held.x.array[mine] = 1.0 if part and part.moving else 0.0
            dofs.append(mine)
        fixed = [fem.dirichletbc(held, np.unique(np.concatenate(dofs)))]
        u, v = ufl.TrialFunction(self.space), ufl.TestFunction(self.space)
        stiffness = fem.form(self.integral(ufl.dot(ufl.grad(u), ufl.grad(v))))
        matrix = fem.petsc.assemble_matrix(stiffness, bcs=fixed)
        matrix.assemble()
        right = matrix.createVecRight()
        fem.petsc.apply_lifting(right, [stiffness], [fixed])
        fem.petsc.set_bc(right, fixed)
        solve(matrix, right, g.vector)
        return g

    def force(self):
        """Maxwell's stress, weighted: F = - integral T . grad g, with T dot z = mu0 (H H_z - z H^2 / 2)."""
        h, g = self.field, ufl.grad(self.weight)
        # g has a slope in air alone
        return self.integral(-MU0 * (h[1] * ufl.dot(h, g) - 0.5 * ufl.dot(h, h) * g[1]))

    def coenergy(self, size, along, across, radius, s):
        """W' = integral of (integral of B dH)."""
        h, half = self.field, self.half_field
        inside = (0.5 * self.mu * ufl.dot(h, h) + self.remanence * h[1]
                  + self.saturation * (size - half * ufl.ln(1 + size / half)))
        mapped = 0.5 * MU0 * ((radius / s) ** 2 * ufl.dot(h, along) ** 2
                              + (radius / (2 * radius - s)) ** 2 * ufl.dot(h, across) ** 2)
        return self.integral((1 - self.outside) * inside + self.outside * mapped)

    def solve(self, current):
        """Newton's method from the field that is there. Returns force N, linkage Wb, coenergy J, steps."""
        self.current.value = current
        for step in range(60):
            direction = fem.Function(self.space)
            residual = self.residual_at()
            matrix = fem.petsc.assemble_matrix(self.tangent, bcs=self.fixed)
            matrix.assemble()
            solve(matrix, residual, direction.vector)
            matrix.destroy()
            decrement = residual.dot(direction.vector)
            self.go_down(direction, decrement)
            values = [fem.assemble_scalar(form) for form in
                      (self.force_form, self.linkage_form, self.coenergy_form)]
            if decrement < 1e-13 * abs(values[2]):  # of the coenergy; the step just taken squares what is left
                return (*values, step + 1)
        raise RuntimeError(f"no convergence at {current} A: last decrement {decrement} J")

    def go_down(self, direction, slope_here):
        """phi - t direction where the coenergy, which is convex, stops falling: to a third of its slope here."""
        start = self.phi.x.array.copy()

        def slope(t):
            self.phi.x.array[:] = start - t * direction.x.array
            return self.residual_at().dot(direction.vector)

        low, at_low, t = 0.0, slope_here, 1.0
        for _ in range(30):
            here = slope(t)
            if abs(here) <= slope_here / 3 or slope_here <= 0:
                return
            if here > 0:
                low, at_low, t = t, here, 2 * t
            else:
                t = low + (t - low) * max(0.1, at_low / (at_low - here))

    def residual_at(self):
        vector = fem.petsc.assemble_vector(self.residual)
        fem.petsc.set_bc(vector, self.fixed, self.phi.vector, 1.0)
        return vector


def solve(matrix, right, unknown):
    solver = PETSc.KSP().create(matrix.comm)
    solver.setOperators(matrix)
    solver.setType("preonly")
    solver.getPC().setType("lu")
    solver.getPC().setFactorSolverType("mumps")
    solver.solve(right, unknown)
    solver.destroy()
