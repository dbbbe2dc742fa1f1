// Looks at a page from inside. Page.look calls these by name; each returns
// plain data.

const all = (selector, root = document) =>
  [...root.querySelectorAll(selector)];
const words = (text) => (text || "").replace(/\s+/g, " ").trim();
const shown = (element) => element.checkVisibility({ visibilityProperty: true })
  && element.getClientRects().length > 0;

// Like "section#verdict > div.verdict > p(2)": the second p there.
function path(element) {
  const names = [];
  for (let e = element; e && e !== document.body; e = e.parentElement) {
    const classes = e.getAttribute("class");
    const alike = [...e.parentElement.children].filter((other) =>
      other.localName === e.localName);
    names.unshift(e.localName + (e.id ? "#" + e.id : "") +
      (classes ? "." + classes.trim().replace(/\s+/g, ".") : "") +
      (alike.length > 1 ? "(" + (1 + alike.indexOf(e)) + ")" : ""));
    if (e.id) break;
  }
  return names.join(" > ");
}

// Those of a selector that are in the page's sight.
const seen = (selector) => all(selector).filter(shown);

function unfold() {
  for (const part of all("details")) part.open = true;
}

function said() {
  unfold();
  const quotes = all("pre");
  for (const quote of quotes) quote.style.display = "none";
  const text = words(document.body.innerText);
  for (const quote of quotes) quote.style.display = "";
  return text;
}

// ---- figures and tables ----
// [name, number, band] each.
function figures(within) {
  return all(within + " dl.numbers div").map((pair) => {
    const shownNumber = pair.querySelector("dd");
    const band = shownNumber.querySelector(".band");
    const number = shownNumber.cloneNode(true);
    for (const e of all(".band", number)) e.remove();
    return [words(pair.querySelector("dt").textContent),
      words(number.textContent), band ? words(band.textContent) : ""];
  });
}

// [caption, rows] each, but of those that are put aside.
function tables() {
  return all("table").filter((t) => !t.closest("[hidden]")).map((table) => [
    words(table.caption && table.caption.textContent),
    [...table.rows].map((row) =>
      [...row.cells].map((cell) => words(cell.textContent)))]);
}

function labelOf(input) {
  return input.getAttribute("aria-label") ||
    words([...input.labels].map((l) => l.textContent).join(" "));
}

function setSlider(label, value) {
  const sliders = all("input[type=range]")
    .filter((s) => !s.closest("[hidden]"));
  const fitting = sliders.filter((s) => labelOf(s) === label);
  if (fitting.length !== 1) return [null, sliders.map(labelOf)];
  fitting[0].focus();
  fitting[0].value = String(value);
  for (const kind of ["input", "change"]) {
    fitting[0].dispatchEvent(new Event(kind, { bubbles: true }));
  }
  return [Number(fitting[0].value), []];
}

// ---- sizes ----
const scrolls = (element) =>
  /auto|scroll|hidden/.test(getComputedStyle(element).overflowX);

// What reaches past the right edge, apart from what can be scrolled there.
function overflowing() {
  unfold();
  const edge = document.documentElement.clientWidth + 0.5;
  return all("body *").filter((element) => {
    if (element.ownerSVGElement || !shown(element)) return false;
    for (let e = element.parentElement; e !== document.body;
      e = e.parentElement) if (scrolls(e)) return false;
    return element.getBoundingClientRect().right > edge;
  }).map((element) => path(element) + " reaches " +
    element.getBoundingClientRect().right);
}

// Visible elements of HTML that have text of their own.
const ownText = (element) => words([...element.childNodes]
  .filter((n) => n.nodeType === Node.TEXT_NODE)
  .map((n) => n.textContent).join(" "));
const withText = () => all("body, body *").filter((element) =>
  element instanceof HTMLElement && shown(element) && ownText(element) !== "");

function smallText(least) {
  unfold();
  return withText().filter((element) =>
    parseFloat(getComputedStyle(element).fontSize) < least)
    .map((element) => path(element) + ": " + ownText(element));
}

function lowTargets(least) {
  unfold();
  return all("button, summary, input, select, textarea").filter((element) =>
    shown(element) && element.getBoundingClientRect().height < least)
    .map((element) => path(element) + " is " +
      element.getBoundingClientRect().height + " px high");
}

// ---- keyboard ----
const controls = "a[href], button, input, select, textarea, summary";

// All that Tab has to reach, in the order of the page. Of buttons of which one
// is chosen it reaches the chosen one, arrow keys the others.
function tabStops() {
  return all(controls + ", [tabindex]").filter((e) =>
    shown(e) && !e.disabled && (e.matches(controls) || e.tabIndex >= 0) &&
    (e.type !== "radio" || e.checked)).map(path);
}

// Where the focus is, and what shows it; null for nowhere.
function focused() {
  const element = document.activeElement;
  if (!element || element === document.body) return null;
  const style = getComputedStyle(element);
  const box = element.getBoundingClientRect();
  return {
    path: path(element),
    outline: style.outlineStyle === "none" ? 0
      : parseFloat(style.outlineWidth),
    inSight: box.bottom > 0 && box.top < innerHeight &&
      box.right > 0 && box.left < innerWidth,
  };
}

// ---- contrast, as WCAG 2 defines it ----
const canvas = document.createElement("canvas").getContext("2d",
  { willReadFrequently: true });
function rgba(colour) {
  canvas.clearRect(0, 0, 1, 1);
  canvas.fillStyle = colour;
  canvas.fillRect(0, 0, 1, 1);
  const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
  return [r, g, b, a / 255];
}
const over = (top, below, alpha) =>
  [0, 1, 2].map((k) => alpha * top[k] + (1 - alpha) * below[k]);
function brightness(colour) {
  const [r, g, b] = colour.map((c) => c / 255).map((c) =>
    c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function behind(element) {
  const layers = [];
  for (let e = element; e; e = e.parentElement) {
    layers.unshift(rgba(getComputedStyle(e).backgroundColor));
  }
  return layers.reduce((below, top) => over(top, below, top[3]),
    [255, 255, 255]);
}
function contrast(element) {
  const ground = behind(element);
  const style = getComputedStyle(element);
  const ink = rgba(style.color);
  let opacity = ink[3];
  for (let e = element; e; e = e.parentElement) {
    opacity *= Number(getComputedStyle(e).opacity);
  }
  const [dark, light] = [brightness(over(ink, ground, opacity)),
    brightness(ground)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

// How many texts were looked at, and those of too little contrast.
function pale(least) {
  unfold();
  const texts = withText();
  return [texts.length, texts.filter((e) => contrast(e) < least)
    .map((e) => path(e) + " has " + contrast(e).toFixed(2) + ": " +
      ownText(e))];
}

// ---- references ----
const referring = ["aria-labelledby", "aria-describedby", "aria-controls",
  "for", "list"];

function idsUsedTwice() {
  const ids = all("[id]").map((e) => e.id);
  return ids.filter((id, k) => ids.indexOf(id) !== k);
}

function lostReferences() {
  const lost = (id) => id !== "" && !document.getElementById(id);
  const named = referring.flatMap((name) => all(`[${name}]`).flatMap((e) =>
    e.getAttribute(name).split(/\s+/)));
  const linked = all("a[href^='#']").map((a) => a.hash.slice(1));
  const painted = all("svg *").flatMap((e) => [...e.attributes])
    .flatMap((a) => [...a.value.matchAll(/url\(#([^)]+)\)/g)])
    .map((match) => match[1]);
  return [...named, ...linked, ...painted].filter(lost);
}

// "" for a picture without a title; its description alone is no name.
const pictureTitles = () => all("svg:not([aria-hidden=true])").map((svg) => {
  const title = svg.querySelector(":scope > title");
  return svg.getAttribute("aria-label") || words(title && title.textContent);
});
