// ---- how current density follows overpotential: solver/polarization ----
// Density and overpotential count positive in the direction in which the
// electrode works.

const boundedExp = (x) => Math.exp(Math.min(600, Math.max(-600, x)));

// A law as {at(over) -> [density, slope], bend}. Every kind that the solver
// knows has its case here.
function lawCurve(curve, polarization) {
  const resistance = curve.resistance * polarization;
  const slope = curve.slope * polarization / Math.LN10;
  const reverse = curve.reverse * polarization / Math.LN10;
  const inverse = curve.limit ? 1 / curve.limit : 0;
  const c = curve.concentration;
  if (curve.kind === "linear") {
    const ohmic = inverse > 0 ? resistance / inverse : 0;
    return {
      bend: c,
      at(over) {
        if (inverse === 0) return [over / resistance, 1 / resistance];
        let s = over / (ohmic + c);
        if (over < 0) s = Math.max(s, -Math.log1p(-over / ohmic));
        for (let k = 0; k < 60; ++k) {
          const e = boundedExp(-s);
          const step = (over - ohmic * (1 - e) - c * s) / (ohmic * e + c);
          s += step;
          if (Math.abs(step) <= 1e-15 * (1 + Math.abs(s))) break;
        }
        const e = boundedExp(-s);
        return [-Math.expm1(-s) / inverse, e / inverse / (ohmic * e + c)];
      },
    };
  }
  const i0 = curve.exchange;
  return {
    bend: slope,
    at(over) {
      const q = boundedExp(-over / slope), below = q + i0 * inverse;
      if (curve.kind === "tafel") {
        return [i0 / below, i0 * q / (slope * below * below)];
      }
      if (curve.kind === "butler-volmer") {
        const r = boundedExp(-over / slope - over / reverse);
        return [i0 * (1 - r) / below,
          i0 * (r * (1 / slope + 1 / reverse) * below + (1 - r) * q / slope) /
            (below * below)];
      }
      throw new Error(`no law "${curve.kind}"`);
    },
  };
}

// Not further than where the tangent still tells something of the curve.
function limitedStep(law, from, to) {
  const step = to - from;
  if (Math.abs(step) <= law.bend) return to;
  return from + Math.sign(step) * law.bend *
    (1 + Math.log(Math.abs(step) / law.bend));
}

// Tangents at the Gauss points of an electrode's curved law, and what the
// basis makes of them: solver/tangent.
function tangentOn(electrode, law, sign, series, over, n) {
  const points = over.length;
  const t = {
    mass: new Float64Array(n * n), weight: new Float64Array(n),
    rest: new Float64Array(n), slopes: new Float64Array(points),
    rests: new Float64Array(points), sum: 0, restSum: 0,
  };
  for (let p = 0; p < points; ++p) {
    const [density, steep] = law.at(over[p]);
    const less = 1 + series * steep;
    const slope = steep / less;
    const rest = sign * (density - steep * over[p]) / less;
    t.slopes[p] = slope;
    t.rests[p] = rest;
    const size = electrode.sizes[p], weight = size * slope, at = p * n;
    t.sum += weight;
    t.restSum += size * rest;
    for (let i = 0; i < n; ++i) {
      const value = electrode.gauss[at + i];
      t.weight[i] += weight * value;
      t.rest[i] += size * rest * value;
      for (let j = 0; j <= i; ++j) {
        t.mass[i * n + j] += weight * value * electrode.gauss[at + j];
      }
    }
  }
  for (let i = 0; i < n; ++i) {
    for (let j = 0; j < i; ++j) t.mass[j * n + i] = t.mass[i * n + j];
  }
  return t;
}
