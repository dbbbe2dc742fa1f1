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
  : unit === "µm" && value <= -0.01 ? "dissolves"
  : hardly(value, unit) ? "under 0.01 µm" : digits(value, worth(value, band), bandText(value, band, unit) === "") +
    " " + unit;
function bandText(value, band, unit) {
  const [low, high] = list(band);
  if (!isNumber(low) || !isNumber(high) || hardly(value, unit)) return "";
  const count = worth(value, band);
  return digits(low, count) === digits(high, count) ? ""
    : digits(low, count) + " to " + digits(high, count) + " " + unit;
}
// Never none and never all of it.
const chanceText = (share) => share < 0.01 ? "under 1 %"
  : share > 0.99 ? "over 99 %" : Math.round(100 * share) + " %";
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

// ---- parts ----
// On a rack the copy with the thinnest spot, the first of equals: the one
// that the pictures show.
function shownPart(data) {
  const least = (part) => record(part.thickness_um).min;
  return records(data.parts).reduce((best, part) =>
    isNumber(least(part)) && !(least(part) >= least(best) * (1 - 1e-6))
      ? part : best, records(data.parts)[0] || record(data.part));
}
const isRack = (data) => records(data.parts).length > 1;
