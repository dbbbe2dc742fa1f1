// ---- the card on which other settings are tried ----

const leastOf = (answer) =>
  Math.min(...answer.parts.map((p) => p.leastJudged)
    .filter((v) => !Number.isNaN(v)));

// Over all parts.
function summed(model, answer) {
  let volume = 0, area = 0;
  answer.parts.forEach((p, k) => {
    volume += p.mean * model.parts[k].area;
    area += model.parts[k].area;
  });
  const last = answer.steps[answer.steps.length - 1];
  return {
    least: Math.min(...answer.parts.map((p) => p.least)),
    judged: leastOf(answer), mean: volume / area,
    largest: Math.max(...answer.parts.map((p) => p.largest)),
    current: last.current, voltage: last.voltage,
    limited: answer.steps.some((s) => s.limited),
    densest: Math.max(...answer.steps.map((s) => s.largest)),
  };
}

function sentence(model, settings, now) {
  const time = totalTime(settings);
  const parts = [];
  if (model.burning && now.densest > model.burning) {
    parts.push("The densest spot takes " + digits(0.01 * now.densest) +
      " A/dm², where the coating burns.");
  }
  if (now.limited) parts.push("The voltage limit holds the current back.");
  if (model.wanted) {
    const least = Number.isFinite(now.judged) ? now.judged : now.least;
    if (least >= model.wanted) {
      parts.push("Thick enough everywhere that counts; " +
        minutes(time * model.wanted / least / 60) + " would just do.");
    } else if (least > 0) {
      parts.push("Too thin at the thinnest spot: it would take " +
        minutes(time * model.wanted / least / 60) + ".");
    } else {
      parts.push("Too thin at the thinnest spot, however long it takes.");
    }
  }
  return parts.join(" ");
}

// The answer that is furthest from the case, of those between it and what is
// wanted, for which the mesh is still fine enough.
function withinReach(model, base, wanted) {
  const good = (answer) =>
    answer !== null && answer.resolved >= model.least_resolved * (1 - 1e-9);
  const answer = whatIf(model, wanted);
  if (answer === null || good(answer)) {
    return { settings: wanted, answer, held: false };
  }
  const keys = ["current", "conductivity", "polarization"];
  const between = (share) => {
    const s = Object.assign({}, wanted);
    for (const key of keys) {
      s[key] = base[key] * Math.pow(wanted[key] / base[key], share);
    }
    return s;
  };
  let low = 0, high = 1;
  for (let k = 0; k < 12; ++k) {
    const middle = 0.5 * (low + high);
    if (good(whatIf(model, between(middle)))) low = middle;
    else high = middle;
  }
  const settings = between(low);
  return { settings, answer: whatIf(model, settings), held: true };
}

const copyOf = (settings) => Object.assign({}, settings,
  { steps: settings.steps.map((s) => Object.assign({}, s)) });

function whatIfCard(data, raw) {
  const model = readModel(raw);
  const named = raw.layer ? records(data.layers).find((l) =>
    l.name === raw.layer) : data;
  records(record(named).parts).forEach((p, k) => {
    if (k < model.parts.length && isText(p.name)) model.parts[k].name = p.name;
  });
  const start = asTheCase(model);
  const base = whatIf(model, start);
  if (base === null) return null;
  const thinnest = base.parts.reduce((best, p, k) =>
    p.least < base.parts[best].least * (1 - 1e-6) ? k : best, 0);
  let settings = copyOf(start), answer = base, held = false, cursor = null;

  const view = make("div", { class: "what-if", role: "group",
    "aria-label": raw.layer ? "Layer " + raw.layer : "Other settings" });
  const numbers = make("dl", { class: "numbers" });
  const word = make("p", { class: "todo", role: "status" });
  const stop = make("p", { class: "help", role: "status" });
  const readout = make("p", { class: "readout" });
  const command = make("code", {});
  const place = make("input", { type: "range", min: "0", step: "1",
    max: String(model.parts[thinnest].count - 1),
    "aria-label": "Place on the curve" });

  let waiting = 0;
  const draw = () => {
    waiting = 0;
    const began = performance.now();
    redraw();
    view.dataset.milliseconds = String(performance.now() - began);
  };
  const later = () => { waiting = waiting || requestAnimationFrame(draw); };

  function change(edit) {
    const wanted = copyOf(settings);
    edit(wanted);
    const began = performance.now();
    const reached = withinReach(model, settings, wanted);
    view.dataset.solve = String(performance.now() - began);
    held = reached.held;
    if (reached.answer === null) {
      stop.textContent = "No current flows that way.";
      showKnobs();
      return;
    }
    ({ settings, answer } = reached);
    showKnobs();
    later();
  }

  const goTo = (to) => {
    cursor = to;
    map.mark(to);
    chart.mark(to);
    if (to && to.part === thinnest) place.value = String(to.place);
    later();
  };
  const map = partMap(model);
  const chart = thicknessChart(model, thinnest, base, goTo);
  map.canvas.addEventListener("pointermove", (event) =>
    goTo(map.nearest(event)));
  for (const canvas of [map.canvas, chart.canvas]) {
    canvas.addEventListener("pointerleave", () => goTo(null));
  }
  place.addEventListener("input", () =>
    goTo({ part: thinnest, place: Number(place.value) }));

  const thinAt = model.parts[thinnest].open.reduce((best, open, k) => {
    const along = base.parts[thinnest].along;
    return open && !(along[k] >= along[best]) ? k : best;
  }, model.parts[thinnest].open.indexOf(true));
  place.value = String(Math.max(0, thinAt));

  const list = knobsOf(model, base, change);
  const steps = stepList(model, change);
  const count = model.steps.length;
  const after = make("input", { type: "range", min: "1", step: "1",
    max: String(count), value: String(count),
    "aria-label": "Shown after step" });
  const afterText = make("p", { class: "help" });
  after.addEventListener("input", () => change((s) => {
    s.until = Number(after.value);
  }));
  // The case after each number of steps, asked for at every drawing.
  const early = new Map([[count, base]]);
  const before = () => {
    if (!early.has(settings.until)) {
      early.set(settings.until,
        whatIf(model, Object.assign({}, start, { until: settings.until })));
    }
    return early.get(settings.until);
  };
  function showKnobs() {
    for (const { knob: one, key } of list) {
      if (key === "time") one.show(totalTime(settings));
      else if (key !== "voltageLimit") one.show(settings[key]);
    }
    steps.show(settings);
  }
  const back = make("button", { type: "button" }, "Back to the case");
  back.addEventListener("click", () => {
    settings = copyOf(start);
    answer = base;
    held = false;
    for (const { knob: one, key } of list) {
      if (key === "voltageLimit") one.show(one.top);
    }
    after.value = String(count);
    showKnobs();
    later();
  });

  function redraw() {
    const own = before();
    const now = summed(model, answer), was = summed(model, own);
    afterText.textContent = count > 1 ? `After step ${settings.until} of ` +
      `${count}, ${minutes(totalTime(settings) / 60)}` : "";
    const most = Math.max(now.largest, 1e-9);
    map.draw(answer, most, model.wanted);
    chart.draw(answer, own);
    const um = (v) => hardly(toMicrometres(v), "µm") ? "under 0.01 µm"
      : withUnit(toMicrometres(v), "µm");
    const one = (name, value, before) => key(name, value,
      value === before ? null : "was " + before);
    numbers.replaceChildren(
      one("thinnest spot", um(now.least), um(was.least)),
      one("mean", um(now.mean), um(was.mean)),
      one("heaviest spot", um(now.largest), um(was.largest)),
      one("current", withUnit(now.current, "A"), withUnit(was.current, "A")),
      one("voltage", withUnit(now.voltage, "V"), withUnit(was.voltage, "V")),
      one("time", minutes(totalTime(settings) / 60),
        minutes(totalTime(start) / 60)));
    word.textContent = sentence(model, settings, now);
    stop.textContent = held ? "The knobs stop here: beyond it currents crowd " +
      "at edges more than this report's mesh resolves. Change the case file " +
      "and compute again." : "";
    const words = asCommand(model, settings);
    command.textContent = words;
    command.parentNode.hidden = words === "";
    const at = cursor || { part: thinnest, place: Number(place.value) };
    const part = model.parts[at.part];
    readout.textContent = [isRack(data) ? part.name : "",
      part.faces[part.face[at.place]],
      withUnit(1e3 * part.arc[at.place], "mm") + " along",
      um(answer.parts[at.part].along[at.place]) + ", was " +
        um(own.parts[at.part].along[at.place])].filter(isText).join(", ");
    map.canvas.setAttribute("aria-label", "The part with its coating: " +
      `least ${um(now.least)}, mean ${um(now.mean)}, largest ` +
      `${um(now.largest)}.`);
    chart.canvas.setAttribute("aria-label", "Thickness along the surface: " +
      `least ${um(answer.parts[thinnest].least)}, largest ` +
      `${um(answer.parts[thinnest].largest)}.`);
    // In full, for those who compare.
    Object.assign(view.dataset, {
      least: now.least, mean: now.mean, largest: now.largest,
      current: now.current, voltage: now.voltage, resolved: answer.resolved,
      nodes: Math.max(...model.geometries.map((g) => g.rows)) });
  }

  view.append(
    make("div", { class: "knobs" }, list.map(({ knob: one }) => one.row),
      steps.list, back, stop),
    make("div", { class: "answer" }, word, numbers,
      make("p", { class: "command" },
        "To have it computed anew, with error bars: ", command)),
    make("div", { class: "seen" },
      make("figure", {}, make("figcaption", {}, "The part with its coating, " +
        "drawn far too thick"), map.canvas,
      make("p", { class: "help" }, "▼ thinnest, ■ heaviest; dark is thick; " +
        "dashed: as thick as wanted. Point at it, or at the curve."),
      count > 1 ? [afterText, after] : null),
      make("figure", {}, make("figcaption", {}, "Along the surface" +
        (isRack(data) ? " of " + model.parts[thinnest].name : "")), chart.box,
      place, readout)));
  showKnobs();
  return { view, draw: () => { chart.resize(); later(); } };
}

// One layer at a time.
function whatIfSection(data, models) {
  const usable = models.filter((m) => isRecord(m) && m.geometries);
  if (usable.length === 0) {
    const why = models.map((m) => record(m).why_not).find(isText);
    return why ? card("Try other settings", make("p", {},
      `Not on this page: ${why}. Change the case file and compute again.`))
      : null;
  }
  const cards = usable.map((m) => whatIfCard(data, m));
  const built = cards.filter((c) => c !== null);
  if (built.length === 0) return null;
  const show = (at) => built.forEach((c, k) => {
    c.view.hidden = k !== at;
    if (k === at) c.draw();
  });
  let choice = null;
  if (built.length > 1) {
    const select = make("select", { id: "what-if-layer" },
      usable.filter((_, k) => cards[k] !== null)
        .map((m, k) => make("option", { value: String(k) }, m.layer)));
    select.addEventListener("change", () => show(Number(select.value)));
    choice = make("p", {}, make("label", { for: "what-if-layer" },
      "Layer, by itself: "), select);
  }
  const section = card("Try other settings",
    make("p", { class: "help" }, "Move a slider and see what becomes of the " +
      "coating. Where things stand, and their shapes, stay as they are."),
    choice, built.map((c) => c.view));
  section.id = "what-if";
  return { section, show: () => show(0) };
}
