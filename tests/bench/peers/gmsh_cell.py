"""The cells of the tasks, drawn and meshed with Gmsh for programs that bring no
mesher of their own. Lengths in mm, curved second-order triangles. All sizes go
by one number, the edges on a quarter of a coin's rounding."""

import math

import gmsh

LIQUID, WALL, SHEET, COIN = 1, 1, 2, 3  # physical groups; coins count on


class Cell:
    width, level = 90, 100
    radius, half, edge = 15, 1.2, 0.3
    coins = [(45, 50)]
    sheets = [(7.8, 50)]
    sheet = 35  # half their height; they are 2 mm thick
    angle = 0
    conductivity = 0.02  # S/mm
    slope = 260  # ohm mm2


class Rack(Cell):
    width, level = 200, 454
    radius, half = 12, 1
    coins = [(55 + 30 * (k // 12), 40 + 34 * (k % 12)) for k in range(48)]
    sheets = [(14, 227), (186, 227)]
    sheet = 203


def draw(cell, n):
    """Into Gmsh's current model, meshed. Sizes grow away from roundings and
    from the sheets' corners, where the field has singularities."""
    geo = gmsh.model.geo
    rounding = cell.edge * math.pi / 2 / n
    corner = min(8 / n**2, 27 / n)
    largest = 27 / n

    def lines(points):
        return [geo.addLine(a, b) for a, b in
                zip(points, points[1:] + points[:1])]

    def box(x0, y0, x1, y1, size):
        return lines([geo.addPoint(x, y, 0, size) for x, y in
                      ((x0, y0), (x1, y0), (x1, y1), (x0, y1))])

    walls = box(0, 0, cell.width, cell.level, 60 / n)
    sheets, coins = [], []
    for x, y in cell.sheets:
        sheets.append(box(x - 1, y - cell.sheet, x + 1, y + cell.sheet, corner))
    for x, y in cell.coins:
        coins.append(coin(cell, x, y, rounding))
    loops = [geo.addCurveLoop(b) for b in [walls] + sheets + coins]
    geo.addPlaneSurface(loops, 1)
    geo.synchronize()
    gmsh.model.addPhysicalGroup(2, [1], LIQUID)
    gmsh.model.addPhysicalGroup(1, sum(sheets, []), SHEET)
    for k, borders in enumerate(coins):
        gmsh.model.addPhysicalGroup(1, borders, COIN + k)
    field = gmsh.model.mesh.field
    near = field.add("Distance")
    fine = [p for s in coins for p in ends(s)]
    field.setNumbers(near, "PointsList", fine)
    at_coins = field.add("MathEval")
    field.setString(at_coins, "F", f"{rounding}+0.35*F{near}")
    far = field.add("Distance")
    field.setNumbers(far, "PointsList", [p for s in sheets for p in ends(s)])
    at_sheets = field.add("MathEval")
    field.setString(at_sheets, "F", f"{corner}+0.35*F{far}")
    most = field.add("MathEval")
    field.setString(most, "F", str(largest))
    least = field.add("Min")
    field.setNumbers(least, "FieldsList", [at_coins, at_sheets, most])
    field.setAsBackgroundMesh(least)
    for option in ("MeshSizeExtendFromBoundary", "MeshSizeFromPoints"):
        gmsh.option.setNumber("Mesh." + option, 0)
    gmsh.model.mesh.generate(2)
    gmsh.model.mesh.setOrder(2)


def coin(cell, x, y, size):
    """Its borders: sides and roundings, counter-clockwise."""
    geo = gmsh.model.geo
    c, s = math.cos(cell.angle), math.sin(cell.angle)

    def point(u, v):
        return geo.addPoint(x + u * c - v * s, y + u * s + v * c, 0, size)

    u, v, r = cell.half, cell.radius, cell.edge
    borders, first, last = [], None, None
    for a, b in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
        middle = point(a * (u - r), b * (v - r))
        on_face = point(a * u, b * (v - r))
        on_rim = point(a * (u - r), b * v)
        start, end = (on_face, on_rim) if a * b > 0 else (on_rim, on_face)
        if last is None:
            first = start
        else:
            borders.append(geo.addLine(last, start))
        borders.append(geo.addCircleArc(start, middle, end))
        last = end
    return borders + [geo.addLine(last, first)]


def ends(borders):
    found = gmsh.model.getBoundary([(1, b) for b in borders], combined=False)
    return sorted({tag for _, tag in found})


def extremes(values):
    """Least and largest of the parabolas through rows of end, end, middle."""
    a, b, m = values.T
    bow = 2 * (a + b - 2 * m)
    inside = abs(b - a) < abs(bow)
    a2, b2, m2, bow2 = (x[inside] for x in (a, b, m, bow))
    top = m2 - (b2 - a2) ** 2 / (4 * bow2)
    all_of = [x for x in (a, b, m, top) if x.size]
    return min(x.min() for x in all_of), max(x.max() for x in all_of)
