/** Covariances of slow errors, for generalised least squares on block means. Times in one unit, sd of the value. */

/**
 * Covariance of two block means of a process that wanders and comes back (Ornstein-Uhlenbeck: sd² · exp(−|Δt|/tau)),
 * both blocks of the length `block`, their middles `apart` (0, or at least one block): the integral in closed form.
 */
export function wanderOfMeans(sd: number, tau: number, block: number, apart: number): number {
  const v = sd * sd;
  const r = block / tau;
  if (r < 1e-4) return v * Math.exp(-apart / tau);
  if (apart < block / 2) return (2 * v * (r - 1 + Math.exp(-r))) / (r * r);
  const one = (1 - Math.exp(-r)) / r;
  return v * one * one * Math.exp(-Math.max(0, apart - block) / tau);
}

/** Covariance of a smooth process of that sd and length (squared exponential). */
export function smoothCovariance(sd: number, length: number, apart: number): number {
  const x = apart / length;
  return sd * sd * Math.exp(-0.5 * x * x);
}

/**
 * Scale of white noise in a series with a slow course: from its second differences, whose mean absolute value is
 * √6 · √(2/π) · σ = 1.954 σ. Values that are not neighbours in time spoil nothing but a few of them. 0 under 3 values.
 */
export function whiteScale(y: readonly number[]): number {
  if (y.length < 3) return 0;
  let sum = 0;
  for (let i = 2; i < y.length; i++) sum += Math.abs(y[i]! - 2 * y[i - 1]! + y[i - 2]!);
  return sum / (y.length - 2) / 1.954;
}

/**
 * Quantile of Student's t of ν degrees of freedom from the normal one, z: z + (z³ + z)/4ν + (5z⁵ + 16z³ + 3z)/96ν²
 * (Cornish and Fisher's expansion, Abramowitz & Stegun 26.7.5).
 */
export function studentOf(z: number, nu: number): number {
  if (!(nu > 0)) return Number.POSITIVE_INFINITY;
  const z3 = z * z * z;
  return z + (z3 + z) / (4 * nu) + (5 * z3 * z * z + 16 * z3 + 3 * z) / (96 * nu * nu);
}
