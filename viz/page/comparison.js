// ---- two results, or a result and readings, against each other ----
// A row of words as compare.json has it: name, A, B, difference, remark.
const wordRow = (words) => {
  const [name, a, b, difference, remark] = list(words);
  return { name, a, b, difference, remark };
};

const ofReadings = (data) => data.kind === "readings";

const sideName = (side) => [side.title, side.folder].filter(isText).join(", ");

function comparisonVerdict(data) {
  const words = record(data.words);
  const agree = ofReadings(data) ? data.agree === true : null;
  const big = agree === null ? "A against B"
    : agree ? "✓ Forecast and readings agree"
      : "✗ Forecast and readings do not agree";
  const kind = agree === null ? "" : agree ? " met" : " missed";
  return make("section", { id: "verdict" },
    make("div", { class: "verdict" + kind },
      make("h2", { class: "big" }, big),
      isText(words.verdict) ? make("p", { class: "todo" }, words.verdict)
        : null,
      bullets(texts(words.places))));
}

function figureTable(data) {
  const rows = records(data.figures).map((f) => wordRow(f.words));
  return card("In numbers", table("A against B", [
    ["", "name"], ["A", "a", "number"], ["B", "b", "number"],
    ["B less A", "difference"], ["bands", "remark"],
  ], rows));
}

function copyTable(data) {
  const rows = list(record(data.words).copies).map(wordRow);
  return card("Each copy on the rack", table("Mean thickness of each copy", [
    ["copy", "name"], ["A", "a", "number"], ["B", "b", "number"],
    ["B less A", "difference"], ["bands", "remark"],
  ], rows));
}

function readingTable(data) {
  const rows = records(data.readings).map((r) => {
    const [name, read, forecast, difference, z] = list(r.words);
    return { line: r.line, name, read, forecast, difference, z,
      method: r.method };
  });
  return card("Each reading", table("Forecast against readings", [
    ["line", "line"], ["reading", "name"], ["read", "read", "number"],
    ["forecast", "forecast", "number"], ["forecast less read", "difference"],
    ["z", "z", "number"], ["method", "method"],
  ], rows));
}

function render(data) {
  const a = record(data.a), b = record(data.b);
  const against = [a.title, b.title].filter(isText);
  const title = ofReadings(data) ? a.title + ": forecast against readings"
    : a.title === b.title ? a.title : against.join(" against ");
  document.title = title;
  document.getElementById("title").textContent = title;
  document.getElementById("setup").textContent = ofReadings(data)
    ? "Forecast: " + sideName(a) + ". Readings: " + b.file + "."
    : "A: " + sideName(a) + ". B: " + sideName(b) + ".";
  const put = (id, ...pieces) =>
    document.getElementById(id).append(...pieces.filter((p) => p));
  put("said", comparisonVerdict(data));
  put("pictures", ofReadings(data) ? null : figureTable(data));
  put("rest", ofReadings(data) ? readingTable(data) : copyTable(data),
    card("To be known", bullets(texts(record(data.words).notes))),
    make("details", { class: "card" },
      make("summary", {}, "Details and files"),
      fileTable(data), everything(data, "compare.json")));
  const program = record(data.program);
  document.getElementById("foot").textContent =
    [program.name, program.version].filter(isText).join(" ");
}

let data = null;
try {
  data = record(JSON.parse(document.getElementById("comparison").textContent));
} catch (error) {
  document.getElementById("setup").textContent =
    "The numbers in this page cannot be read; the picture can.";
}
if (data !== null) render(data);
