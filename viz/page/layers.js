// Several layers on one part, each with its own tank, steps and target.
const isLayered = (data) => records(data.layers).length > 1;

// A layer as if it stood alone, for what asks about one case.
function asCase(data, layer) {
  const number = records(data.layers).indexOf(layer) + 1;
  return {
    part: records(layer.parts)[0], parts: layer.parts, cell: layer.cell,
    target: layer.target,
    steps: records(data.steps).filter((s) => s.layer === number),
  };
}

// Whether every target is met; nothing where no layer has one.
function allMet(data) {
  const met = records(data.layers).map((l) => record(l.target).met)
    .filter((m) => typeof m === "boolean");
  return met.length > 0 ? met.every((m) => m) : null;
}

// Over the area of all copies.
function meanOfAll(layer) {
  let sum = 0, area = 0;
  for (const part of records(layer.parts)) {
    sum += record(part.thickness_um).mean * part.area_cm2;
    area += part.area_cm2;
  }
  return sum / area;
}

function layerTable(data) {
  if (!isLayered(data)) return null;
  const um = (which) => (layer) => thickness(asCase(data, layer))[which];
  return card("Layer by layer",
    bullets(texts(record(data.words).layers).map(capital)),
    table("Layers, the first one lowest", [
      ["layer", "name"],
      ["from", "solution"],
      ["onto", "onto"],
      ["time min", "duration_min", "number given"],
      ["current A", inside("cell", "current_A"), "number"],
      ["voltage V", inside("cell", "voltage_V"), "number"],
      ["least µm", um("min"), "number"],
      ["mean µm", meanOfAll, "number"],
      ["largest µm", um("max"), "number"],
      ["wanted µm", inside("target", "wanted_um"), "number"],
    ], records(data.layers)));
}

// What each layer adds at a probe.
const probeColumns = (data) => !isLayered(data) ? []
  : records(data.layers).map((layer) => [layer.name + " µm",
    (probe) => record(records(layer.probes)
      [records(data.probes).indexOf(probe)]).thickness_um, "number"]);
