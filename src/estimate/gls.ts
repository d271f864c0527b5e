/**
 * Generalised least squares: a few coefficients of known regressors under errors of known covariance. Nuisances
 * with a prior (an amplitude that is small but not zero) belong into the covariance: sd² · h · hᵀ.
 */

export interface GlsFit {
  readonly beta: readonly number[];
  /** Covariance of beta, row by row. */
  readonly cov: readonly (readonly number[])[];
  /** Weights w with beta[j] = Σ w[j][i] · y[i]: what any other covariance would do to beta is wᵀ·K·w. */
  readonly weights: readonly Float64Array[];
  /** Residuals made white: of variance 1 and independent where the covariance is right. */
  readonly white: Float64Array;
  /** Σ white² and its degrees of freedom. */
  readonly chi2: number;
  readonly dof: number;
}

/**
 * Lower Cholesky factor in place of a symmetric n × n matrix (row-major; only the lower triangle is read).
 * @returns false where the matrix is not positive definite
 */
export function cholesky(k: Float64Array, n: number): boolean {
  for (let j = 0; j < n; j++) {
    const row = j * n;
    let d = k[row + j]!;
    for (let m = 0; m < j; m++) d -= k[row + m]! * k[row + m]!;
    if (!(d > 0)) return false;
    const root = Math.sqrt(d);
    k[row + j] = root;
    for (let i = j + 1; i < n; i++) {
      const other = i * n;
      let s = k[other + j]!;
      for (let m = 0; m < j; m++) s -= k[other + m]! * k[row + m]!;
      k[other + j] = s / root;
    }
  }
  return true;
}

/** Solves L·x = v in place. */
function forward(l: Float64Array, n: number, v: Float64Array): void {
  for (let i = 0; i < n; i++) {
    let s = v[i]!;
    for (let m = 0; m < i; m++) s -= l[i * n + m]! * v[m]!;
    v[i] = s / l[i * n + i]!;
  }
}

/** Solves Lᵀ·x = v in place. */
function backward(l: Float64Array, n: number, v: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    let s = v[i]!;
    for (let m = i + 1; m < n; m++) s -= l[m * n + i]! * v[m]!;
    v[i] = s / l[i * n + i]!;
  }
}

/**
 * tr(K⁻¹·W) for a symmetric W (n × n, lower triangle): how much of the energy that K makes white a part W of it has.
 * @param l lower Cholesky factor of K, as fitGls leaves it
 */
export function traceOfShare(l: Float64Array, w: Float64Array, n: number): number {
  let trace = 0;
  const v = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) v[i] = i >= j ? w[i * n + j]! : w[j * n + i]!;
    forward(l, n, v);
    backward(l, n, v);
    trace += v[j]!;
  }
  return trace;
}

/**
 * @param columns regressors, each of n values
 * @param k covariance of the errors, n × n row-major, lower triangle; it is used up: its Cholesky factor is left there
 * @returns null where the covariance or the regressors do not carry a fit
 */
export function fitGls(
  columns: readonly (readonly number[])[],
  y: readonly number[],
  k: Float64Array,
): GlsFit | null {
  const n = y.length;
  const p = columns.length;
  if (columns.some((c) => c.length !== n) || k.length < n * n)
    throw new RangeError('fitGls: the lists differ in length');
  if (n < p || !cholesky(k, n)) return null;
  const white = Float64Array.from(y);
  forward(k, n, white);
  const x = columns.map((c) => {
    const one = Float64Array.from(c);
    forward(k, n, one);
    return one;
  });
  // Gram-Schmidt on the whitened regressors keeps the digits that normal equations would lose.
  const q = x.map((c) => Float64Array.from(c));
  const r: number[][] = x.map(() => new Array<number>(p).fill(0));
  for (let j = 0; j < p; j++) {
    // Twice is enough.
    for (let pass = 0; pass < 2; pass++)
      for (let m = 0; m < j; m++) {
        const s = dot(q[m]!, q[j]!);
        r[m]![j]! += s;
        for (let i = 0; i < n; i++) q[j]![i]! -= s * q[m]![i]!;
      }
    const size = Math.sqrt(dot(q[j]!, q[j]!));
    if (!(size > 1e-12 * Math.sqrt(dot(x[j]!, x[j]!)))) return null;
    r[j]![j] = size;
    for (let i = 0; i < n; i++) q[j]![i]! /= size;
  }
  const inverse = invertUpper(r, p);
  const weights = inverse.map((row) => {
    const w = new Float64Array(n);
    for (let j = 0; j < p; j++) for (let i = 0; i < n; i++) w[i]! += row[j]! * q[j]![i]!;
    backward(k, n, w);
    return w;
  });
  const z = q.map((c) => dot(c, white));
  const beta = inverse.map((row) => row.reduce((s, v, j) => s + v * z[j]!, 0));
  for (let j = 0; j < p; j++) for (let i = 0; i < n; i++) white[i]! -= z[j]! * q[j]![i]!;
  const cov = inverse.map((a) => inverse.map((b) => a.reduce((s, v, j) => s + v * b[j]!, 0)));
  return { beta, cov, weights, white, chi2: dot(white, white), dof: n - p };
}

function dot(a: Float64Array, b: Float64Array): number {
  let s = 0;
  for (let i = 0; i < a.length; i++) s += a[i]! * b[i]!;
  return s;
}

function invertUpper(r: readonly (readonly number[])[], p: number): number[][] {
  const out: number[][] = Array.from({ length: p }, () => new Array<number>(p).fill(0));
  for (let j = 0; j < p; j++) {
    out[j]![j] = 1 / r[j]![j]!;
    for (let i = j - 1; i >= 0; i--) {
      let s = 0;
      for (let m = i + 1; m <= j; m++) s += r[i]![m]! * out[m]![j]!;
      out[i]![j] = -s / r[i]![i]!;
    }
  }
  return out;
}
