# SPDX-License-Identifier: GPL-3.0-or-later
"""The table of rod_and_disc.toml as a competent user of the library writes it.

Order 2 for A_phi, a new mesh for every displacement, the library's own Newton solver, started from the field of the
current before; force by Maxwell's stress over the air, weighted harmonically.
"""

import numpy as np
import ufl
from dolfinx import fem, nls
from dolfinx.mesh import exterior_facet_indices

import physics
from runner import run
from section_mesh import AIR, OUTSIDE, Sizes, frame_of, mesh_section

SIZES = Sizes(sharp=0.2e-3, growth=0.4, coil=3e-3, rim=14e-3, ratio=1.7)
ORDER = 2
DIRECT = {"ksp_type": "preonly", "pc_type": "lu", "pc_factor_mat_solver_type": "mumps"}


def flux(a, r):
    return ufl.as_vector((-a.dx(1), a.dx(0) + a / r))


class Table:
    def __init__(self, device, split, scale):
        self.device, self.split, self.sizes = device, split, SIZES.times(scale)
        self.frame = frame_of(device, SIZES.ratio)

    def displacement(self, displacement):
        """Forces at all currents, N."""
        with self.split("meshing"):
            mesh, tags = mesh_section(self.device, displacement, self.frame, self.sizes)
        with self.split("set-up"):
            space = fem.FunctionSpace(mesh, ("Lagrange", ORDER))
            self.unknowns = space.dofmap.index_map.size_local
            x = ufl.SpatialCoordinate(mesh)
            dx = ufl.Measure("dx", mesh, subdomain_data=tags, metadata={"quadrature_degree": 2 * ORDER + 2})
            mesh.topology.create_connectivity(1, 2)
            edge = fem.locate_dofs_topological(space, 1, exterior_facet_indices(mesh.topology))
            fixed = [fem.dirichletbc(0.0, edge, space)]  # the axis, and infinity
            a, test = fem.Function(space), ufl.TestFunction(space)
            current = fem.Constant(mesh, 0.0)

            b, b_test = flux(a, x[0]), flux(test, x[0])
            round_axis = 2 * ufl.pi * x[0]
            residual = round_axis * ufl.dot(physics.air(b), b_test) * dx(AIR)
            residual += round_axis * ufl.dot(physics.outside(b, x, self.frame.radius), b_test) * dx(OUTSIDE)
            for part in self.device.parts:
                residual += round_axis * ufl.dot(physics.h_of(part, b), b_test) * dx(physics.tag_of(self.device, part))
            coil = self.device.coil()
            residual -= (round_axis * physics.turns_per_area(coil) * current * test
                         * dx(physics.tag_of(self.device, coil)))
            problem = fem.petsc.NonlinearProblem(residual, a, fixed)
            newton = nls.petsc.NewtonSolver(mesh.comm, problem)
            newton.convergence_criterion = "incremental"
            newton.rtol = 1e-6
            newton.krylov_solver.setType("preonly")
            newton.krylov_solver.getPC().setType("lu")
            newton.krylov_solver.getPC().setFactorSolverType("mumps")
            force = fem.form(round_axis * physics.pull(b, self.weight(space, tags, dx)) * dx(AIR))
        forces = []
        for current.value in self.device.currents:
            with self.split("Newton"):
                steps, _ = newton.solve(a)
                self.split.steps += steps
            with self.split("force"):
                forces.append(fem.assemble_scalar(force))
        return forces

    def weight(self, space, tags, dx):
        g, u, v = fem.Function(space), ufl.TrialFunction(space), ufl.TestFunction(space)
        dofs = []
        for cells, value in physics.held_cells(self.device, tags):
            dofs.append(fem.locate_dofs_topological(space, 2, cells))
            g.x.array[dofs[-1]] = value
        fixed = fem.dirichletbc(g, np.unique(np.concatenate(dofs)))
        stiffness = ufl.dot(ufl.grad(u), ufl.grad(v)) * dx
        zero = fem.Constant(space.mesh, 0.0) * v * dx
        return fem.petsc.LinearProblem(stiffness, zero, [fixed], petsc_options=DIRECT).solve()


if __name__ == "__main__":
    run(Table, "plain")
