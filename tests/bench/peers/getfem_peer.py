"""getfem_peer.py TASK FINENESS REPEATS FOLDER: the tasks of gmsh_tasks.py with
GetFEM, which reads Gmsh's files."""

import os
import sys
import tempfile

import getfem as gf
import gmsh
import numpy as np

import gmsh_cell
import gmsh_tasks

# Of a second-order triangle's nodes, rows of points from below: those of the
# side opposite to each corner, its ends and its middle.
SIDES = np.array([[2, 5, 4], [0, 5, 3], [0, 2, 1]])
ALL_COINS = 10000

gf.util_trace_level(0)


class Solver:
    def __init__(self, cell, large=False):
        gmsh.option.setNumber("Mesh.MshFileVersion", 2.2)
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "cell.msh")
            gmsh.write(path)
            mesh = gf.Mesh("import", "gmsh", path)
        field = gf.MeshFem(mesh, 1)
        field.set_classical_fem(2)
        integration = gf.MeshIm(mesh, 4)
        self.field, self.unknowns = field, field.nbdof()
        tags = [gmsh_cell.COIN + k for k in range(len(cell.coins))]
        faces = np.hstack([mesh.region(t) for t in tags])
        mesh.set_region(ALL_COINS, faces)
        self.model = gf.Model("real")
        self.model.add_fem_variable("u", field)
        self.model.add_initialized_data("kappa", cell.conductivity)
        self.model.add_initialized_data("conductance", 1 / cell.slope)
        self.model.add_initialized_data("volt", 1)
        self.model.add_generic_elliptic_brick(integration, "u", "kappa")
        self.model.add_Fourier_Robin_brick(integration, "u", "conductance",
                                           ALL_COINS)
        self.model.add_Dirichlet_condition_with_simplification(
            "u", gmsh_cell.SHEET, "volt")
        nodes, begin = field.basic_dof_from_cvid(faces[0])
        starts = np.asarray(begin[:len(faces[0])], dtype=int)
        self.edges = np.array([nodes[s + SIDES[f]] for s, f in
                               zip(starts, faces[1])])
        one = np.ones((1, self.unknowns))
        self.weights = [gf.asm_boundary_source(t, integration, field, field, one)
                        for t in tags]

    def solve(self, slope):
        self.model.set_variable("conductance", 1 / slope)
        self.model.solve("lsolver", "mumps")
        self.u = self.model.variable("u")

    def coin_values(self):
        return self.u[self.edges]

    def means(self):
        return [float(w @ self.u / w.sum()) for w in self.weights]

    def write(self, folder):
        self.field.export_to_vtk(folder + "/section.vtk", self.u, "potential")


if __name__ == "__main__":
    gmsh_tasks.run(Solver, sys.argv[1:])
