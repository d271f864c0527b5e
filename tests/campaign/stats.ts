/** Statistics of a campaign's score: exact bounds of a rate, and order statistics. */

/** ln Γ(x), x > 0 (Lanczos, g = 7, nine terms; about 1e-14). */
function lnGamma(x: number): number {
  const c = [
    0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
    12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ];
  const t = x - 1 + 7.5;
  let a = c[0]!;
  for (let i = 1; i < 9; i++) a += c[i]! / (x - 1 + i);
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(a);
}

/** Regularised incomplete beta function I_x(a, b), by its continued fraction (modified Lentz). */
export function betaI(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaI(1 - x, b, a);
  const front =
    Math.exp(lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * Math.log(x) + b * Math.log(1 - x)) / a;
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let f = d;
  for (let m = 1; m < 300; m++) {
    for (const term of [
      (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)),
      (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)),
    ]) {
      d = 1 + term * d;
      d = 1 / (Math.abs(d) < tiny ? tiny : d);
      c = 1 + term / c;
      if (Math.abs(c) < tiny) c = tiny;
      f *= c * d;
    }
    if (Math.abs(c * d - 1) < 1e-13) break;
  }
  return front * f;
}

/**
 * Clopper-Pearson bounds of a rate seen as k of n (Biometrika 26, 1934): each side holds with the given confidence
 * halves, 0.95 for the usual two-sided 95 % interval.
 */
export function clopperPearson(
  k: number,
  n: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  const half = (1 - confidence) / 2;
  const solve = (target: number, a: number, b: number): number => {
    let lo = 0;
    let hi = 1;
    for (let i = 0; i < 100; i++) {
      const mid = (lo + hi) / 2;
      if (betaI(mid, a, b) < target) lo = mid;
      else hi = mid;
    }
    return (lo + hi) / 2;
  };
  return {
    low: k === 0 ? 0 : solve(half, k, n - k + 1),
    high: k === n ? 1 : solve(1 - half, k + 1, n - k),
  };
}

/** Quantile of a list, lower of the two neighbours: never better than what was seen. NaN for none. */
export function quantile(values: readonly number[], q: number): number {
  if (values.length === 0) return Number.NaN;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.min(sorted.length - 1, Math.floor(q * (sorted.length - 1))))]!;
}

/** "12 of 2000 = 0.60 % (0.31-1.05)" */
export function rate(k: number, n: number): string {
  if (n === 0) return 'none';
  const { low, high } = clopperPearson(k, n);
  const p = (x: number) => (100 * x).toFixed(2);
  return `${k} of ${n} = ${p(k / n)} % (${p(low)}-${p(high)})`;
}
