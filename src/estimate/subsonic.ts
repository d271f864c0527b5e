/**
 * Filling through one restriction, as a statistical model of pressure against time. In the ISO 6358 form the
 * mass flow into a rigid vessel of constant temperature makes
 *
 *   dp/dt = k·p1                       while p/p1 ≤ b (choked)
 *   dp/dt = k·p1·√(1 − u²)             after, with u = (p/p1 − b)/(1 − b)
 *
 * (ISO 6358-1:2013, choked and subsonic branches; p absolute, p1 the supply, b the critical ratio). With
 * y = asin(u) for u ≥ 0 and y = u for u < 0, y is a straight line in time for the right p1 and no other: the
 * slope is k/(1 − b), and at y = π/2 the vessel has settled at p1 in finite time. That makes p1 a candidate to be
 * tested by the chi-square of a straight line, and no iteration is needed.
 *
 * Heat bends the line. Air that is compressed faster than the wall takes the heat up makes up to γ = 1.4 times the
 * slope of the same flow at constant temperature, and this fades with the wall's uptake. So time x since the
 * stretch began is replaced by the warped time x + h·τ·(1 − exp(−x/τ)), 0 ≤ h ≤ 0.4: still linear in its unknowns.
 */

/** Means of neighbouring samples: time (s), absolute pressure (bar), variance of the mean (bar²). */
export interface BlockMeans {
  readonly t: readonly number[];
  readonly p: readonly number[];
  readonly variance: readonly number[];
}

/** The line of one candidate: y(t) = y0 + rate·w(t − t0), w the warped time. */
export interface SubsonicFit {
  readonly p1: number;
  readonly b: number;
  readonly y0: number;
  /** 1/s. */
  readonly rate: number;
  readonly t0: number;
  readonly h: number;
  readonly tauS: number;
}

/** γ − 1 of air: the most that heat can add to the slope. */
export const MOST_HEAT = 0.4;

const HALF_PI = Math.PI / 2;

/**
 * asin(u) for 0 ≤ u ≤ 1 to 2e-8 (Abramowitz & Stegun 4.4.46): the bank asks for it over a thousand times a
 * question, and 2e-8 of y is a ten-millionth of a bar.
 */
export function arcsine(u: number): number {
  const series =
    1.570796305 +
    u *
      (-0.2145988016 +
        u *
          (0.0889789874 +
            u *
              (-0.0501743046 +
                u * (0.030891881 + u * (-0.0170881256 + u * (0.0066700901 + u * -0.0012624911))))));
  return HALF_PI - Math.sqrt(1 - u) * series;
}

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

function lineAt(f: SubsonicFit, t: number): number {
  const x = t - f.t0;
  return f.y0 + f.rate * (x + f.h * f.tauS * (1 - Math.exp(-x / f.tauS)));
}

/** Pressure of the fit at time t, bar absolute. */
export function fittedPressure(f: SubsonicFit, t: number): number {
  return pressureAt(lineAt(f, t), f.p1, f.b);
}

/** dp/dt of the fit at time t, bar/s. */
export function fittedRate(f: SubsonicFit, t: number): number {
  const y = lineAt(f, t);
  if (y >= HALF_PI) return 0;
  const speed = f.rate * (1 + f.h * Math.exp(-(t - f.t0) / f.tauS));
  return f.p1 * (1 - f.b) * speed * (y <= 0 ? 1 : Math.cos(y));
}

/** Seconds after t at which the fit reaches p (absolute); Infinity if it never does, 0 if it has. */
export function timeToReach(f: SubsonicFit, t: number, p: number): number {
  if (p > f.p1 || f.rate <= 0) return Number.POSITIVE_INFINITY;
  const want = straighten(p, f.p1, f.b);
  if (want <= lineAt(f, t)) return 0;
  // The warped time is monotone and nearly straight: four Newton steps are exact to the microsecond.
  let s = 0;
  for (let i = 0; i < 6; i++) {
    const slope = f.rate * (1 + f.h * Math.exp(-(t + s - f.t0) / f.tauS));
    s = Math.max(0, s + (want - lineAt(f, t + s)) / slope);
  }
  return s;
}
