"""The tasks of tests/bench/compare for a program that is handed Gmsh's meshes.
What they ask for stands in tests/bench/side_by_side/tasks.py. Prints lines of a
word and numbers: each "figure" [A/m2], for each repeat "cpu" and "wall"
seconds."""

import copy
import math
import os
import time

import gmsh

import gmsh_cell


def run(make_solver, arguments):
    """make_solver(cell): from Gmsh's current model, with `unknowns`,
    `solve(slope)`, `coin_values()` (rows of end, end, middle of all edges of
    coins [V]), `means()` (of each coin [V]) and `write(folder)`."""
    task, fineness, repeats, folder = arguments
    fineness = float(fineness)
    gmsh.initialize()
    gmsh.option.setNumber("General.Verbosity", 1)
    for _ in range(int(repeats)):
        clocks = Clocks()
        solver = TASKS[task](make_solver, fineness, folder, clocks)
        clocks.tell()
        print("unknowns", solver.unknowns)


class Clocks:
    """By the wall, and by the processor; what was set up does not count."""

    def __init__(self):
        self.set_up = None
        self.start()

    def start(self):
        self.wall, self.cpu = time.perf_counter(), time.process_time()

    def set_up_is_done(self):
        self.set_up = time.process_time() - self.cpu
        self.start()

    def tell(self):
        print("cpu", time.process_time() - self.cpu)
        print("wall", time.perf_counter() - self.wall)
        if self.set_up is not None:
            print("set_up_cpu", self.set_up)


def drawn(make_solver, cell, n):
    gmsh.clear()
    gmsh_cell.draw(cell, n)
    return make_solver(cell)


def tell(solver, cell, slope, behind="", mean_wanted=None):
    means = solver.means()
    mean = sum(means) / len(means)
    scale = mean_wanted / mean if mean_wanted else 1e6 / slope
    least, largest = gmsh_cell.extremes(solver.coin_values())
    for name, value in (("least", least), ("mean", mean), ("largest", largest)):
        print(f"figure {name}{behind} {scale * value:.12g}")
    if len(means) > 1:
        for k, value in enumerate(means):
            print(f"figure mean_{k} {scale * value:.12g}")


def coin(make_solver, n, folder, clocks, cell=gmsh_cell.Cell):
    solver = drawn(make_solver, cell, n)
    solver.solve(cell.slope)
    tell(solver, cell, cell.slope)
    return solver


def rack(make_solver, n, folder, clocks):
    return coin(make_solver, n, folder, clocks, gmsh_cell.Rack)


def files(make_solver, n, folder, clocks):
    solver = coin(make_solver, n, folder, clocks)
    solver.write(folder)
    with open(os.path.join(folder, "surface.csv"), "w") as table:
        table.write("current_density_A_m2\n")
        for row in solver.coin_values():
            table.write(f"{1e6 / gmsh_cell.Cell.slope * row[0]}\n")
    return solver


def angles(make_solver, n, folder, clocks):
    for k in range(72):
        cell = copy.copy(gmsh_cell.Cell())
        cell.angle = 2 * math.pi * k / 72
        solver = drawn(make_solver, cell, n)
        solver.solve(cell.slope)
        tell(solver, cell, cell.slope, f"_{k}")
    return solver


def changes(make_solver, n, folder, clocks):
    cell = gmsh_cell.Cell
    solver = drawn(make_solver, cell, n)
    clocks.set_up_is_done()
    for k in range(200):
        slope = 130 + 390 * k / 199
        solver.solve(slope)
        tell(solver, cell, slope, f"_{k}", 100 + 200 * ((k * 83) % 200) / 199)
    return solver


def large(make_solver, wanted, folder, clocks):
    """Of about as many unknowns: a sound mesh, all triangles split again and
    again. Making it is not counted."""
    n, splits = 4, None
    for _ in range(5):  # until the start fits
        gmsh.clear()
        gmsh_cell.draw(gmsh_cell.Cell, n)
        # A node for every unknown; each split makes four triangles of one.
        unknowns = len(gmsh.model.mesh.getNodes()[0])
        if splits is None:
            splits = max(0, round(math.log(wanted / unknowns, 4)))
        share = wanted / unknowns / 4**splits
        if abs(share - 1) < 0.03:
            break
        n *= share**0.6  # sizes away from the coins change less than the number
    gmsh.model.mesh.setOrder(1)
    for _ in range(splits):
        gmsh.model.mesh.refine()
    solver = make_solver(gmsh_cell.Cell, True)
    clocks.start()
    solver.solve(gmsh_cell.Cell.slope)
    tell(solver, gmsh_cell.Cell, gmsh_cell.Cell.slope)
    return solver


TASKS = {"coin": coin, "rack": rack, "files": files, "angles": angles,
         "changes": changes, "large": large}
