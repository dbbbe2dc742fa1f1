// ---- one place in both pictures: point at one, see it in the other ----

const numbersIn = (text, between) => isText(text)
  ? text.split(between).map((piece) => piece.split(" ").map(Number)) : [];

function svgNode(tag, attributes, parent) {
  const node = document.createElementNS(parent.namespaceURI, tag);
  for (const [name, value] of Object.entries(attributes)) {
    node.setAttribute(name, value);
  }
  node.setAttribute("pointer-events", "none");
  parent.append(node);
  return node;
}

// Where on a picture's own page an event is.
function onPage(svg, event) {
  const box = svg.getBoundingClientRect(), view = svg.viewBox.baseVal;
  return [(event.clientX - box.left) * view.width / box.width,
    (event.clientY - box.top) * view.height / box.height];
}

function linkPictures(data) {
  const section = document.querySelector("#left svg[data-frames]");
  const chart = document.querySelector("#beside svg[data-places]");
  if (section === null || chart === null) return;
  const frames = numbersIn(section.dataset.frames, ";").map(
    ([left, top, right, bottom, x, y, scale]) =>
      ({ left, top, right, bottom, x, y, scale }));
  const places = numbersIn(chart.dataset.places, ";").map(
    ([page, x, y, arc, um, dense, face]) =>
      ({ page, x, y, arc, um, dense, face }));
  const [top, bottom, low, high] = numbersIn(chart.dataset.up, ";")[0] || [];
  if (places.length === 0 || !isNumber(high)) return;
  const faces = records(record(shownPart(data)).faces);

  const ring = { fill: "none", stroke: "#1b2430", "stroke-width": "2",
    r: "7", visibility: "hidden" };
  const rings = frames.map(() => svgNode("circle", ring, section));
  const rule = svgNode("path", { stroke: "#1b2430", "stroke-width": "1",
    "stroke-dasharray": "2 2", visibility: "hidden" }, chart);
  const dot = svgNode("circle", Object.assign({}, ring, { r: "5" }), chart);
  const readout = make("p", { class: "readout" },
    "Point at the part or at the curve.");
  const slider = make("input", { type: "range", min: "0", step: "1", value: "0",
    max: String(places.length - 1), "aria-label": "Place along the surface" });
  chart.parentNode.append(slider, readout);

  const pageOf = (frame, place) => [
    frame.left + (place.x - frame.x) * frame.scale,
    frame.bottom - (place.y - frame.y) * frame.scale];

  function show(k) {
    const place = places[k];
    frames.forEach((frame, f) => {
      const [x, y] = pageOf(frame, place);
      const within = x > frame.left && x < frame.right && y > frame.top &&
        y < frame.bottom;
      rings[f].setAttribute("visibility", within ? "visible" : "hidden");
      rings[f].setAttribute("cx", x);
      rings[f].setAttribute("cy", y);
    });
    const height = Math.max(top, Math.min(bottom,
      bottom - (place.um - low) / (high - low) * (bottom - top)));
    rule.setAttribute("d", `M${place.page} ${top}V${bottom}`);
    rule.setAttribute("visibility", "visible");
    dot.setAttribute("cx", place.page);
    dot.setAttribute("cy", height);
    dot.setAttribute("visibility", "visible");
    slider.value = String(k);
    const words = [record(faces[place.face]).name,
      withUnit(place.arc, "mm") + " along",
      hardly(place.um, "µm") ? "under 0.01 µm" : withUnit(place.um, "µm"),
      withUnit(place.dense, "A/dm²")].filter(isText).join(", ");
    readout.textContent = words;
    slider.setAttribute("aria-valuetext", words);
  }

  function nearest(away) {
    let best = 0, least = Infinity;
    places.forEach((place, k) => {
      const d = away(place);
      if (d < least) { least = d; best = k; }
    });
    return [best, least];
  }

  section.addEventListener("pointermove", (event) => {
    const [u, v] = onPage(section, event);
    const frame = frames.find((f) =>
      u >= f.left && u <= f.right && v >= f.top && v <= f.bottom);
    if (frame === undefined) return;
    const [k, away] = nearest((place) => {
      const [x, y] = pageOf(frame, place);
      return Math.hypot(x - u, y - v);
    });
    if (away < 26) { show(k); return; }
    const title = event.target instanceof Element
      ? event.target.querySelector("title") : null;
    if (title !== null && event.target !== section) {
      readout.textContent = title.textContent;
    }
  });
  chart.addEventListener("pointermove", (event) => {
    const [u] = onPage(chart, event);
    show(nearest((place) => Math.abs(place.page - u))[0]);
  });
  slider.addEventListener("input", () => show(Number(slider.value)));
}
