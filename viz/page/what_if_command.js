// ---- what is tried, as the command line takes it ----

// A word that a shell takes as it stands.
function shellWord(text) {
  if (/^[\w.,:=/-]+$/.test(text)) return text;
  return /["$`\\!]/.test(text) ? "'" + text.replaceAll("'", "'\\''") + "'"
    : '"' + text + '"';
}

const asTable = (entries) => "{ " + entries
  .map(([key, value]) => `${key} = ${value}`).join(", ") + " }";

const valueText = (value, unit) =>
  String(Number(value.toPrecision(6))) + (unit ? " " + unit : "");

const quotedText = (value, unit) => `"${valueText(value, unit)}"`;

// What each step's own supply or rectifiers are set to, [[key, table]]: the
// command line takes them as a whole, and without them they stay.
function ownSupplies(model, settings) {
  const all = new Map(), limit = settings.voltageLimit;
  if (settings.current === 1 && limit === undefined) return [];
  for (const [key, value, unit] of model.keys.current) {
    const [, start, number, what, name, setting] = key.match(
      /^(step\.(\d+)\.(supply|rectifiers))(?:\.(.*))?\.([^.]+)$/) || [];
    if (!start) continue;
    const step = model.steps[number - 1];
    const from = what === "supply" ? step.supply
      : step.rectifiers.find((r) => r.name === name);
    const entries = [[setting, quotedText(value * settings.current, unit)]];
    const most = limit === undefined ? from.voltage_limit : limit;
    if (setting !== "voltage" && most !== null) {
      entries.push(["voltage_limit", quotedText(most, "V")]);
    }
    all.set(start, what === "supply" ? entries : (all.get(start) || [])
      .concat([[JSON.stringify(name), asTable(entries)]]));
  }
  return [...all].map(([key, entries]) => [key, asTable(entries)]);
}

// How a step turns where the one before it does not.
function ownTurning({ turning }) {
  if (!turning) return "{ positions = 1 }";
  return asTable(turning.positions === 0
    ? [["rate", quotedText(60 * turning.rate, "rpm")]]
    : [["positions", turning.positions]].concat(turning.dwell > 0
      ? [["dwell", quotedText(turning.dwell, "s")]] : []));
}

// The keys that the knobs turn, [[key, value]].
function turnedKeys(model, settings) {
  const keys = [];
  for (const knob of ["current", "conductivity", "polarization"]) {
    if (settings[knob] === 1) continue;
    for (const [key, value, unit] of model.keys[knob]) {
      if (!/^step\.\d+\.(supply|rectifiers)\./.test(key)) {
        keys.push([key, valueText(value * settings[knob], unit)]);
      }
    }
  }
  if (settings.voltageLimit !== undefined) {
    const { rectifiers } = model.steps[0];
    const tables = rectifiers ? rectifiers.map((r) => "rectifier." + r.name)
      : ["supply"];
    for (const table of tables) {
      keys.push([table + ".voltage_limit",
        valueText(settings.voltageLimit, "V")]);
    }
  }
  keys.push(...ownSupplies(model, settings));
  if (settings.efficiency !== 1 && !model.by_density) {
    keys.push(["solution.efficiency", valueText(Math.min(1,
      model.steps[0].efficiency * settings.efficiency))]);
  }
  settings.steps.forEach((step, k) => {
    const key = `step.${k + 1}.`, before = settings.steps[k - 1];
    if (step.duration !== model.steps[k].duration) {
      keys.push([key + "duration", valueText(step.duration / 60, "min")]);
    }
    if (step.positions > 0) {
      keys.push([key + "turning", `{ positions = ${step.positions} }`]);
    } else if (before && before.positions > 0) {
      keys.push([key + "turning", ownTurning(model.steps[k])]);
    }
  });
  return keys;
}

// What is tried last.
function asCommand(model, settings) {
  const file = model.file ? model.file + ":" : "";
  return turnedKeys(model, settings).map(([key, value]) => "--set " +
    (/^[\w.]+$/.test(key) ? file + key + "=" + shellWord(value)
      : shellWord(file + key + "=" + value))).join(" ");
}
