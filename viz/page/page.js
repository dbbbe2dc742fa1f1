"use strict";
(function () {
  // Every word goes in as text; nothing from the case can become markup.
  function make(tag, attributes, ...children) {
    const node = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes || {})) {
      if (value !== undefined && value !== null) node.setAttribute(name, value);
    }
    for (const child of children.flat()) {
      if (child === null || child === undefined || child === "") continue;
      node.append(child instanceof Node ? child : String(child));
    }
    return node;
  }

  // ---- reading what may be missing ----
  const isNumber = (value) => typeof value === "number" && isFinite(value);
  const isText = (value) => typeof value === "string" && value.trim() !== "";
  const isRecord = (value) =>
    typeof value === "object" && value !== null && !Array.isArray(value);
  const record = (value) => (isRecord(value) ? value : {});
  const list = (value) => (Array.isArray(value) ? value : []);
  const texts = (value) => list(value).filter(isText);
  const records = (value) => list(value).filter(isRecord);

  // ---- numbers for people ----
  // Like "0.30" where two digits are meant; `bare` drops the zeros.
  function digits(value, count = 3, bare = false) {
    if (!isNumber(value)) return "–";
    if (value === 0) return "0";
    const size = Math.abs(value);
    if (size < 1e-4 || size >= 1e6) return value.toExponential(count - 1);
    const [, power] = value.toExponential(count - 1).split("e");
    const decimals = count - 1 - Number(power);
    if (decimals < 0) return String(Number(value.toPrecision(count)));
    const text = value.toFixed(decimals);
    return bare ? String(Number(text)) : text;
  }
  const plain = (value) => digits(value, 3, true);
  const withUnit = (value, unit) =>
    isNumber(value) ? plain(value) + " " + unit : "–";
  // Two digits where the band is wider than a tenth of the value, else three.
  function worth(value, band) {
    const [low, high] = list(band);
    return isNumber(low) && isNumber(high) && high - low > 0.1 * Math.abs(value)
      ? 2 : 3;
  }
  // Below a hundredth of a micrometre a coating is none for any purpose.
  const hardly = (value, unit) => unit === "µm" && value < 0.01;
  const banded = (value, band, unit) => !isNumber(value) ? "–"
    : hardly(value, unit) ? "under 0.01 µm" : digits(value, worth(value, band), bandText(value, band, unit) === "") +
      " " + unit;
  function bandText(value, band, unit) {
    const [low, high] = list(band);
    if (!isNumber(low) || !isNumber(high) || hardly(value, unit)) return "";
    const count = worth(value, band);
    return digits(low, count) === digits(high, count) ? ""
      : digits(low, count) + " to " + digits(high, count) + " " + unit;
  }
  const total = (steps) =>
    steps.reduce((sum, s) =>
      sum + (isNumber(s.duration_min) ? s.duration_min : 0), 0);
  function minutes(value) {
    if (value < 10) return plain(value) + " min";
    const whole = Math.ceil(value - 1e-9);
    if (whole <= 120) return whole + " min";
    return Math.floor(whole / 60) + " h" +
      (whole % 60 > 0 ? " " + whole % 60 + " min" : "");
  }

  // ---- what to do ----
  function advice(data) {
    const steps = records(data.steps);
    const target = record(data.target);
    const thickness = record(record(data.part).thickness_um);
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
      return set > 0 && isNumber(record(data.cell).current_A)
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
    if (set > 0 && isNumber(thickness.max)) {
      text += "; the heaviest spot then grows to about " +
        digits(thickness.max * needed / set, 2) + " µm";
    }
    return text + ".";
  }

  // ---- pieces of the page ----
  function key(name, value, band) {
    return make("div", {}, make("dt", {}, name), make("dd", {}, value,
      band ? make("span", { class: "band" }, band) : null));
  }

  function verdict(data) {
    const target = record(data.target);
    const words = record(data.words);
    const judged = typeof target.met === "boolean";
    const kind = !judged ? "" : target.met ? " met" : " missed";
    const big = !judged ? "No target set"
      : target.met ? "✓ Target met" : "✗ Target not met";
    const part = record(data.part);
    const cell = record(data.cell);
    const um = record(part.thickness_um);
    const set = total(records(data.steps));
    const ranged = (name, value, band, unit) =>
      key(name, banded(value, band, unit), bandText(value, band, unit));
    const numbers = make("dl", { class: "numbers" },
      ranged("thinnest spot", um.min, um.min_band, "µm"),
      ranged("mean", um.mean, um.mean_band, "µm"),
      ranged("heaviest spot", um.max, um.max_band, "µm"),
      isNumber(target.wanted_um)
        ? key("wanted at least", withUnit(target.wanted_um, "µm")) : null,
      ranged("current", cell.current_A, cell.current_A_band, "A"),
      ranged("voltage", cell.voltage_V, cell.voltage_V_band, "V"),
      set > 0 ? key("time", minutes(set)) : null);
    return make("div", { class: "verdict" + kind },
      make("h2", { class: "big" }, big),
      make("p", { class: "todo" }, advice(data)),
      isText(words.verdict) ? make("p", {}, words.verdict) : null,
      numbers,
      bandText(um.min, um.min_band, "µm") !== ""
        ? make("p", { class: "kind" }, "“a to b”: where the true value lies " +
          "in 95 of 100 cases like this.") : null);
  }

  function card(title, ...children) {
    const kept = children.flat().filter((c) => c !== null && c !== undefined);
    if (kept.length === 0) return null;
    return make("section", { class: "card" }, make("h2", {}, title), kept);
  }

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

  const inside = (outer, inner) => (row) => record(row[outer])[inner];
  const um = (which) => inside("thickness_um", which);
  const density = (which) => inside("current_density_A_dm2", which);

  function tables(data) {
    const part = record(data.part);
    return card("In numbers",
      table("Faces of the part", [
        ["face", (f) => f.judged === false ? f.name + " (not judged)" : f.name],
        ["least µm", um("min"), "number"],
        ["mean µm", um("mean"), "number"],
        ["largest µm", um("max"), "number"],
        ["mean A/dm²", density("mean"), "number"],
        ["area cm²", "area_cm2", "number"],
      ], records(part.faces)),
      table("Probes", [
        ["probe", "name"], ["on", "face"],
        ["thickness µm", "thickness_um", "number"],
        ["A/dm²", "current_density_A_dm2", "number"],
      ], records(data.probes)),
      table("Anodes", [
        ["anode", "name"], ["current A", "current_A", "number"],
        ["mean A/dm²", "mean_A_dm2", "number"],
        ["largest A/dm²", "max_A_dm2", "number"],
        ["metal lost g", "mass_loss_g", "number"],
      ], records(data.anodes)),
      table("Wires", [
        ["wire", "name"], ["bare area cm²", "area_cm2", "number"],
        ["current A", "current_A", "number"],
      ], records(data.wires)),
      table("Steps", [
        ["step", (s) => String(1 + records(data.steps).indexOf(s))],
        ["time min", "duration_min", "number given"],
        ["current A", inside("cell", "current_A"), "number"],
        ["voltage V", inside("cell", "voltage_V"), "number"],
        ["mean A/dm²", "mean_current_density_A_dm2", "number"],
        ["largest A/dm²", "max_current_density_A_dm2", "number"],
        ["held by", inside("cell", "limited_by")],
      ], records(data.steps)));
  }

  function bare(data) {
    return records(record(data.part).bare).map((b) =>
      "Stays bare: " + (isText(b.face) ? b.face : "a stretch") + " from " +
      plain(b.from_mm) + " to " + plain(b.to_mm) + " mm along the surface" +
      (isText(b.why) ? ", " + b.why : "") + ".");
  }

  function spread(data) {
    const words = record(data.words);
    const share = record(data.part).share_in_working_range;
    return card("Where it is thin, where heavy",
      paragraphs([words.thin, words.heavy].filter(isText)),
      bullets(bare(data)),
      isNumber(share)
        ? make("p", {}, digits(100 * share, share > 0.995 ? 3 : 2) + " % of the surface lies in " +
          "the working range of the solution.") : null,
      isText(words.wagner) ? make("p", {}, words.wagner) : null);
  }

  function details(data) {
    const solution = record(data.solution);
    const part = record(data.part);
    const mesh = record(data.mesh);
    const checks = record(data.checks);
    const plusMinus = (value, pm, unit) => !isNumber(value) ? null
      : plain(value) + (isNumber(pm) && pm > 0 ? " ± " + digits(pm, 2, true) : "") +
        " " + unit;
    const rows = [
      ["solution", solution.name],
      ["metal", solution.metal],
      ["conductivity", plusMinus(solution.conductivity_S_m,
        solution.conductivity_S_m_plus_minus, "S/m")],
      ["current efficiency", isNumber(solution.efficiency)
        ? plusMinus(100 * solution.efficiency,
          100 * solution.efficiency_plus_minus, "%") : null],
      ["temperature", isNumber(solution.temperature_degC)
        ? withUnit(solution.temperature_degC, "°C") : null],
      ["stirring", solution.stirring],
      ["wetted area of the part", isNumber(part.area_cm2)
        ? withUnit(part.area_cm2, "cm²") : null],
      ["metal put on", isNumber(part.mass_g)
        ? withUnit(part.mass_g, "g") : null],
      ["depth of the section", isNumber(data.depth_mm)
        ? withUnit(data.depth_mm, "mm") : null],
      ["triangles, unknowns", isNumber(mesh.triangles)
        ? mesh.triangles + ", " + mesh.dofs : null],
      ["residual of the equations", checks.relative_residual],
      ["currents in and out differ by", checks.current_imbalance],
      ["source of the metal's data", solution.metal_source],
    ].filter(([, value]) => isNumber(value) || isText(value))
      .map(([name, value]) => ({ name, value }));
    const files = records(data.files);
    return make("details", { class: "card" },
      make("summary", {}, "Details and evidence"),
      table("What it was computed with", [["", "name"], ["", "value"]], rows),
      table("Files beside this page", [
        ["file", "name"],
        ["kB", (f) => isNumber(f.bytes) ? f.bytes / 1000 : null, "number"],
      ], files),
      make("details", {}, make("summary", {}, "Everything, as summary.json"),
        make("pre", { tabindex: "0" }, JSON.stringify(data, null, 2))));
  }

  function setup(data) {
    const solution = record(data.solution);
    const section = data.section === "axisymmetric"
      ? "tank and part round about one axis"
      : data.view === "plan" ? "seen from above" : "seen from the side";
    const name = isText(solution.name) ? solution.name : "";
    const metal = isText(solution.metal) &&
      !name.toLowerCase().includes(solution.metal.toLowerCase())
      ? solution.metal : "";
    return [[metal, name].filter(isText).join(" from "),
      isText(data.section) ? section : ""].filter(isText).join("; ");
  }

  function render(data) {
    const title = isText(data.title) ? data.title : "Plating report";
    document.title = title;
    document.getElementById("title").textContent = title;
    document.getElementById("setup").textContent = setup(data);
    document.getElementById("verdict").append(verdict(data));
    const uneven = spread(data);
    if (uneven) document.getElementById("beside").append(uneven);
    const cautions = card("Take care", bullets(texts(data.cautions)));
    if (cautions) cautions.classList.add("caution");
    const meter = texts(record(data.words).meter);
    const assumed = records(data.assumed).map((a) =>
      make("li", {}, make("strong", {}, isText(a.key) ? a.key : "–"), ": ",
        isText(a.value) ? a.value.replace("+-", "±") : "–",
        isText(a.why) ? " (" + a.why + ")" : ""));
    const pieces = [
      card("At the meter", paragraphs(meter)),
      cautions,
      tables(data),
      card("What you did not say, and what was taken for it",
        assumed.length > 0 ? make("ul", {}, assumed) : null),
      card("How far to trust this", bullets(texts(data.notes))),
      details(data),
    ];
    document.getElementById("rest").append(...pieces.filter((p) => p));
    const program = record(data.program);
    document.getElementById("foot").textContent =
      [program.name, program.version].filter(isText).join(" ");
  }

  let data = null;
  try {
    data = record(JSON.parse(document.getElementById("summary").textContent));
  } catch (error) {
    document.getElementById("setup").textContent =
      "The numbers in this page cannot be read; the pictures can.";
  }
  if (data !== null) render(data);

  // Each picture can be seen large: over the page's width, or wider than a
  // phone's and moved sideways.
  for (const figure of document.querySelectorAll("figure")) {
    const button = make("button", { type: "button", "aria-pressed": "false" },
      "Enlarge");
    button.addEventListener("click", () => {
      const large = figure.classList.toggle("large");
      button.setAttribute("aria-pressed", String(large));
      button.textContent = large ? "Back to small" : "Enlarge";
      figure.scrollLeft = 0;
    });
    figure.querySelector("figcaption").append(button);
  }

  // Paper cannot be unfolded.
  const folded = () => document.querySelectorAll("#rest > details");
  window.addEventListener("beforeprint", () =>
    folded().forEach((d) => d.setAttribute("open", "")));
})();
