// ---- thickness along the surface as it is set, over what the case has ----

const toMicrometres = (metres) => metres * 1e6;

// Curve points of one part, loops one after the other with a gap between.
function curveOf(part, along) {
  const points = [];
  let offset = 0, end = 0;
  for (let k = 0; k < part.count; ++k) {
    if (k > 0 && part.loop[k] !== part.loop[k - 1]) {
      offset = end + 1;
      points.push({ x: end, y: NaN, place: -1 });
    }
    end = offset + 1e3 * part.arc[k];
    points.push({ x: end, y: toMicrometres(along[k]), place: k });
  }
  return points;
}

// Where one face ends and the next begins, with their names where there is
// room.
function drawFaces(chart, part, points) {
  const paint = chart.ctx, area = chart.chartArea, x = chart.scales.x;
  paint.save();
  paint.font = "12px sans-serif";
  paint.fillStyle = paint.strokeStyle = "#566171";
  paint.textAlign = "center";
  paint.setLineDash([1, 3]);
  let from = null, face = null;
  const close = (to) => {
    if (from === null) return;
    const [a, b] = [x.getPixelForValue(from), x.getPixelForValue(to)];
    const name = part.faces[face];
    if (paint.measureText(name).width < b - a - 4) {
      paint.fillText(name, 0.5 * (a + b), area.top + 14);
    }
    paint.beginPath();
    paint.moveTo(b, area.top);
    paint.lineTo(b, area.bottom);
    paint.stroke();
  };
  let last = null;
  for (const p of points) {
    const own = p.place < 0 ? null : part.face[p.place];
    if (own !== face || from === null) {
      if (last !== null) close(last);
      from = own === null ? null : p.x;
      face = own;
    }
    last = p.x;
  }
  if (last !== null) close(last);
  paint.restore();
}

// moved(place): called where the pointer or a key has gone to another place.
function thicknessChart(model, shown, base, moved) {
  const part = model.parts[shown];
  const canvas = make("canvas", { role: "img" });
  const own = curveOf(part, base.parts[shown].along);
  const target = model.wanted;
  const line = (label, colour, extra) => Object.assign({
    label, borderColor: colour, backgroundColor: colour, borderWidth: 2,
    pointRadius: 0, pointHitRadius: 0, spanGaps: false,
  }, extra);
  const ends = [0, Math.max(...own.filter((p) => p.place >= 0)
    .map((p) => p.x), part.loop.every((l) => l === part.loop[0])
    ? 1e3 * part.length[0] : 0)];
  const datasets = [
    line("as set here", "#d9822b", { data: own.slice(), borderWidth: 2.5 }),
    line("as the case has it", "#566171", { data: own, borderWidth: 1.5,
      borderDash: [2, 3] }),
  ];
  if (target) {
    datasets.push(line("wanted at least", "#0d5f4f", {
      data: [{ x: ends[0], y: toMicrometres(target) },
        { x: ends[1], y: toMicrometres(target) }],
      borderDash: [8, 4] }));
  }
  // The place that the cursor is at.
  datasets.push({ label: "", data: [], pointRadius: 6, borderWidth: 2,
    pointBackgroundColor: "#ffffff", borderColor: "#1b2430",
    pointBorderColor: "#1b2430", showLine: false });
  const text = { color: "#1b2430", font: { size: 13 } };
  const faces = { id: "faces", afterDraw(on) { drawFaces(on, part, own); } };
  const chart = new Chart(canvas, {
    type: "line",
    data: { datasets },
    plugins: [faces],
    options: {
      animation: false, parsing: false, normalized: true, responsive: true,
      maintainAspectRatio: false, events: [],
      scales: {
        x: { type: "linear", min: ends[0], max: ends[1],
          ticks: text, title: { display: true,
            text: "along the surface from its lowest point (mm)", ...text } },
        y: { min: 0, ticks: text,
          title: { display: true, text: "thickness (µm)", ...text } },
      },
      plugins: { tooltip: { enabled: false }, legend: { labels: {
        ...text, boxHeight: 1, boxWidth: 28,
        filter: (item) => item.text !== "" } } },
    },
  });
  const cursor = datasets[datasets.length - 1];
  canvas.addEventListener("pointermove", (event) => {
    const box = canvas.getBoundingClientRect();
    const x = chart.scales.x.getValueForPixel(event.clientX - box.left);
    let best = -1, least = Infinity;
    for (const p of own) {
      if (p.place >= 0 && Math.abs(p.x - x) < least) {
        least = Math.abs(p.x - x);
        best = p.place;
      }
    }
    if (best >= 0) moved({ part: shown, place: best });
  });
  let at = null;
  return {
    box: make("div", { class: "chart" }, canvas), canvas,
    mark(place) { at = place && place.part === shown ? place.place : null; },
    draw(answer, before) {
      const points = curveOf(part, answer.parts[shown].along);
      datasets[0].data = points;
      datasets[1].data = curveOf(part, before.parts[shown].along);
      cursor.data = at === null ? []
        : points.filter((p) => p.place === at);
      chart.update("none");
    },
    resize() { chart.resize(); },
  };
}
