"""dolfinx_peer.py TASK FINENESS REPEATS FOLDER: the tasks of gmsh_tasks.py with
dolfinx, whose compiled forms are in its cache from earlier runs."""

import sys

import numpy as np
import ufl
from dolfinx import fem
from dolfinx.io import VTKFile, gmshio
from dolfinx.mesh import meshtags
from mpi4py import MPI
from petsc4py import PETSc

import gmsh
import gmsh_cell
import gmsh_tasks


class Solver:
    def __init__(self, cell, large=False):
        mesh, _, borders = gmshio.model_to_mesh(
            gmsh.model, MPI.COMM_WORLD, 0, gdim=2)
        self.mesh = mesh
        space = fem.FunctionSpace(mesh, ("Lagrange", 2))
        self.unknowns = space.dofmap.index_map.size_global
        self.u = fem.Function(space)
        p, q = ufl.TrialFunction(space), ufl.TestFunction(space)
        self.tags = [gmsh_cell.COIN + k for k in range(len(cell.coins))]
        ds = ufl.Measure("ds", domain=mesh, subdomain_data=borders)
        # All coins in one, for their law; each of its own for its mean.
        self.conductance = fem.Constant(mesh, PETSc.ScalarType(1 / cell.slope))
        kappa = fem.Constant(mesh, PETSc.ScalarType(cell.conductivity))
        on_coins = borders.indices[borders.values >= gmsh_cell.COIN]
        whole = meshtags(mesh, 1, np.sort(on_coins),
                         np.ones(len(on_coins), dtype=np.int32))
        coins = ufl.Measure("ds", domain=mesh, subdomain_data=whole)(1)
        self.form = fem.form(kappa * ufl.inner(ufl.grad(p), ufl.grad(q)) * ufl.dx
                             + self.conductance * p * q * coins)
        zero = fem.Constant(mesh, PETSc.ScalarType(0))
        self.load = fem.form(zero * q * ufl.dx)
        held = fem.locate_dofs_topological(space, 1,
                                           borders.find(gmsh_cell.SHEET))
        self.held = fem.dirichletbc(PETSc.ScalarType(1), held, space)
        self.edges = self.edges_of(space, on_coins)
        # Means by the nodes' weights: a form for each coin would be compiled
        # once and assembled as often.
        weight = fem.petsc.assemble_vector(fem.form(q * coins)).array.copy()
        self.weights = []
        for tag in self.tags:
            nodes = np.unique(self.edges_of(space, borders.find(tag)))
            self.weights.append((nodes, weight[nodes]))
        self.matrix = fem.petsc.create_matrix(self.form)
        self.solver = PETSc.KSP().create(mesh.comm)
        self.solver.setOperators(self.matrix)
        if large:
            self.solver.setType("cg")
            self.solver.getPC().setType("hypre")
            self.solver.getPC().setHYPREType("boomeramg")
            self.solver.setTolerances(rtol=1e-9)
        else:
            self.solver.setType("preonly")
            self.solver.getPC().setType("cholesky")
            self.solver.getPC().setFactorSolverType("mumps")
        self.held_list = [self.held]

    def edges_of(self, space, facets):
        topology = self.mesh.topology
        topology.create_connectivity(1, 2)
        topology.create_connectivity(2, 1)
        to_cell, to_facet = topology.connectivity(1, 2), topology.connectivity(2, 1)
        closure = [space.dofmap.dof_layout.entity_closure_dofs(1, k)
                   for k in range(3)]
        rows = []
        for facet in facets:
            c = to_cell.links(facet)[0]
            k = int(np.where(to_facet.links(c) == facet)[0][0])
            rows.append(space.dofmap.cell_dofs(c)[closure[k]])
        return np.array(rows)

    def solve(self, slope):
        self.conductance.value = 1 / slope
        self.matrix.zeroEntries()
        fem.petsc.assemble_matrix(self.matrix, self.form, bcs=self.held_list)
        self.matrix.assemble()
        b = fem.petsc.assemble_vector(self.load)
        fem.petsc.apply_lifting(b, [self.form], [self.held_list])
        fem.petsc.set_bc(b, self.held_list)
        self.solver.setOperators(self.matrix)
        self.solver.solve(b, self.u.vector)
        if self.solver.getConvergedReason() < 0:
            sys.exit("did not converge")

    def coin_values(self):
        return self.u.x.array[self.edges]

    def means(self):
        return [float(w @ self.u.x.array[nodes] / w.sum())
                for nodes, w in self.weights]

    def write(self, folder):
        with VTKFile(self.mesh.comm, folder + "/section.pvd", "w") as file:
            file.write_function(self.u)


if __name__ == "__main__":
    gmsh_tasks.run(Solver, sys.argv[1:])
