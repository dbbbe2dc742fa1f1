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
    isNumber(target.chance)
      ? key("chance of that", chanceText(target.chance)) : null,
    layered ? null : ranged("current", cell.current_A, cell.current_A_band, "A"),
    layered || records(data.rectifiers).length > 1 ? null
      : ranged("voltage", cell.voltage_V, cell.voltage_V_band, "V"),
    set > 0 ? key("time", minutes(set)) : null);
  return make("div", { class: "verdict" + kind },
    make("h2", { class: "big" }, big),
    texts(words.todo).map((text) => make("p", { class: "todo" }, text)),
    isText(words.verdict) ? make("p", {}, words.verdict) : null,
    numbers,
    bandText(um.min, um.min_band, "µm") !== ""
      ? make("p", { class: "kind" }, "“a to b”: where the true value lies " +
        "in 95 of 100 cases like this.") : null);
}
