// ---- supply, leads and laws agree: solver/circuit, supply, rectifiers ----

// Potential behind each law for voltages between the rails.
function drivesFor(laws, conductance, rails) {
  const width = conductance[0].length, m = laws.length;
  const shifts = new Float64Array(width).fill(1);
  const right = new Float64Array(width);
  let simple = true;
  laws.forEach((law, e) => {
    shifts[e] = law.shift;
    right[e] = law.anode ? rails[law.rectifier] : 0;
    simple = simple && !law.floating && law.series === 0;
  });
  if (simple) return right.map((v, k) => v + shifts[k]);
  const system = [];
  for (let e = 0; e < width; ++e) {
    const row = new Float64Array(width);
    row[e] = 1;
    system.push(row);
    if (e >= m) continue;
    const law = laws[e];
    const shifted = dot(conductance[e], shifts, width);
    if (law.floating) {
      for (let k = 0; k < width; ++k) {
        row[k] = conductance[e][k] / conductance[e][e];
      }
      right[e] = -shifted / conductance[e][e];
    } else {
      for (let k = 0; k < width; ++k) row[k] -= law.series * conductance[e][k];
      right[e] += law.series * shifted;
    }
  }
  const u = solveSmall(system, right);
  return u && u.map((v, k) => v + shifts[k]);
}

function currentsFor(laws, conductance, rails) {
  const drive = drivesFor(laws, conductance, rails);
  return drive && conductance.map((row) => dot(row, drive, drive.length));
}

// Currents are linear in the voltages of all plus rails.
function railLines(laws, geometry, conductance, count) {
  const sums = (rails) => {
    const current = currentsFor(laws, conductance, rails);
    if (!current) return null;
    const s = { given: new Array(count).fill(0), part: 0, cathodes: 0 };
    laws.forEach((law, e) => {
      if (law.anode) s.given[law.rectifier] -= current[e];
      if (law.anode || law.floating) return;
      s.cathodes += current[e];
      if (geometry.electrodes[e].part >= 0) s.part += current[e];
    });
    return s;
  };
  const none = sums(new Array(count).fill(0));
  if (!none) return null;
  const each = [];
  for (let k = 0; k < count; ++k) {
    const rails = new Array(count).fill(0);
    rails[k] = 1;
    const one = sums(rails);
    each.push({
      given: one.given.map((v, r) => v - none.given[r]),
      part: one.part - none.part, cathodes: one.cathodes - none.cathodes,
    });
  }
  return {
    rest: none,
    at(voltages) {
      const s = { given: none.given.slice(), part: none.part,
        cathodes: none.cathodes };
      each.forEach((one, k) => {
        s.part += one.part * voltages[k];
        s.cathodes += one.cathodes * voltages[k];
        one.given.forEach((v, r) => { s.given[r] += v * voltages[k]; });
      });
      return s;
    },
    each,
  };
}

const idle = "idle", blocked = "blocked", bySetting = "setting",
  byLimit = "limit";

// Voltages of the rails at which each supply keeps to its setting or its limit.
function railsWithin(lines, supplies, keeps, partArea, more) {
  const count = supplies.length;
  const solve = () => {
    const system = [], right = [];
    for (let k = 0; k < count; ++k) {
      const s = supplies[k], row = new Array(count).fill(0);
      const slope = (r) => lines.each[r].given[k];
      row[k] = 1;
      let value = 0;
      if (keeps[k] === blocked) {
        for (let r = 0; r < count; ++r) row[r] = slope(r);
        value = -lines.rest.given[k];
      } else if (keeps[k] !== idle &&
                 (keeps[k] === byLimit || s.voltage !== null)) {
        for (let r = 0; r < count; ++r) row[r] += s.lead * more * slope(r);
        value = (s.voltage !== null ? s.voltage : s.voltage_limit) -
          s.lead * more * lines.rest.given[k];
      } else if (keeps[k] !== idle && s.current !== null) {
        for (let r = 0; r < count; ++r) row[r] = more * slope(r);
        value = s.current - more * lines.rest.given[k];
      } else if (keeps[k] !== idle) {
        for (let r = 0; r < count; ++r) row[r] = lines.each[r].part;
        value = s.current_density * partArea - lines.rest.part;
      }
      system.push(row);
      right.push(value);
    }
    return solveSmall(system, right);
  };
  for (let round = 0; round < 200; ++round) {
    const voltages = solve();
    if (!voltages) return null;
    const sums = lines.at(voltages);
    let changed = false;
    supplies.forEach((s, k) => {
      if (keeps[k] === idle || keeps[k] === blocked || s.voltage !== null ||
          s.voltage_limit === null) {
        return;
      }
      const current = more * sums.given[k];
      const terminals = voltages[k] + s.lead * current;
      const beyond = 1 + 1e-12;
      const over = keeps[k] === bySetting
        ? terminals > beyond * s.voltage_limit
        : s.current !== null ? current > beyond * s.current
          : sums.part > beyond * s.current_density * partArea;
      if (!over) return;
      keeps[k] = keeps[k] === bySetting ? byLimit : bySetting;
      changed = true;
    });
    if (changed) continue;
    const least = -1e-12 * Math.max(...sums.given.map(Math.abs));
    supplies.forEach((_, k) => {
      if (supplies.length === 1 || keeps[k] === idle || keeps[k] === blocked ||
          sums.given[k] >= least) {
        return;
      }
      keeps[k] = blocked;
      changed = true;
    });
    if (!changed) return voltages;
  }
  return null;
}

// Drives, currents and what the meters show; null where no current flows.
// supplies: [{current, current_density, voltage, voltage_limit, lead}]
function operate(model, geometry, laws, conductance, supplies) {
  const count = supplies.length;
  const lines = railLines(laws, geometry, conductance, count);
  if (!lines ||
      !(lines.each.reduce((sum, one) => sum + one.cathodes, 0) > 0)) {
    return null;
  }
  const used = supplies.map((_, k) =>
    laws.some((law) => law.anode && law.rectifier === k));
  let more = 1, voltages = null, sums = null, keeps = null;
  for (let round = 0; round < 100; ++round) {
    keeps = used.map((u) => (u ? bySetting : idle));
    voltages = railsWithin(lines, supplies, keeps, model.part_area, more);
    if (!voltages) return null;
    sums = lines.at(voltages);
    const before = more;
    if (model.wires > 0 && sums.cathodes > 0) {
      more = 1 + model.wires * sums.part / sums.cathodes;
    }
    if (Math.abs(more - before) <= 1e-13 * more) break;
  }
  const drive = drivesFor(laws, conductance, voltages);
  if (!drive) return null;
  const wireCurrent = model.wires * sums.part;
  const total = sums.cathodes + wireCurrent;
  const rails = supplies.map((s, k) => {
    const gives = keeps[k] !== idle && keeps[k] !== blocked;
    const current = gives ? more * sums.given[k] : 0;
    return { current, voltage: voltages[k] + s.lead * current,
      keeps: keeps[k] };
  });
  const leading = rails.reduce((best, r) =>
    r.current > (1 + 1e-9) * best.current ? r : best, rails[0]);
  return {
    drive, current: conductance.map((row) => dot(row, drive, drive.length)),
    total, voltage: leading.voltage,
    limited: leading.keeps === byLimit, rails,
  };
}
