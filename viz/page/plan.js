function folded(name, inner) {
  return inner === null ? null
    : make("details", { class: "card" }, make("summary", {}, name), inner);
}

// What was looked at, in which bounds.
function bounds(data) {
  const counts = [
    isNumber(data.layouts) ? plain(data.layouts) +
      " ways of standing in the tank were evaluated" : "",
    isNumber(data.candidates) ? plain(data.candidates) +
      " with their currents and turns" : "",
    isNumber(data.time_s) ? "it took " + plain(data.time_s) + " s" : "",
  ].filter(isText);
  const varied = texts(data.varied);
  return card("What could vary, and within which bounds",
    bullets(varied.map(capital)),
    varied.length === 0 ? make("p", {}, "Nothing could.") : null,
    counts.length > 0
      ? make("p", { class: "kind" }, capital(counts.join(", ")) + ".") : null);
}

function render(data) {
  const title = isText(data.title) ? data.title : "Plating plan";
  document.title = title;
  document.getElementById("title").textContent = title;
  if (isText(data.goal)) {
    document.getElementById("setup").textContent =
      "Wanted: " + (goals[data.goal] || data.goal);
  }
  const put = (id, ...pieces) =>
    document.getElementById(id).append(...pieces.filter((p) => p));
  put("said", planVerdict(data), toDo(data));
  put("compared", compared(data));
  put("others", alternatives(data));
  const numbers = inNumbers(data);
  put("cost", folded("The same in numbers", numbers.trade));
  put("first", folded("The same in numbers", numbers.levers));
  const first = bullets(texts(record(data.words).first).map(capital));
  if (first !== null) {
    document.querySelector("#first h2").after(
      make("div", { class: "card" }, first));
  }
  const cautions = card("Take care", bullets(texts(data.cautions)));
  if (cautions) cautions.classList.add("caution");
  put("rest", cautions, bounds(data),
    make("details", { class: "card" },
      make("summary", {}, "Details and files"),
      fileTable(data), everything(data, "plan.json")));
  const program = record(data.program);
  document.getElementById("foot").textContent =
    [program.name, program.version].filter(isText).join(" ");
}

let data = null;
try {
  data = record(JSON.parse(document.getElementById("plan").textContent));
} catch (error) {
  document.getElementById("setup").textContent =
    "The numbers in this page cannot be read; the pictures can.";
}
if (data !== null) render(data);
