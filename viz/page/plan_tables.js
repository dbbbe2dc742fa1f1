// ---- set-ups in numbers ----
// [name, field, unit, what is better: "less", "more", or nothing]
const planRows = [
  ["time at the bench", "bench_min", "min", "less"],
  ["of it plating", "plating_min", "min", "less"],
  ["handled while it plates", "turns", "times", "less"],
  ["largest over least thickness", "evenness", "", "less"],
  ["thinnest spot", "least_um", "µm", null],
  ["mean", "mean_um", "µm", null],
  ["heaviest spot", "largest_um", "µm", "less"],
  ["metal deposited", "metal_g", "g", "less"],
  ["densest spot", "densest_A_dm2", "A/dm²", null],
  ["current, first step", "current_A", "A", null],
  ["voltage, first step", "voltage_V", "V", null],
];

function figureOf(setUp, field) {
  const figures = figuresOf(setUp);
  return field === "evenness" ? ratio(figures) : figures[field];
}

// Handlings are counted, all else is measured.
const inTable = (value, field) => field === "turns" ? plain(value)
  : digits(value);

// "43 % less"; nothing below half a per cent.
function gain(before, after, field) {
  if (!isNumber(before) || !isNumber(after)) return "–";
  if (field === "turns") {
    const more = after - before;
    return more === 0 ? "the same"
      : Math.abs(more) + (more > 0 ? " more" : " fewer");
  }
  if (before <= 0) return "–";
  const share = 100 * (after - before) / before;
  if (Math.abs(share) < 0.5) return "the same";
  return digits(Math.abs(share), 2) + " %" + (share > 0 ? " more" : " less");
}

function kindOfGain(text, better) {
  if (better === null || !/ (more|less|fewer)$/.test(text)) return null;
  const less = !text.endsWith("more");
  return less === (better === "less") ? "better" : "worse";
}

function compared(data) {
  const drawn = record(data.drawn), planned = recommended(data);
  const built = table("The set-up as drawn against the planned one", [
    ["", "name"],
    ["as drawn", "drawn", "number"],
    ["as planned", "planned", "number"],
    ["gain", "gain"],
  ], planRows.map(([name, field, unit]) => {
    const before = figureOf(drawn, field), after = figureOf(planned, field);
    return {
      name: name + (unit === "" ? "" : ", " + unit),
      drawn: inTable(before, field), planned: inTable(after, field),
      gain: gain(before, after, field),
    };
  }).filter((row) => row.drawn !== "–" || row.planned !== "–"));
  if (built !== null) markGains(built);
  const breaks = texts(drawn.breaks);
  return card("As drawn against as planned",
    bullets(texts(record(data.words).gain).map(capital)),
    built,
    breaks.length > 0
      ? [make("h3", {}, "Which bounds the set-up as drawn breaks"),
        bullets(breaks.map(capital))] : null);
}

// In words, and in colour besides.
function markGains(built) {
  for (const row of built.querySelectorAll("tbody tr")) {
    const name = row.firstElementChild.textContent;
    const known = planRows.find(([text, , unit]) =>
      name === text + (unit === "" ? "" : ", " + unit));
    const kind = kindOfGain(row.lastElementChild.textContent, known[3]);
    if (kind !== null) row.lastElementChild.classList.add(kind);
  }
}

function alternatives(data) {
  const all = records(data.set_ups);
  if (all.length < 2) return null;
  const of = (field) => (setUp) => figureOf(setUp, field);
  const rows = [...all, Object.assign({}, record(data.drawn),
    { name: "as drawn" })];
  return card("The alternatives",
    table("What else would do, the one to take first", [
      ["set-up", "name"],
      ["at the bench min", of("bench_min"), "number"],
      ["handled", (s) => inTable(figureOf(s, "turns"), "turns"), "number"],
      ["largest over least", of("evenness"), "number"],
      ["least µm", of("least_um"), "number"],
      ["densest A/dm²", of("densest_A_dm2"), "number"],
      ["current A", of("current_A"), "number"],
      ["bounds", (s) => texts(s.breaks).length > 0 ? "breaks " +
        texts(s.breaks).length : "keeps all"],
    ], rows),
    all.slice(1).flatMap((setUp) => [
      make("h3", {}, capital(setUp.name)),
      asCaseFile(setUp),
      bullets([...texts(setUp.changes).map(capital),
        ...texts(setUp.breaks).map((text) => "It breaks a bound: " + text)]),
    ]));
}

function inNumbers(data) {
  const trade = table("What evenness costs in time, quickest first", [
    ["at the bench min", (t) => t.bench_min, "number"],
    ["largest over least", ratio, "number"],
    ["current A", "current_A", "number"],
    ["handled", "turns"],
    ["set-up", "name"],
  ], records(data.trade_off));
  const levers = table("What one small change does to the thinnest spot", [
    ["change", "words"],
    ["%", (l) => isNumber(l.share) ? 100 * l.share : null, "number"],
    ["µm", "change_um", "number"],
    ["key", "key"],
  ], records(data.levers));
  return { trade, levers };
}
