/**
 * Straight lines by (weighted) least squares, with the standard errors that white noise would give them. Where
 * the errors are correlated, multiply by `ar1Inflation` (ar1.ts) or use block means whose scatter is measured.
 */

export interface LineFit {
  /** y at x = 0. */
  readonly intercept: number;
  readonly slope: number;
  readonly sdIntercept: number;
  readonly sdSlope: number;
  /** Root of the residual sum of squares over its degrees of freedom; 0 where there are none. */
  readonly residualSd: number;
  readonly meanX: number;
  readonly meanY: number;
  readonly n: number;
}

/**
 * y = intercept + slope · x, every point of weight 1 or of its `weights` (1/variance up to a factor). null with
 * fewer than two different x. Sums are taken about the means, so that large offsets cost no digits.
 */
export function fitLine(
  x: readonly number[],
  y: readonly number[],
  weights: readonly number[] | null = null,
): LineFit | null {
  const n = x.length;
  if (y.length !== n || (weights !== null && weights.length !== n))
    throw new RangeError('fitLine: the lists differ in length');
  let sw = 0;
  let sx = 0;
  let sy = 0;
  for (let i = 0; i < n; i++) {
    const w = weights === null ? 1 : weights[i]!;
    sw += w;
    sx += w * x[i]!;
    sy += w * y[i]!;
  }
  if (!(sw > 0)) return null;
  const meanX = sx / sw;
  const meanY = sy / sw;
  let sxx = 0;
  let sxy = 0;
  for (let i = 0; i < n; i++) {
    const w = weights === null ? 1 : weights[i]!;
    const dx = x[i]! - meanX;
    sxx += w * dx * dx;
    sxy += w * dx * (y[i]! - meanY);
  }
  if (!(sxx > 0)) return null;
  const slope = sxy / sxx;
  const intercept = meanY - slope * meanX;
  let rss = 0;
  for (let i = 0; i < n; i++) {
    const w = weights === null ? 1 : weights[i]!;
    const r = y[i]! - meanY - slope * (x[i]! - meanX);
    rss += w * r * r;
  }
  const residualSd = n > 2 ? Math.sqrt(rss / (n - 2)) : 0;
  return {
    intercept,
    slope,
    sdIntercept: residualSd * Math.sqrt(1 / sw + (meanX * meanX) / sxx),
    sdSlope: residualSd / Math.sqrt(sxx),
    residualSd,
    meanX,
    meanY,
    n,
  };
}

/** y = slope · x. null where every x is zero. */
export function fitThroughOrigin(
  x: readonly number[],
  y: readonly number[],
): { readonly slope: number; readonly sdSlope: number; readonly residualSd: number } | null {
  let sxx = 0;
  let sxy = 0;
  const n = x.length;
  if (y.length !== n) throw new RangeError('fitThroughOrigin: the lists differ in length');
  for (let i = 0; i < n; i++) {
    sxx += x[i]! * x[i]!;
    sxy += x[i]! * y[i]!;
  }
  if (!(sxx > 0)) return null;
  const slope = sxy / sxx;
  let rss = 0;
  for (let i = 0; i < n; i++) rss += (y[i]! - slope * x[i]!) ** 2;
  const residualSd = n > 1 ? Math.sqrt(rss / (n - 1)) : 0;
  return { slope, sdSlope: residualSd / Math.sqrt(sxx), residualSd };
}
