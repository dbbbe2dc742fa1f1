const inside = (outer, inner) => (row) => record(row[outer])[inner];
const um = (which) => inside("thickness_um", which);
const density = (which) => inside("current_density_A_dm2", which);

function tables(data) {
  const part = shownPart(data);
  const rack = isRack(data) ? records(data.parts) : [];
  const percent = (row) => isNumber(row.share_of_current)
    ? 100 * row.share_of_current : null;
  const cathodes = (caption, head, rows) => table(caption, [
    [head, "name"],
    ["area cm²", "area_cm2", "number"],
    ["current A", "current_A", "number"],
    ["share of all %", percent, "number"],
    ["mean A/dm²", "mean_A_dm2", "number"],
    ["largest A/dm²", "max_A_dm2", "number"],
  ], records(rows));
  return card("In numbers",
    table("Parts on the rack", [
      ["part", "name"],
      ["least µm", um("min"), "number"],
      ["mean µm", um("mean"), "number"],
      ["largest µm", um("max"), "number"],
      ["mean A/dm²", density("mean"), "number"],
      ["current A", "current_A", "number"],
    ], rack),
    table(rack.length > 0 && isText(part.name)
      ? "Faces of " + part.name + ", which has the thinnest spot"
      : "Faces of the part", [
      ["face", (f) => f.judged === false ? f.name + " (not judged)" : f.name],
      ["on the card", "letter"],
      ["least µm", um("min"), "number"],
      ["mean µm", um("mean"), "number"],
      ["largest µm", um("max"), "number"],
      ["mean A/dm²", density("mean"), "number"],
      ["area cm²", "area_cm2", "number"],
    ], records(part.faces)),
    table("Probes", [
      ["probe", "name"], ["on", "face"],
      ["thickness µm", "thickness_um", "number"], ...probeColumns(data),
      ["A/dm²", "current_density_A_dm2", "number"],
    ], records(data.probes)),
    table("Rectifiers", [
      ["rectifier", "name"],
      ["current A", "current_A", "number"],
      ["voltage V", "voltage_V", "number"],
      ["held by", "limited_by"],
    ], records(data.rectifiers)),
    table("Anodes", [
      ["anode", "name"], ["current A", "current_A", "number"],
      ["mean A/dm²", "mean_A_dm2", "number"],
      ["largest A/dm²", "max_A_dm2", "number"],
      ["metal lost g", "mass_loss_g", "number"],
    ], records(data.anodes)),
    cathodes("Clips", "clip", data.clips),
    cathodes("Thieves", "thief", data.thieves),
    table("Unconnected metal", [
      ["metal", "name"],
      ["area cm²", "area_cm2", "number"],
      ["current through it A", "through_A", "number"],
      ["plates at up to A/dm²", "plating_A_dm2", "number"],
      ["dissolves at up to A/dm²", "dissolving_A_dm2", "number"],
    ], records(data.floating)),
    table("Wires", [
      ["wire", "name"], ["bare area cm²", "area_cm2", "number"],
      ["current A", "current_A", "number"],
    ], records(data.wires)),
    table("Steps", [
      ["step", (s) => String(1 + records(data.steps).indexOf(s))],
      ["done", "what"],
      ["time min", "duration_min", "number given"],
      ["current A", inside("cell", "current_A"), "number"],
      ["voltage V", inside("cell", "voltage_V"), "number"],
      ["mean A/dm²", "mean_current_density_A_dm2", "number"],
      ["largest A/dm²", "max_current_density_A_dm2", "number"],
      ["held by", inside("cell", "limited_by")],
      ["least µm until then", inside("thickness_um", "min"), "number"],
      ["largest µm until then", inside("thickness_um", "max"), "number"],
    ], records(data.steps)));
}

// A mesh error as a share of what it is the error of.
function shareOf(of, name, by) {
  const error = of[name + "_mesh_error"], value = by ?? of[name];
  return isNumber(error) && isNumber(value) && value !== 0
    ? digits(100 * Math.abs(error / value), 2) + " %" : null;
}

function meshErrors(part) {
  const t = record(part.thickness_um);
  const shares = ["min", "mean", "max"].map((name) => shareOf(t, name, t.mean));
  return shares.includes(null) ? null
    : "± " + shares.join(", ") + " of the mean thickness";
}

function details(data) {
  const solution = record(data.solution);
  const part = shownPart(data);
  const mesh = record(data.mesh);
  const checks = record(data.checks);
  const plusMinus = (value, pm, unit) => !isNumber(value) ? null
    : plain(value) + (isNumber(pm) && pm > 0 ? " ± " + digits(pm, 2, true) : "") +
      " " + unit;
  const one = isRack(data) && isText(part.name) ? part.name : "the part";
  const rows = [
    ["solution", solution.name],
    ["metal", solution.metal],
    ["conductivity", plusMinus(solution.conductivity_S_m,
      solution.conductivity_S_m_plus_minus, "S/m")],
    ["current efficiency", isNumber(solution.efficiency)
      ? plusMinus(100 * solution.efficiency,
        100 * solution.efficiency_plus_minus, "%") : null],
    ["temperature", isNumber(solution.temperature_degC)
      ? withUnit(solution.temperature_degC, "°C") : null],
    ["stirring", solution.stirring],
    ["wetted area of " + one, isNumber(part.area_cm2)
      ? withUnit(part.area_cm2, "cm²") : null],
    ["metal put on " + one, isNumber(part.mass_g)
      ? withUnit(part.mass_g, "g") : null],
    ["depth of the section", isNumber(data.depth_mm)
      ? withUnit(data.depth_mm, "mm") : null],
    ["triangles, unknowns", isNumber(mesh.triangles)
      ? mesh.triangles + ", " + mesh.dofs : null],
    ["what the mesh may have put off of least, mean, largest",
      meshErrors(part)],
    ["of the cell's resistance", shareOf(record(data.cell), "resistance_ohm")],
    ["residual of the equations", checks.relative_residual],
    ["currents in and out differ by", checks.current_imbalance],
    ["source of the metal's data", solution.metal_source],
  ].filter(([, value]) => isNumber(value) || isText(value))
    .map(([name, value]) => ({ name, value }));
  return make("details", { class: "card" },
    make("summary", {}, "Details and evidence"),
    table("What it was computed with", [["", "name"], ["", "value"]], rows),
    fileTable(data), everything(data, "summary.json"));
}
