// ---- the part with its coating, redrawn at every change ----

// The ramp of viz/palette, straw to ink blue: told apart in grey as well.
const rampStops = ["#f7f8ea", "#d2e5ca", "#8ac7b8", "#4090a3", "#265688",
  "#201d51"].map((hex) => [1, 3, 5].map((at) =>
  parseInt(hex.slice(at, at + 2), 16)));
function rampColour(share) {
  const at = Math.min(1, Math.max(0, share)) * (rampStops.length - 1);
  const k = Math.min(rampStops.length - 2, Math.floor(at)), t = at - k;
  const mix = rampStops[k].map((v, c) =>
    Math.round(v + t * (rampStops[k + 1][c] - v)));
  return `rgb(${mix.join(",")})`;
}

// Outward normals of the polyline through a part's places: outlines run
// counter-clockwise, holes the other way.
function normalsOf(part) {
  const nx = new Float64Array(part.count), ny = new Float64Array(part.count);
  for (let k = 0; k < part.count; ++k) {
    let a = k, b = k;
    // Windows at an end lie on top of each other: look further.
    for (let far = 1; far < part.count && Math.hypot(part.x[b] - part.x[a],
      part.y[b] - part.y[a]) < 1e-7; ++far) {
      if (k - far >= 0 && part.loop[k - far] === part.loop[k]) a = k - far;
      if (k + far < part.count && part.loop[k + far] === part.loop[k]) {
        b = k + far;
      }
    }
    const x = part.x[b] - part.x[a], y = part.y[b] - part.y[a];
    const size = Math.hypot(x, y) || 1;
    nx[k] = y / size;
    ny[k] = -x / size;
  }
  return [nx, ny];
}

const boxOf = (parts) => {
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  for (const part of parts) {
    for (let k = 0; k < part.count; ++k) {
      box[0] = Math.min(box[0], part.x[k]);
      box[1] = Math.min(box[1], part.y[k]);
      box[2] = Math.max(box[2], part.x[k]);
      box[3] = Math.max(box[3], part.y[k]);
    }
  }
  return box;
};

// Pairs of neighbours on one loop, also over its end, but not across what is
// dry, where no places are.
function jointsOf(part) {
  const pairs = [];
  let first = 0;
  for (let k = 0; k < part.count; ++k) {
    if (part.loop[k] !== part.loop[first]) first = k;
    const ends = k + 1 === part.count || part.loop[k + 1] !== part.loop[k];
    const next = ends ? first : k + 1, length = part.length[k];
    const gap = part.arc[next] - part.arc[k] + (ends ? length : 0);
    if (next !== k && gap < 0.04 * length) pairs.push([k, next]);
  }
  return pairs;
}

function partMap(model) {
  const canvas = make("canvas", { class: "map", role: "img", width: "640",
    height: "640" });
  const normals = model.parts.map(normalsOf);
  const [left, low, right, high] = boxOf(model.parts);
  const room = model.parts.length > 1 ? 36 : 84, size = 640;
  const scale = (size - 2 * room) / Math.max(right - left, high - low, 1e-9);
  const page = (x, y) => [size / 2 + (x - (left + right) / 2) * scale,
    size / 2 - (y - (low + high) / 2) * scale];
  const joints = model.parts.map(jointsOf);
  let cursor = null, shown = null;

  function draw(answer, most, target) {
    shown = answer;
    const paint = canvas.getContext("2d");
    paint.clearRect(0, 0, size, size);
    const least = Math.min(...answer.parts.map((one) => one.least));
    const largest = Math.max(...answer.parts.map((one) => one.largest));
    // Copies on a rack hang close together.
    const thick = (model.parts.length > 1 ? 12 : 56) / most;
    model.parts.forEach((part, p) => {
      const along = answer.parts[p].along, [nx, ny] = normals[p];
      const out = (k, value) => {
        const [x, y] = page(part.x[k], part.y[k]);
        const d = Math.max(0, value) * thick;
        return [x + nx[k] * d, y - ny[k] * d];
      };
      paint.fillStyle = "#c9cdd2";
      paint.beginPath();
      for (let k = 0; k < part.count; ++k) {
        const [x, y] = page(part.x[k], part.y[k]);
        if (k > 0 && part.loop[k] === part.loop[k - 1]) paint.lineTo(x, y);
        else paint.moveTo(x, y);
      }
      paint.fill("evenodd");
      for (const [k, next] of joints[p]) {
        const value = 0.5 * (along[k] + along[next]);
        paint.fillStyle = paint.strokeStyle = rampColour(value / most);
        paint.beginPath();
        paint.moveTo(...page(part.x[k], part.y[k]));
        paint.lineTo(...page(part.x[next], part.y[next]));
        paint.lineTo(...out(next, along[next]));
        paint.lineTo(...out(k, along[k]));
        paint.closePath();
        paint.fill();
        paint.stroke();
      }
      paint.strokeStyle = "#1b2430";
      paint.lineWidth = 1;
      paint.beginPath();
      for (const [k, next] of joints[p]) {
        paint.moveTo(...out(k, along[k]));
        paint.lineTo(...out(next, along[next]));
      }
      paint.stroke();
      if (target) {
        paint.strokeStyle = "#ffffff";
        paint.lineWidth = 2;
        paint.setLineDash([6, 4]);
        paint.beginPath();
        for (const [k, next] of joints[p]) {
          paint.moveTo(...out(k, target));
          paint.lineTo(...out(next, target));
        }
        paint.stroke();
        paint.setLineDash([]);
        paint.lineWidth = 1;
      }
      if (answer.parts[p].least === least) sign(paint, p, least, true, out);
      if (answer.parts[p].largest === largest) {
        sign(paint, p, largest, false, out);
      }
    });
    if (cursor) {
      const part = model.parts[cursor.part];
      const [x, y] = page(part.x[cursor.place], part.y[cursor.place]);
      paint.strokeStyle = "#1b2430";
      paint.lineWidth = 2;
      paint.beginPath();
      paint.arc(x, y, 9, 0, 2 * Math.PI);
      paint.stroke();
      paint.lineWidth = 1;
    }
  }

  // A triangle where it is thinnest, a square where heaviest.
  function sign(paint, p, value, thin, out) {
    const part = model.parts[p], along = shown.parts[p].along;
    let at = -1;
    for (let k = 0; k < part.count; ++k) {
      if (part.open[k] && along[k] === value) at = k;
    }
    if (at < 0) return;
    const [nx, ny] = [normals[p][0][at], normals[p][1][at]];
    const [x, y] = out(at, along[at]);
    const cx = x + 13 * nx, cy = y - 13 * ny;
    paint.fillStyle = thin ? "#b1123b" : "#27408b";
    paint.beginPath();
    if (thin) {
      paint.moveTo(x + 2 * nx, y - 2 * ny);
      paint.lineTo(cx + 8 * nx - 8 * ny, cy - 8 * ny - 8 * nx);
      paint.lineTo(cx + 8 * nx + 8 * ny, cy - 8 * ny + 8 * nx);
    } else {
      paint.rect(cx - 7, cy - 7, 14, 14);
    }
    paint.fill();
  }

  // The place nearest to a point of the page, wherever that is.
  function nearest(event) {
    const box = canvas.getBoundingClientRect();
    const u = (event.clientX - box.left) * size / box.width;
    const v = (event.clientY - box.top) * size / box.height;
    let best = null, least = Infinity;
    model.parts.forEach((part, p) => {
      for (let k = 0; k < part.count; ++k) {
        const [x, y] = page(part.x[k], part.y[k]);
        const away = Math.hypot(x - u, y - v);
        if (away < least) { least = away; best = { part: p, place: k }; }
      }
    });
    return best;
  }

  return { canvas, draw, nearest, mark(place) { cursor = place; } };
}
