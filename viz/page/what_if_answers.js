// ---- linear algebra of the reduced system ----

// Cholesky factor of the lower triangle, in place; false where it is none.
function factor(a, n) {
  for (let j = 0; j < n; ++j) {
    for (let i = j; i < n; ++i) {
      let sum = a[i * n + j];
      for (let k = 0; k < j; ++k) sum -= a[i * n + k] * a[j * n + k];
      if (i > j) a[i * n + j] = sum / a[j * n + j];
      else if (!(sum > 0)) return false;
      else a[j * n + j] = Math.sqrt(sum);
    }
  }
  return true;
}

function solveFactored(l, n, x) {
  for (let i = 0; i < n; ++i) {
    for (let k = 0; k < i; ++k) x[i] -= l[i * n + k] * x[k];
    x[i] /= l[i * n + i];
  }
  for (let i = n; i-- > 0;) {
    for (let k = i + 1; k < n; ++k) x[i] -= l[k * n + i] * x[k];
    x[i] /= l[i * n + i];
  }
}

// A small system by elimination with pivots; null where it is singular. Both
// arguments are used up.
function solveSmall(a, x) {
  const n = x.length;
  for (let k = 0; k < n; ++k) {
    let best = k;
    for (let i = k + 1; i < n; ++i) {
      if (Math.abs(a[i][k]) > Math.abs(a[best][k])) best = i;
    }
    [a[k], a[best]] = [a[best], a[k]];
    [x[k], x[best]] = [x[best], x[k]];
    if (!(Math.abs(a[k][k]) > 1e-300)) return null;
    for (let i = k + 1; i < n; ++i) {
      const share = a[i][k] / a[k][k];
      for (let j = k; j < n; ++j) a[i][j] -= share * a[k][j];
      x[i] -= share * x[k];
    }
  }
  for (let k = n; k-- > 0;) {
    for (let j = k + 1; j < n; ++j) x[k] -= a[k][j] * x[j];
    x[k] /= a[k][k];
  }
  return x;
}

const dot = (a, b, n) => {
  let sum = 0;
  for (let k = 0; k < n; ++k) sum += a[k] * b[k];
  return sum;
};

// What one volt behind each law does, in turn, and last the tangents' rest:
// solver/reduced_response and Response::answer. Columns of `x` are coordinates,
// `conductance` what leaves the liquid through each electrode [A].
// laws: [{resistance, tangent}]
function answers(model, geometry, turn, conductivity, laws) {
  const n = geometry.size, held = geometry.held, free = n - held;
  const m = laws.length;
  const any = laws.some((law) => law.tangent);
  const drives = m + (any ? 1 : 0);
  const a = new Float64Array(n * n);
  const stiffness = geometry.stiffness[turn];
  for (let k = 0; k < n * n; ++k) a[k] = conductivity * stiffness[k];
  const loads = [];
  for (let d = 0; d < drives; ++d) loads.push(new Float64Array(n));
  laws.forEach((law, e) => {
    const electrode = geometry.electrodes[e];
    if (law.tangent) {
      for (let k = 0; k < n * n; ++k) a[k] += law.tangent.mass[k];
      for (let k = 0; k < n; ++k) {
        loads[e][k] += law.tangent.weight[k];
        loads[m][k] -= law.tangent.rest[k];
      }
    } else if (law.resistance > 0) {
      const over = 1 / law.resistance;
      for (let k = 0; k < n * n; ++k) a[k] += over * electrode.mass[k];
      for (let k = 0; k < n; ++k) loads[e][k] += over * electrode.weight[k];
    }
  });
  const l = new Float64Array(free * free);
  for (let i = 0; i < free; ++i) {
    for (let j = 0; j < free; ++j) {
      l[i * free + j] = a[(held + i) * n + held + j];
    }
  }
  if (!factor(l, free)) return null;
  const lift = [];
  let next = 0;
  for (const law of laws) {
    lift.push(!law.tangent && law.resistance === 0 ? next++ : -1);
  }
  const x = loads.map((load, d) => {
    const right = load.slice(held);
    const by = d < m ? lift[d] : -1;
    if (by >= 0) {
      for (let i = 0; i < free; ++i) right[i] -= a[(held + i) * n + by];
    }
    solveFactored(l, free, right);
    const column = new Float64Array(n);
    column.set(right, held);
    if (by >= 0) column[by] = 1;
    return column;
  });
  const conductance = laws.map((law, e) => x.map((column, d) => {
    const electrode = geometry.electrodes[e];
    let current = 0;
    if (law.tangent) {
      current = dot(law.tangent.weight, column, n);
      if (d === e) current -= law.tangent.sum;
      if (d === m) current += law.tangent.restSum;
    } else if (lift[e] >= 0) {
      current = loads[d][lift[e]] -
        dot(a.subarray(lift[e] * n, lift[e] * n + n), column, n);
    } else {
      current = dot(electrode.weight, column, n);
      if (d === e) current -= electrode.measure;
      current /= law.resistance;
    }
    return current * model.depth;
  }));
  return { x, conductance };
}

// Change of the conductance with the logarithm of one resistance:
// solver/rescaling.
function conductanceChange(model, geometry, laws, x, e) {
  const n = geometry.size, electrode = geometry.electrodes[e];
  const through = x.map((column) => {
    const y = new Float64Array(n);
    for (let i = 0; i < n; ++i) {
      y[i] = dot(electrode.mass.subarray(i * n, i * n + n), column, n);
    }
    return y;
  });
  const level = x.map((column) => dot(electrode.weight, column, n));
  return laws.map((_, a) => x.map((column, b) => {
    let value = dot(through[a], column, n);
    if (a === e) value -= level[b];
    if (b === e) value -= level[a];
    if (a === e && b === e) value += electrode.measure;
    return value / laws[e].resistance * model.depth;
  }));
}
