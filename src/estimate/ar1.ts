/** Correlated noise of first order: x(i) = φ·x(i−1) + white. What it does to the error of means and slopes. */

/**
 * Lag-1 autocorrelation of residuals that have mean zero already, with the small-sample bias of about −(1+3φ)/n
 * taken off (Marriott and Pope, Biometrika 41, 1954; form from memory). 0 with fewer than four values.
 */
export function lag1(residuals: readonly number[]): number {
  const n = residuals.length;
  if (n < 4) return 0;
  let s0 = 0;
  let s1 = 0;
  for (let i = 0; i < n; i++) {
    s0 += residuals[i]! * residuals[i]!;
    if (i > 0) s1 += residuals[i]! * residuals[i - 1]!;
  }
  if (!(s0 > 0)) return 0;
  const raw = s1 / s0;
  return Math.max(-0.99, Math.min(0.99, raw + (1 + 3 * raw) / n));
}

/** Factor on the variance of a long mean (or slope) under AR(1) noise: (1 + φ)/(1 − φ); never under 1. */
export function ar1Inflation(phi: number): number {
  const p = Math.max(0, Math.min(0.99, phi));
  return (1 + p) / (1 - p);
}
