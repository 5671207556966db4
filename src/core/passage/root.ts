/**
 * Brent's method: a zero of `f` between `a` and `b`, where f(a) and f(b) have opposite signs (Brent, Algorithms for Minimization
 * without Derivatives, 1973, ch. 4). Ends when the bracket is narrower than `tolerance` or |f| is at most `closeEnough`.
 */
export function zeroBetween(
  f: (x: number) => number,
  a: number,
  b: number,
  fa: number,
  fb: number,
  tolerance: number,
  closeEnough: number,
): number {
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) throw new Error(`no change of sign: f(${a}) = ${fa}, f(${b}) = ${fb}`);
  let c = a;
  let fc = fa;
  let d = b - a;
  let e = d;
  for (let i = 0; i < 100; i++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const middle = (c - b) / 2;
    const least = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    if (Math.abs(middle) <= least || Math.abs(fb) <= closeEnough) return b;
    if (Math.abs(e) >= least && Math.abs(fa) > Math.abs(fb)) {
      let p: number;
      let q: number;
      const s = fb / fa;
      if (a === c) {
        p = 2 * middle * s;
        q = 1 - s;
      } else {
        const t = fa / fc;
        const r = fb / fc;
        p = s * (2 * middle * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * middle * q - Math.abs(least * q), Math.abs(e * q))) {
        e = d;
        d = p / q;
      } else {
        d = middle;
        e = middle;
      }
    } else {
      d = middle;
      e = middle;
    }
    a = b;
    fa = fb;
    b += Math.abs(d) > least ? d : middle > 0 ? least : -least;
    fb = f(b);
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      d = b - a;
      e = d;
    }
  }
  return b;
}
