/**
 * A polynomial in two variables that is mirror-symmetric about the second axis: even in x (`xPower` 0) or odd in x (`xPower` 1).
 * value = x^xPower · Σ rows[i][j] · x^(2i) · y^j, with x and y as shares of a radius.
 */
export interface MirrorPolynomial {
  readonly xPower: 0 | 1;
  readonly rows: readonly Float64Array[];
}

/** Points at which a function is known: abscissae as shares of a radius, one value each. */
export interface Samples {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly values: Float64Array;
}

interface Term {
  readonly row: number;
  readonly yPower: number;
}

function termsOf(xPower: 0 | 1, leastDegree: number, degree: number): Term[] {
  const terms: Term[] = [];
  for (let row = 0; xPower + 2 * row <= degree; row++) {
    for (let yPower = 0; xPower + 2 * row + yPower <= degree; yPower++) {
      if (xPower + 2 * row + yPower >= leastDegree) terms.push({ row, yPower });
    }
  }
  return terms;
}

/** Solves the symmetric positive definite system a·c = b (a in rows, size n) by Cholesky's method. Throws when it is singular. */
function solveNormal(a: Float64Array, b: Float64Array): Float64Array {
  const n = b.length;
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = a[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= a[i * n + k]! * a[j * n + k]!;
      if (i === j) {
        if (!(sum > 0)) throw new Error(`the fit's normal equations are singular at ${j} of ${n}`);
        a[j * n + j] = Math.sqrt(sum);
      } else a[i * n + j] = sum / a[j * n + j]!;
    }
  }
  const solved = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) solved[i]! -= a[i * n + k]! * solved[k]!;
    solved[i]! /= a[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) solved[i]! -= a[k * n + i]! * solved[k]!;
    solved[i]! /= a[i * n + i]!;
  }
  return solved;
}

/** The least-squares polynomial with all terms of total degree `leastDegree` to `degree` that keep the mirror symmetry. */
export function fitMirror(samples: Samples, xPower: 0 | 1, leastDegree: number, degree: number): MirrorPolynomial {
  const terms = termsOf(xPower, leastDegree, degree);
  const n = terms.length;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  const basis = new Float64Array(n);
  for (let s = 0; s < samples.values.length; s++) {
    const x = samples.x[s]!;
    const y = samples.y[s]!;
    terms.forEach((term, t) => {
      basis[t] = x ** (xPower + 2 * term.row) * y ** term.yPower;
    });
    for (let i = 0; i < n; i++) {
      right[i]! += basis[i]! * samples.values[s]!;
      for (let j = 0; j <= i; j++) normal[i * n + j]! += basis[i]! * basis[j]!;
    }
  }
  const solved = solveNormal(normal, right);
  const rows: Float64Array[] = [];
  for (let row = 0; xPower + 2 * row <= degree; row++) rows.push(new Float64Array(degree - xPower - 2 * row + 1));
  terms.forEach((term, t) => {
    rows[term.row]![term.yPower] = solved[t]!;
  });
  return { xPower, rows };
}

/** The polynomial's value at (x, y), by Horner's rule both ways. */
export function mirrorValue(polynomial: MirrorPolynomial, x: number, y: number): number {
  const rows = polynomial.rows;
  const xx = x * x;
  let sum = 0;
  for (let i = rows.length - 1; i >= 0; i--) {
    const row = rows[i]!;
    let inner = 0;
    for (let j = row.length - 1; j >= 0; j--) inner = inner * y + row[j]!;
    sum = sum * xx + inner;
  }
  return polynomial.xPower === 0 ? sum : sum * x;
}

/** Writes the polynomial's slopes at (x, y) into `out`: [along x, along y]. */
export function mirrorSlopesInto(out: Float64Array, polynomial: MirrorPolynomial, x: number, y: number): void {
  const rows = polynomial.rows;
  const xx = x * x;
  let sum = 0;
  let sumByXx = 0;
  let sumByY = 0;
  for (let i = rows.length - 1; i >= 0; i--) {
    const row = rows[i]!;
    let inner = 0;
    let innerByY = 0;
    for (let j = row.length - 1; j >= 0; j--) {
      innerByY = innerByY * y + inner;
      inner = inner * y + row[j]!;
    }
    sumByXx = sumByXx * xx + sum;
    sum = sum * xx + inner;
    sumByY = sumByY * xx + innerByY;
  }
  if (polynomial.xPower === 0) {
    out[0] = 2 * x * sumByXx;
    out[1] = sumByY;
  } else {
    out[0] = sum + 2 * xx * sumByXx;
    out[1] = sumByY * x;
  }
}
