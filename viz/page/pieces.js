function card(title, ...children) {
  const kept = children.flat().filter((c) => c !== null && c !== undefined);
  if (kept.length === 0) return null;
  return make("section", { class: "card" }, make("h2", {}, title), kept);
}

const capital = (text) =>
  isText(text) ? text[0].toUpperCase() + text.slice(1) : "";

// With a full stop.
const ended = (text) => /[.!?]$/.test(text) ? text : text + ".";

const bullets = (items) =>
  items.length === 0 ? null
    : make("ul", {}, items.map((text) => make("li", {}, text)));
const paragraphs = (items) => items.map((text) => make("p", {}, text));

// columns: [head, field or function, "number" or nothing]
function table(caption, columns, rows) {
  if (rows.length === 0) return null;
  const cell = (row, [, pick, kind], index) => {
    const raw = typeof pick === "function" ? pick(row) : row[pick];
    const text = isNumber(raw) ? (kind === "number" ? digits(raw)
      : plain(raw)) : isText(raw) ? raw : "–";
    return make(index === 0 ? "th" : "td",
      { class: kind, scope: index === 0 ? "row" : null }, text);
  };
  return make("div",
    { class: "scroll", tabindex: "0", role: "region",
      "aria-label": caption },
    make("table", {}, make("caption", {}, caption),
      columns.every(([head]) => head === "") ? null
        : make("thead", {}, make("tr", {}, columns.map(([head, , kind]) =>
          make("th", { class: kind, scope: "col" }, head)))),
      make("tbody", {}, rows.map((row) =>
        make("tr", {}, columns.map((c, k) => cell(row, c, k)))))));
}

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

function key(name, value, band) {
  return make("div", {}, make("dt", {}, name), make("dd", {}, value,
    band ? make("span", { class: "band" }, band) : null));
}

// All that a page's script was given, for those who want it.
const everything = (data, file) =>
  make("details", {}, make("summary", {}, "Everything, as " + file),
    make("pre", { tabindex: "0" }, JSON.stringify(data, null, 2)));
const fileTable = (data) => table("Files beside this page", [
  ["file", "name"],
  ["kB", (f) => isNumber(f.bytes) ? f.bytes / 1000 : null, "number"],
], records(data.files));
