// Sentences of the program's own where it has them.
function bare(data) {
  const said = texts(record(data.words).bare);
  if (said.length > 0) return said;
  return records(shownPart(data).bare).map((b) =>
    "Stays bare: " + (isText(b.face) ? b.face : "a stretch") + " from " +
    plain(b.from_mm) + " to " + plain(b.to_mm) + " mm along the surface" +
    (isText(b.why) ? ", " + b.why : "") + ".");
}

function spread(data) {
  const words = record(data.words);
  return card("Where it is thin, where heavy",
    paragraphs([words.thin, words.heavy, words.copies].filter(isText)),
    bullets(bare(data)),
    paragraphs([words.shares].filter(isText)),
    bullets(texts(words.floating)),
    paragraphs(texts(words.range)),
    paragraphs([words.why, words.wagner, words.throwing].filter(isText)),
    isText(words.gas) ? make("p", {}, words.gas) : null,
    isText(words.solution)
      ? make("p", {}, `Solution: ${words.solution}`) : null);
}

function sure(data) {
  const words = record(data.words);
  return card("How sure is that?",
    isText(words.sure) ? make("p", {}, "Doubt: " + words.sure) : null,
    isText(words.along) ? make("p", {}, words.along) : null,
    texts(words.measure).length > 0
      ? make("p", {}, "What to measure next, what tells most first:") : null,
    bullets(texts(words.measure).map(capital)));
}

function metalFrom(solution) {
  const name = isText(solution.name) ? solution.name : "";
  const metal = isText(solution.metal) &&
    !name.toLowerCase().includes(solution.metal.toLowerCase())
    ? solution.metal : "";
  return [metal, name].filter(isText).join(" from ");
}

function setup(data) {
  const section = data.section === "axisymmetric"
    ? "tank and part round about one axis"
    : data.view === "plan" ? "seen from above" : "seen from the side";
  const metals = isLayered(data)
    ? records(data.layers).map((l) =>
      metalFrom({ name: l.solution, metal: l.metal })).join(", then ")
    : metalFrom(record(data.solution));
  return [metals,
    isText(data.section) ? section : ""].filter(isText).join("; ");
}

function render(data) {
  const title = isText(data.title) ? data.title : "Plating report";
  document.title = title;
  document.getElementById("title").textContent = title;
  document.getElementById("setup").textContent = setup(data);
  document.getElementById("verdict").append(verdict(data));
  const uneven = spread(data);
  if (uneven) document.getElementById("said").append(uneven);
  const cautions = card("Take care", bullets(texts(data.cautions)));
  if (cautions) cautions.classList.add("caution");
  const words = record(data.words);
  const meter = texts(words.meter);
  const wrong = card("What may go wrong besides",
    bullets([words.burn, words.anodes, words.edges].flatMap(texts)));
  if (wrong) wrong.classList.add("caution");
  const assumed = records(data.assumed).map((a) =>
    make("li", {}, make("strong", {}, isText(a.key) ? a.key : "–"), ": ",
      isText(a.value) ? a.value.replace("+-", "±") : "–",
      isText(a.why) ? " (" + a.why + ")" : ""));
  const pieces = [
    layerTable(data),
    sure(data),
    wrong,
    preparationCard(data),
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

function renderWhatIf(data) {
  let models = [];
  try {
    models = list(JSON.parse(
      document.getElementById("what-if-model").textContent));
  } catch (error) {
    return;
  }
  const built = whatIfSection(data, models);
  if (built === null) return;
  document.getElementById("try").append(built.section || built);
  if (built.show) built.show();
}

let data = null;
try {
  data = record(JSON.parse(document.getElementById("summary").textContent));
} catch (error) {
  document.getElementById("setup").textContent =
    "The numbers in this page cannot be read; the pictures can.";
}
if (data !== null) {
  render(data);
  linkPictures(data);
  renderWhatIf(data);
}
