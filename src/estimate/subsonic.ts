/**
 * Filling through one restriction, as a statistical model of pressure against time. In the ISO 6358 form the
 * mass flow into a rigid vessel of constant temperature makes
 *
 *   dp/dt = k·p1                       while p/p1 ≤ b (choked)
 *   dp/dt = k·p1·√(1 − u²)             after, with u = (p/p1 − b)/(1 − b)
 *
 * (ISO 6358-1:2013, subsonic and choked branches; p absolute, p1 the supply, b the critical ratio). With
 * y = asin(u) for u ≥ 0 and y = u for u < 0, y is a straight line in time for the right p1 and no other: the
 * slope is k/(1 − b), and at y = π/2 the vessel has settled at p1 in finite time. That makes p1 a candidate to be
 * tested by the chi-square of a straight line, and no iteration is needed.
 */

/** Means of neighbouring samples: time (s), absolute pressure (bar), variance of the mean (bar²). */
export interface BlockMeans {
  readonly t: readonly number[];
  readonly p: readonly number[];
  readonly variance: readonly number[];
}

export interface CandidateFit {
  readonly p1: number;
  /** Σ (p − model)² / variance. */
  readonly chi2: number;
  /** Slope of y, 1/s; the settling lasts (π/2 − y)/rate. */
  readonly rate: number;
  /** y at t0. */
  readonly y0: number;
  readonly t0: number;
}

const HALF_PI = Math.PI / 2;

/** y of a pressure: −b/(1 − b) at nothing, 0 where choking ends, π/2 at p1 and over. */
export function straighten(p: number, p1: number, b: number): number {
  const u = (p / p1 - b) / (1 - b);
  if (u <= 0) return u;
  return u >= 1 ? HALF_PI : Math.asin(u);
}

/** Inverse of `straighten`; stays at p1 from π/2 on. */
export function pressureAt(y: number, p1: number, b: number): number {
  const u = y <= 0 ? y : y >= HALF_PI ? 1 : Math.sin(y);
  return p1 * (b + (1 - b) * u);
}

/**
 * Fit of one candidate p1 to blocks [from, to). Weights are those of the pressures, carried through
 * dy/dp; blocks at the very end, where asin has no slope, pull on nothing but are judged by their residual.
 */
export function fitCandidate(
  blocks: BlockMeans,
  from: number,
  to: number,
  p1: number,
  b: number,
): CandidateFit {
  const { t, p, variance } = blocks;
  const t0 = t[from] ?? 0;
  const scale = p1 * (1 - b);
  let sw = 0;
  let st = 0;
  let sy = 0;
  let stt = 0;
  let sty = 0;
  for (let i = from; i < to; i++) {
    const u = (p[i]! / p1 - b) / (1 - b);
    if (u >= 0.9995) continue;
    const y = u <= 0 ? u : Math.asin(u);
    const w = (u <= 0 ? 1 : 1 - u * u) / variance[i]!;
    const x = t[i]! - t0;
    sw += w;
    st += w * x;
    sy += w * y;
    stt += w * x * x;
    sty += w * x * y;
  }
  const det = sw * stt - st * st;
  let rate = 0;
  let y0 = HALF_PI;
  if (det > 1e-12 * sw * stt && sw > 0) {
    rate = (sw * sty - st * sy) / det;
    y0 = (sy - rate * st) / sw;
  } else if (sw > 0) y0 = sy / sw;
  let chi2 = 0;
  for (let i = from; i < to; i++) {
    const y = y0 + rate * (t[i]! - t0);
    const u = y <= 0 ? y : y >= HALF_PI ? 1 : Math.sin(y);
    const r = p[i]! - (p1 * b + scale * u);
    chi2 += (r * r) / variance[i]!;
  }
  return { p1, chi2, rate, y0, t0 };
}

/** Pressure of the fit at time t, bar absolute. */
export function fittedPressure(fit: CandidateFit, b: number, t: number): number {
  return pressureAt(fit.y0 + fit.rate * (t - fit.t0), fit.p1, b);
}

/** dp/dt of the fit at time t, bar/s. */
export function fittedRate(fit: CandidateFit, b: number, t: number): number {
  const y = fit.y0 + fit.rate * (t - fit.t0);
  if (y >= HALF_PI) return 0;
  return fit.p1 * (1 - b) * fit.rate * (y <= 0 ? 1 : Math.cos(y));
}

/** Seconds after t at which the fit reaches p (absolute); Infinity if it never does. */
export function timeToReach(fit: CandidateFit, b: number, t: number, p: number): number {
  if (p >= fit.p1 || fit.rate <= 0) return Number.POSITIVE_INFINITY;
  return (straighten(p, fit.p1, b) - fit.y0) / fit.rate - (t - fit.t0);
}
