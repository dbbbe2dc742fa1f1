// Least, mean and largest over all parts, with the bands where they are of
// one part.
function thickness(data) {
  const shown = record(shownPart(data).thickness_um);
  if (!isRack(data)) return shown;
  const rack = record(data.rack);
  const heaviest = records(data.parts).map((p) => record(p.thickness_um))
    .reduce((best, um) => !isNumber(best.max) || um.max > best.max ? um : best,
      {});
  return {
    min: shown.min, min_band: shown.min_band,
    mean: record(rack.mean_thickness_um).mean,
    max: heaviest.max, max_band: heaviest.max_band,
  };
}

// ---- what to do ----
function advice(data) {
  const steps = records(data.steps);
  const target = record(data.target);
  const um = thickness(data);
  const set = total(steps);
  const burning = steps.filter((s) => s.burning === true);
  if (burning.length > 0) {
    const worst = Math.max(...burning.map((s) =>
      isNumber(s.max_current_density_A_dm2) ? s.max_current_density_A_dm2
        : 0));
    return "Lower the current" + (worst > 0
      ? ": the densest spot takes " + digits(worst) +
        " A/dm², where the coating burns." : ": the coating burns.");
  }
  if (!isRecord(data.target)) {
    return "Put a target thickness into the case file to have the coating " +
      "judged.";
  }
  const needed = target.time_needed_min;
  if (target.met === true) {
    // In steps of unlike current the last one's is not the plan.
    const last = record(data.cell).current_A;
    const alike = records(data.steps).every((s) =>
      Math.abs(record(s.cell).current_A - last) <= 1e-3 * last);
    if (set > 0 && isNumber(last) && !alike) {
      return "Plate as planned, for " + minutes(set) + " in all.";
    }
    return set > 0 && isNumber(last)
      ? "Plate as planned: " + withUnit(data.cell.current_A, "A") +
        " for " + minutes(set) + "."
      : "Plate as planned.";
  }
  if (!isNumber(needed)) {
    return "More time alone will not do: bring an anode nearer to the thin " +
      "spot, or turn the part.";
  }
  // Several times as long fills edges long before it fills the thin spot.
  if (set > 0 && needed > 3 * set) {
    return "More time alone is a poor way, it would take about " +
      minutes(needed) + ": bring an anode nearer to the thin spot, or turn " +
      "the part.";
  }
  let text = "Plate for about " + minutes(needed);
  if (set > 0) text += " in place of " + minutes(set);
  text += " at the same current";
  if (set > 0 && isNumber(um.max)) {
    text += "; the heaviest spot then grows to about " +
      digits(um.max * needed / set, 2) + " µm";
  }
  return text + ".";
}

function key(name, value, band) {
  return make("div", {}, make("dt", {}, name), make("dd", {}, value,
    band ? make("span", { class: "band" }, band) : null));
}

function verdict(data) {
  const target = record(data.target);
  const words = record(data.words);
  const layered = isLayered(data);
  const met = layered ? allMet(data) : target.met;
  const judged = typeof met === "boolean";
  const kind = !judged ? "" : met ? " met" : " missed";
  const big = !judged ? "No target set"
    : met ? "✓ Target met" + (layered ? " in every layer" : "")
      : "✗ Target not met";
  const cell = record(data.cell);
  const um = thickness(data);
  const set = total(records(data.steps));
  const ranged = (name, value, band, unit) =>
    key(name, banded(value, band, unit), bandText(value, band, unit));
  const numbers = make("dl", { class: "numbers" },
    ranged("thinnest spot", um.min, um.min_band, "µm"),
    ranged("mean", um.mean, um.mean_band, "µm"),
    ranged("heaviest spot", um.max, um.max_band, "µm"),
    isNumber(target.wanted_um)
      ? key("wanted at least", withUnit(target.wanted_um, "µm")) : null,
    layered ? null : ranged("current", cell.current_A, cell.current_A_band, "A"),
    layered || records(data.rectifiers).length > 1 ? null
      : ranged("voltage", cell.voltage_V, cell.voltage_V_band, "V"),
    set > 0 ? key("time", minutes(set)) : null);
  return make("div", { class: "verdict" + kind },
    make("h2", { class: "big" }, big),
    layered
      ? layerAdvice(data).map((text) => make("p", { class: "todo" }, text))
      : make("p", { class: "todo" }, advice(data)),
    isText(words.verdict) ? make("p", {}, words.verdict) : null,
    numbers,
    bandText(um.min, um.min_band, "µm") !== ""
      ? make("p", { class: "kind" }, "“a to b”: where the true value lies " +
        "in 95 of 100 cases like this.") : null);
}
