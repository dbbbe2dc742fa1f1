// ---- the knobs of the what-if ----

const onScale = ([low, high], share) => low * Math.pow(high / low, share);
const offScale = ([low, high], value) =>
  Math.log(value / low) / Math.log(high / low);

let knobs = 0;

// A slider on a logarithmic scale with its label and what it stands at.
// {label, range, value, text(value), changed(value), help}
function knob(spec) {
  const id = "knob-" + ++knobs;
  const input = make("input", { type: "range", id, min: "0", max: "1000",
    step: "1", "aria-describedby": spec.help ? id + "-help" : null });
  const output = make("output", { for: id });
  const show = (value) => {
    input.value = String(Math.round(1000 * offScale(spec.range, value)));
    output.textContent = spec.text(value);
    input.setAttribute("aria-valuetext", spec.text(value));
  };
  input.addEventListener("input", () => {
    const step = Number(input.value);
    // The case's own value is met exactly, however coarse the slider.
    const own = Math.round(1000 * offScale(spec.range, spec.value));
    spec.changed(step === own ? spec.value
      : onScale(spec.range, step / 1000));
  });
  show(spec.value);
  return { show, top: spec.range[1], row: make("div", { class: "knob" },
    make("label", { for: id }, spec.label), output, input,
    spec.help ? make("p", { class: "help", id: id + "-help" }, spec.help)
      : null) };
}

const allAlike = (values) =>
  values.every((v) => Math.abs(v - values[0]) <= 1e-9 * Math.abs(values[0]));

// What the supplies are set to, in words for a factor.
function settingOf(model) {
  const set = model.steps.flatMap((s) => s.rectifiers || [s.supply]);
  const by = ["voltage", "current", "current_density"]
    .find((key) => set.every((s) => s[key] !== null)) || null;
  const [label, unit, size] = by === "voltage" ? ["Voltage", "V", 1]
    : by === "current_density" ? ["Current density, mean", "A/dm²", 0.01]
      : ["Current", "A", 1];
  const alike = by !== null && allAlike(set.map((s) => s[by]));
  return { by, label, text: (factor) => alike
    ? withUnit(set[0][by] * factor * size, unit)
    : "× " + digits(factor) + " of each" };
}

const cathodesOf = (model) => model.steps.flatMap((s) => s.electrodes
  .filter((e) => !e.anode && !e.floating));

function polarizationText(model) {
  const all = cathodesOf(model);
  const straight = all.every((e) => !e.curve) &&
    allAlike(all.map((e) => e.stated));
  return (factor) => straight && all[0].stated > 0
    ? withUnit(all[0].stated * factor * 1e4, "Ω·cm²") : "× " + digits(factor);
}

// Of the steps that are shown [s].
const totalTime = (settings) => settings.steps.slice(0, settings.until)
  .reduce((sum, s) => sum + s.duration, 0);

// Every knob that the case has something for.
// change(edit): tries edited settings and keeps them or what comes near.
function knobsOf(model, base, change) {
  const set = settingOf(model), all = [];
  const factor = (key, label, text, help) => all.push(knob({
    label, range: model.ranges[key], value: 1, text, help,
    changed: (value) => change((s) => { s[key] = value; }),
  }), key);
  factor("current", set.label, set.text);
  const volts = Math.max(...base.steps.map((s) => s.voltage));
  const supplies = model.steps.flatMap((s) => s.rectifiers || [s.supply]);
  const limits = supplies.map((s) => s.voltage_limit);
  // An adapter has nothing to set it with.
  if (set.by !== "voltage" && !supplies.some((s) => s.adapter)) {
    const range = [0.3 * volts, 3 * volts];
    all.push(knob({
      label: "Voltage limit", range, value: range[1],
      text: (value) => value < range[1] ? withUnit(value, "V")
        : limits.every((v) => v !== null) && allAlike(limits)
          ? "as set, " + withUnit(limits[0], "V") : "as set",
      changed: (value) => change((s) => {
        if (value < range[1]) s.voltageLimit = value;
        else delete s.voltageLimit;
      }),
    }), "voltageLimit");
  }
  const own = totalTime(asTheCase(model));
  all.push(knob({
    label: "Time", range: [0.1 * own, 6 * own], value: own,
    text: (value) => minutes(Number((value / 60).toPrecision(3))),
    changed: (value) => change((s) => {
      const by = value / totalTime(s);
      s.steps.forEach((step) => { step.duration *= by; });
    }),
  }), "time");
  factor("conductivity", "Solution conducts", (by) =>
    allAlike(model.steps.map((s) => s.conductivity))
      ? withUnit(model.steps[0].conductivity * by, "S/m")
      : "× " + digits(by));
  if (cathodesOf(model).some((e) => e.stated > 0 || e.curve)) {
    factor("polarization", "Polarization at the part",
      polarizationText(model), "Brighteners and other additives raise it.");
  }
  const share = model.steps[0].efficiency;
  const full = 1 / share;
  if (full > 0.1) {
    all.push(knob({
      label: "Share of the current that makes metal", range: [0.1 * full, full], value: 1,
      text: (by) => digits(100 * share * by) + " %",
      changed: (value) => change((s) => { s.efficiency = value; }),
    }), "efficiency");
  }
  const result = [];
  for (let k = 0; k < all.length; k += 2) {
    result.push({ knob: all[k], key: all[k + 1] });
  }
  return result;
}

// The steps one by one: minutes, and at how many positions a part turns.
function stepList(model, change) {
  const rows = model.steps.map((step, k) => {
    const number = model.steps.length > 1 ? `Step ${k + 1}` : "The step";
    const time = make("input", { type: "number", min: "0", step: "any",
      "aria-label": `${number}: minutes` });
    time.addEventListener("change", () => change((s) => {
      const value = Number(time.value);
      if (value >= 0 && value < 1e6) s.steps[k].duration = 60 * value;
    }));
    let turn = null;
    if (step.positions.length > 0) {
      const count = step.positions.length;
      turn = make("select", { "aria-label": `${number}: turning` },
        make("option", { value: "0" }, "as planned"),
        make("option", { value: "1" }, "not turned"),
        [2, 3, 4, 6, 8, 12, count].map((n) =>
          make("option", { value: String(n) }, n === count
            ? "turning all the time" : `${n} positions`)));
      turn.addEventListener("change", () => change((s) => {
        s.steps[k].positions = Number(turn.value);
      }));
    }
    return { time, turn, number };
  });
  const show = (settings) => rows.forEach((row, k) => {
    row.time.value = String(Number(
      (settings.steps[k].duration / 60).toPrecision(4)));
    if (row.turn) row.turn.value = String(settings.steps[k].positions);
  });
  const needed = model.steps.length > 1 || rows.some((row) => row.turn);
  const turns = rows.some((row) => row.turn);
  return { show, list: !needed ? null : make("table", { class: "steps" },
    make("caption", {}, "Steps to try"),
    make("thead", {}, make("tr", {}, ["step", "minutes"]
      .concat(turns ? ["turning"] : [])
      .map((head) => make("th", { scope: "col" }, head)))),
    make("tbody", {}, rows.map((row) => make("tr", {},
      make("th", { scope: "row" }, row.number), make("td", {}, row.time),
      turns ? make("td", {}, row.turn || "") : null)))) };
}
