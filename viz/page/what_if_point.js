// ---- the working point and the coating that it leaves ----

const restShare = 1e-3;  // as in solver/rescaling

function scaledSupply(s, settings) {
  const by = (value) => (value === null ? null : value * settings.current);
  const limit = settings.voltageLimit !== undefined ? settings.voltageLimit
    : s.voltage_limit;
  return {
    current: by(s.current), current_density: by(s.current_density),
    voltage: by(s.voltage), voltage_limit: s.voltage === null ? limit : null,
    lead: s.lead,
  };
}

// Laws at the start of the search, and what it needs to know of each.
function lawsOf(step, geometry, settings) {
  return step.electrodes.map((said, e) => {
    const by = said.anode || said.floating ? 1 : settings.polarization;
    const law = {
      anode: said.anode, floating: said.floating, rectifier: said.rectifier,
      shift: said.shift, series: said.series,
      resistance: said.resistance * by, tangent: null,
      rescales: !said.floating && said.at > 0 && said.stated > 0 && !said.curve,
      stated: said.stated * by, at: said.at, bag: said.bag || 0,
      curve: said.curve ? lawCurve(said.curve, by) : null,
      sign: said.anode ? -1 : 1,
    };
    // Without rescaling the law stays as it is stated.
    if (!law.rescales && !law.curve && !law.floating) {
      law.resistance = law.stated + law.bag;
    }
    if (law.curve) {
      law.over = new Float64Array(geometry.electrodes[e].sizes.length)
        .fill(said.curve.over);
    }
    return law;
  });
}

const meanDensity = (model, geometry, laws, current, e) =>
  (laws[e].anode ? -1 : 1) * current[e] /
    (geometry.electrodes[e].measure * model.depth);

// Logarithm of the resistance that follows from a current.
function followed(model, geometry, laws, current, e) {
  const mean = Math.max(meanDensity(model, geometry, laws, current, e),
    restShare * laws[e].at);
  return Math.log(laws[e].stated * laws[e].at / mean + laws[e].bag);
}

function rescale(model, geometry, laws, found, supplies) {
  const which = laws.map((_, e) => e).filter((e) => laws[e].rescales);
  const before = which.map((e) => Math.log(laws[e].resistance));
  const after = which.map((e) =>
    followed(model, geometry, laws, found.point.current, e));
  const change = Math.max(0, ...which.map((_, k) =>
    Math.abs(after[k] - before[k])));
  if (which.length === 0 || change < 1e-9) return change;
  const difference = 1e-5;
  const system = which.map((_, r) => which.map((_, c) => (r === c ? -1 : 0)));
  let sane = true;
  which.forEach((e, k) => {
    const by = conductanceChange(model, geometry, laws, found.x, e);
    const moved = found.conductance.map((row, a) =>
      row.map((v, b) => v + difference * by[a][b]));
    const point = operate(model, geometry, laws, moved, supplies);
    if (!point) { sane = false; return; }
    which.forEach((other, r) => {
      system[r][k] +=
        (followed(model, geometry, laws, point.current, other) - after[r]) /
        difference;
    });
  });
  const step = sane
    ? solveSmall(system, before.map((b, k) => b - after[k])) : null;
  const good = step && step.every((s) => Math.abs(s) < 2);
  which.forEach((e, k) => {
    laws[e].resistance = Math.exp(good ? before[k] + step[k] : after[k]);
  });
  return change;
}

// Newton's method along curved laws; how far they still are.
function followCurves(geometry, laws, found) {
  const n = geometry.size;
  let apart = 0;
  const potential = new Float64Array(n);
  found.x.forEach((column, d) => {
    for (let k = 0; k < n; ++k) potential[k] += found.point.drive[d] * column[k];
  });
  laws.forEach((law, e) => {
    if (!law.curve) return;
    const gauss = geometry.electrodes[e].gauss, t = law.tangent;
    let most = 0, largest = 0;
    for (let p = 0; p < law.over.length; ++p) {
      const over = dot(gauss.subarray(p * n, p * n + n), potential, n) -
        found.point.drive[e];
      const density = law.sign * (t.slopes[p] * over + t.rests[p]);
      const there = law.sign * over - law.bag * density;
      const exact = law.curve.at(there)[0];
      most = Math.max(most, Math.abs(exact - density));
      largest = Math.max(largest, Math.abs(exact));
      law.over[p] = limitedStep(law.curve, law.over[p], there);
    }
    apart = Math.max(apart, largest > 0 ? most / largest : most);
  });
  return apart;
}

function settle(model, geometry, turn, conductivity, laws, supplies) {
  laws.forEach((law, e) => {
    if (!law.curve) return;
    law.tangent = tangentOn(geometry.electrodes[e], law.curve, law.sign,
      law.bag, law.over, geometry.size);
    law.resistance = geometry.electrodes[e].measure / law.tangent.sum;
  });
  const found = answers(model, geometry, turn, conductivity, laws);
  if (!found) return null;
  found.point =
    operate(model, geometry, laws, found.conductance, supplies);
  return found.point ? found : null;
}

// Where supply, leads and laws agree; null where they cannot.
function workingPoint(model, step, turn, settings) {
  const geometry = model.geometries[step.geometry];
  const supplies = (step.rectifiers || [step.supply])
    .map((s) => scaledSupply(s, settings));
  const conductivity = step.conductivity * settings.conductivity;
  const laws = lawsOf(step, geometry, settings);
  for (let round = 0; round < 60; ++round) {
    const found = settle(model, geometry, turn, conductivity, laws, supplies);
    if (!found) return null;
    const used = laws.map((law) => ({ resistance: law.resistance }));
    const bent = followCurves(geometry, laws, found);
    const change =
      Math.max(bent, rescale(model, geometry, laws, found, supplies));
    if (change < 1e-8) {
      return found.point.total > 0
        ? Object.assign(found, { laws, used, conductivity, geometry }) : null;
    }
  }
  return null;
}

// Conductivity times polarization of the cathode that has least, over what the
// mesh was made for.
function resolvedShare(step, found, settings) {
  let least = Infinity;
  found.laws.forEach((law, e) => {
    const before = step.electrodes[e].resistance;
    if (law.anode || law.floating || !(before > 0)) return;
    least = Math.min(least,
      settings.conductivity * found.used[e].resistance / before);
  });
  return least;
}

// Current density at the nodes of a part's coat, into the part.
function densityOn(found, part, turn) {
  const geometry = found.geometry, n = geometry.size;
  const e = geometry.electrodes.findIndex((one) => one.part === part);
  const on = geometry.parts[part], law = found.laws[e];
  const x = new Float64Array(n);
  found.x.forEach((column, d) => {
    for (let k = 0; k < n; ++k) x[k] += found.point.drive[d] * column[k];
  });
  const held = !law.tangent && found.used[e].resistance === 0;
  const functions = held ? on.held[turn] : on.potential;
  const density = new Float64Array(on.wetted.length);
  for (let k = 0; k < density.length; ++k) {
    const value = dot(functions.subarray(k * n, k * n + n), x, n);
    const over = value - on.wetted[k] * found.point.drive[e];
    density[k] = held ? found.conductivity * value
      : law.curve ? (on.wetted[k] > 0 ? law.curve.at(over)[0] : 0)
        : over / found.used[e].resistance;
  }
  return density;
}

// The current density that would deposit as much at the stated efficiency.
function depositing(table, density) {
  if (table.length === 0) return density;
  const size = Math.abs(density);
  let k = 0;
  while (k < table.length && table[k][0] <= size) ++k;
  if (k === 0) return density * table[0][1];
  if (k === table.length) return density * table[k - 1][1];
  const [[a, p], [b, q]] = [table[k - 1], table[k]];
  return density * (p + (q - p) / (b - a) * (size - a));
}

const atPlaces = (part, values) => {
  const result = new Float64Array(part.count);
  for (let k = 0; k < part.count; ++k) {
    for (let j = part.starts[k]; j < part.starts[k + 1]; ++j) {
      result[k] += part.weights[j] * values[part.nodes[j]];
    }
  }
  return result;
};

// Least (sign -1) or largest along a part.
function extreme(part, along, set, sign) {
  let at = -1;
  for (let k = 0; k < part.count; ++k) {
    if (set[k] && (at < 0 || sign * along[k] > sign * along[at])) at = k;
  }
  return at < 0 ? NaN : along[at];
}

// How long a part is at each of its angles [any unit]: solver/turning.
function timesAtStops(count, dwell, duration) {
  const each = dwell > 0 ? dwell : duration / count;
  const rounds = Math.floor(duration / (each * count));
  const rest = duration - rounds * each * count;
  return Array.from({ length: count }, (_, k) =>
    rounds * each + Math.min(each, Math.max(0, rest - k * each)));
}

function timesNear(turns, count) {
  const rounds = Math.floor(turns), rest = turns - rounds, half = 0.5 / count;
  const overlap = (from, to) =>
    Math.max(0, Math.min(to, rest) - Math.max(from, 0));
  return Array.from({ length: count }, (_, k) => {
    const at = k / count;
    return rounds / count + overlap(at - half, at + half) +
      overlap(at - half + 1, at + half + 1);
  });
}

// Shares of the time at turns, the first one last: a step ends as it began.
function sharedOut(turns, times) {
  const sum = times.reduce((s, t) => s + t, 0);
  const shared = turns.map((turn, k) => [turn, times[k] / sum])
    .filter(([, share]) => share > 1e-12);
  return shared.slice(1).concat(shared.slice(0, 1));
}

// Turns of a step with their shares of its time: as the case has them, or
// evenly spread positions.
function turnsOf(step, set) {
  const all = step.positions, turning = step.turning;
  if (set.positions > 0 && all.length > 0) {
    const turns = Array.from({ length: set.positions }, (_, k) =>
      all[k * all.length / set.positions]);
    return sharedOut(turns, turns.map(() => 1));
  }
  if (!turning || !(set.duration > 0)) return step.turns;
  const count = turning.angles.length;
  return sharedOut(turning.angles, turning.positions > 0
    ? timesAtStops(count, turning.dwell, set.duration)
    : timesNear(Math.abs(turning.rate) * set.duration, count));
}

// All of it: thickness [m] along every part, and what the meters show.
// settings: {current, conductivity, polarization, efficiency, voltageLimit,
//   until, steps: [{duration, positions}]}; factors but for the limit [V], how
//   many steps count, durations [s] and positions (0: as the case has it).
//   null where no current flows.
function whatIf(model, settings) {
  const parts = model.parts.map((p) => ({
    nodes: new Float64Array(p.nodeAreas.length), volume: 0,
  }));
  const steps = [];
  let resolved = Infinity;
  for (let s = 0; s < settings.until; ++s) {
    const step = model.steps[s], set = settings.steps[s];
    const efficiency = Math.min(1, step.efficiency * settings.efficiency);
    let shown = null, largest = 0;
    for (const [turn, share] of turnsOf(step, set)) {
      const found = workingPoint(model, step, turn, settings);
      if (!found) return null;
      shown = found.point;
      resolved = Math.min(resolved, resolvedShare(step, found, settings));
      const growth =
        model.growth_per_charge * efficiency * set.duration * share;
      model.parts.forEach((part, p) => {
        const density = densityOn(found, p, turn);
        const sum = parts[p];
        for (let k = 0; k < density.length; ++k) {
          sum.nodes[k] += growth * depositing(model.efficiency_table,
            density[k]);
        }
        const e = found.geometry.electrodes.findIndex((one) => one.part === p);
        sum.volume += growth * found.point.current[e];
        const averaged = atPlaces(part, density);
        for (let k = 0; k < part.count; ++k) {
          if (part.open[k]) largest = Math.max(largest, averaged[k]);
        }
      });
    }
    steps.push({ current: shown.total, voltage: shown.voltage,
      limited: shown.limited, largest });
  }
  return {
    steps, resolved,
    parts: model.parts.map((part, p) => {
      const along = atPlaces(part, parts[p].nodes);
      const volume = model.by_density
        ? dot(part.nodeAreas, parts[p].nodes, part.nodeAreas.length)
        : parts[p].volume;
      return { along, mean: volume / part.area, least: extreme(part, along, part.open, -1),
        largest: extreme(part, along, part.open, 1),
        leastJudged: extreme(part, along, part.judged, -1) };
    }),
  };
}

const asTheCase = (model) => ({
  current: 1, conductivity: 1, polarization: 1, efficiency: 1,
  until: model.steps.length,
  steps: model.steps.map((s) => ({ duration: s.duration, positions: 0 })),
});
