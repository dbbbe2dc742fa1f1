// ---- the case reduced to a few functions, as io/what_if_json writes it ----
// Matrices are flat and row by row, in double precision once they are here.

function floats(text) {
  const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  return Float64Array.from(new Float32Array(bytes.buffer));
}

// From the lower triangle, row by row.
function symmetric(text, n) {
  const lower = floats(text), full = new Float64Array(n * n);
  for (let r = 0, k = 0; r < n; ++r) {
    for (let c = 0; c <= r; ++c) full[r * n + c] = full[c * n + r] = lower[k++];
  }
  return full;
}

function readGeometry(data) {
  const n = data.size;
  return {
    size: n, held: data.held, rows: data.rows,
    stiffness: data.stiffness.map((text) => symmetric(text, n)),
    electrodes: data.electrodes.map((e) => ({
      part: e.part, measure: e.measure, mass: symmetric(e.mass, n),
      weight: floats(e.weight),
      gauss: e.gauss ? floats(e.gauss) : null,
      sizes: e.sizes ? floats(e.sizes) : null,
    })),
    parts: data.parts.map((p) => ({
      potential: floats(p.potential), wetted: floats(p.wetted),
      held: p.held ? p.held.map(floats) : null,
    })),
  };
}

function readPart(data) {
  const at = floats(data.places), count = data.marks.length;
  const starts = [0];
  for (const n of data.counts) starts.push(starts[starts.length - 1] + n);
  return {
    name: data.name, area: data.area, faces: data.faces,
    nodeAreas: floats(data.node_areas), count,
    x: at.filter((_, k) => k % 3 === 0), y: at.filter((_, k) => k % 3 === 1),
    arc: at.filter((_, k) => k % 3 === 2),
    loop: data.loops, length: data.lengths, face: data.face,
    open: data.marks.map((m) => (m & 1) > 0),
    judged: data.marks.map((m) => (m & 2) > 0),
    starts, nodes: data.nodes, weights: floats(data.weights),
  };
}

function readModel(data) {
  return Object.assign({}, data, {
    geometries: data.geometries.map(readGeometry),
    parts: data.parts.map(readPart),
  });
}
