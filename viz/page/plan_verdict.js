// ---- what the plan says first ----
const recommended = (data) => record(records(data.set_ups)[0]);
const figuresOf = (setUp) => record(setUp.figures);

// Nothing to change: the set-up as drawn is the best that was found.
const staysAsDrawn = (data) => texts(recommended(data).changes).length === 0;

const goals = {
  time: "as little time at the bench as can be",
  evenness: "as even as can be",
  metal: "as little metal as can be",
};

const times = (count) => count === 0 ? "not at all" : count === 1 ? "once"
  : count + " times";

// The largest over the least thickness; nothing where a place stays bare.
const ratio = (figures) =>
  isNumber(figures.evenness) && figures.evenness >= 1 ? figures.evenness : null;

function outOfReach(data) {
  const out = record(data.out_of_reach);
  const words = record(data.words).out_of_reach;
  if (!isText(words) && !isText(out.what)) return null;
  return make("div", {},
    make("p", { class: "todo" }, capital(isText(words) ? words : out.what)),
    isText(words) || !isText(out.key) || !isText(out.relaxed) ? null
      : make("p", {}, "With ", make("code", {}, out.key), " at " + out.relaxed +
        " it could be."));
}

function planVerdict(data) {
  const words = record(data.words);
  const out = outOfReach(data);
  const figures = figuresOf(recommended(data));
  const breaks = texts(recommended(data).breaks);
  const met = out === null && breaks.length === 0;
  const big = !met ? "✗ Not within reach"
    : staysAsDrawn(data) ? "✓ Leave it as drawn" : "✓ There is a better set-up";
  const numbers = make("dl", { class: "numbers" },
    isNumber(figures.bench_min)
      ? key("time at the bench", minutes(figures.bench_min)) : null,
    key("largest over least", plain(ratio(figures))),
    isNumber(figures.least_um)
      ? key("thinnest spot", withUnit(figures.least_um, "µm")) : null,
    isNumber(figures.current_A)
      ? key("current", withUnit(figures.current_A, "A")) : null,
    isNumber(figures.voltage_V)
      ? key("voltage", withUnit(figures.voltage_V, "V")) : null,
    isNumber(figures.turns) ? key("handled", times(figures.turns)) : null);
  return make("section", { id: "verdict" },
    make("div", { class: "verdict" + (met ? " met" : " missed") },
      make("h2", { class: "big" }, big),
      isText(words.verdict) ? make("p", { class: "todo" }, words.verdict) : null,
      out,
      breaks.length > 0
        ? make("p", {}, "The set-up to take all the same breaks a bound:")
        : null,
      bullets(breaks.map(capital)),
      numbers));
}

const asCaseFile = (setUp) => isText(setUp.file)
  ? make("p", { class: "kind" }, "As a case file: ",
    make("code", {}, setUp.file)) : null;

// What to do, in order.
function toDo(data) {
  const setUp = recommended(data);
  const figures = figuresOf(setUp);
  const changes = texts(setUp.changes);
  if (changes.length === 0 && !isNumber(figures.plating_min)) return null;
  // Where times change, the changes say so.
  const said = changes.some((text) => text.includes("late for"));
  const plate = isNumber(figures.plating_min) && !said
    ? "Plate for " + minutes(figures.plating_min) +
      (isNumber(figures.current_A)
        ? ", beginning with " + withUnit(figures.current_A, "A") : "") + "."
    : null;
  return card("What to do, in order",
    make("ol", {}, changes.map((text) => make("li", {}, ended(capital(text)))),
      plate === null ? null : make("li", {}, plate)),
    asCaseFile(setUp));
}
