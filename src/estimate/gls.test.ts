import { describe, expect, it } from 'vitest';
import { cholesky, fitGls, traceOfShare } from './gls.ts';
import { fitLine } from './line.ts';

// NIST Statistical Reference Datasets, linear regression, data set Norris (36 points).
const NORRIS_X = [
  0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0,
  447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3,
  229.2, 669.1, 448.9, 0.5,
];
const NORRIS_Y = [
  0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3,
  448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6,
  228.9, 668.4, 449.2, 0.2,
];

const identity = (n: number, v = 1) => {
  const k = new Float64Array(n * n);
  for (let i = 0; i < n; i++) k[i * n + i] = v;
  return k;
};

describe('fitGls', () => {
  it('with equal independent errors gives the certified values of NIST StRD Norris', () => {
    const n = NORRIS_X.length;
    const fit = fitGls([NORRIS_X.map(() => 1), NORRIS_X], NORRIS_Y, identity(n))!;
    expect(fit.beta[0]).toBeCloseTo(-0.262323073774029, 10);
    expect(fit.beta[1]).toBeCloseTo(1.00211681802045, 12);
    const s = Math.sqrt(fit.chi2 / fit.dof);
    expect(s).toBeCloseTo(0.884796396144373, 10);
    expect(s * Math.sqrt(fit.cov[0]![0]!)).toBeCloseTo(0.232818234301152, 10);
    expect(s * Math.sqrt(fit.cov[1]![1]!)).toBeCloseTo(4.29796848199937e-4, 12);
  });

  it('through the origin gives those of NIST StRD NoInt1', () => {
    const x = Array.from({ length: 11 }, (_, i) => 60 + i);
    const fit = fitGls(
      [x],
      Array.from({ length: 11 }, (_, i) => 130 + i),
      identity(11),
    )!;
    expect(fit.beta[0]).toBeCloseTo(2.07438016528926, 12);
    expect(Math.sqrt((fit.chi2 / fit.dof) * fit.cov[0]![0]!)).toBeCloseTo(0.0165289256198347, 12);
  });

  it('with unequal errors is weighted least squares', () => {
    const x = [0, 1, 2, 3];
    const y = [1, 4, 3, 9];
    const sd = [1, 2, 0.5, 3];
    const k = identity(4);
    sd.forEach((s, i) => {
      k[i * 4 + i] = s * s;
    });
    const ours = fitGls([[1, 1, 1, 1], x], y, k)!;
    const line = fitLine(
      x,
      y,
      sd.map((s) => 1 / (s * s)),
    )!;
    expect(ours.beta[1]).toBeCloseTo(line.slope, 12);
  });

  it('the mean of AR(1) values with known φ has its closed-form variance', () => {
    // Precision matrix of a stationary AR(1) is tridiagonal: 1ᵀK⁻¹1 = (2 + (n − 2)(1 − φ)) (1 − φ) / (1 − φ²).
    const n = 20;
    const phi = 0.7;
    const k = new Float64Array(n * n);
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) k[i * n + j] = phi ** Math.abs(i - j);
    const fit = fitGls([new Array<number>(n).fill(1)], new Array<number>(n).fill(3), k)!;
    const precision = ((2 + (n - 2) * (1 - phi)) * (1 - phi)) / (1 - phi * phi);
    expect(fit.cov[0]![0]).toBeCloseTo(1 / precision, 12);
    expect(fit.beta[0]).toBeCloseTo(3, 12);
  });

  it('a nuisance of unbounded amplitude is as good as a regressor, and weights give beta back', () => {
    const x = [0, 1, 2, 3, 4, 5];
    const h = x.map((t) => Math.exp(-t / 2));
    const y = x.map((t, i) => 2 - 0.5 * t + 4 * h[i]! + [0.01, -0.02, 0.01, 0.02, -0.01, -0.01][i]!);
    const ones = x.map(() => 1);
    const k = identity(6, 1e-4);
    for (let i = 0; i < 6; i++) for (let j = 0; j < 6; j++) k[i * 6 + j]! += 1e4 * h[i]! * h[j]!;
    const nuisance = fitGls([ones, x], y, k)!;
    const regressor = fitGls([ones, x, h], y, identity(6, 1e-4))!;
    expect(nuisance.beta[1]).toBeCloseTo(regressor.beta[1]!, 5);
    expect(nuisance.cov[1]![1]).toBeCloseTo(regressor.cov[1]![1]!, 9);
    const again = nuisance.weights[1]!.reduce((s, w, i) => s + w * y[i]!, 0);
    expect(again).toBeCloseTo(nuisance.beta[1]!, 9);
  });

  it('refuses what carries no fit', () => {
    expect(fitGls([[1, 1]], [1, 2], new Float64Array(4))).toBeNull();
    expect(
      fitGls(
        [
          [1, 1],
          [2, 2],
        ],
        [1, 2],
        identity(2),
      ),
    ).toBeNull();
    expect(() => fitGls([[1]], [1, 2], identity(2))).toThrow(RangeError);
    expect(cholesky(Float64Array.from([1, 0, 2, 1]), 2)).toBe(false);
  });

  it('the trace of K⁻¹W: n for W = K, and the sum of w/k for diagonals', () => {
    const k = Float64Array.from([4, 0, 0, 1, 3, 0, 0.5, 1, 2]);
    const w = k.slice();
    cholesky(k, 3);
    expect(traceOfShare(k, w, 3)).toBeCloseTo(3, 12);
    const d = identity(4, 2);
    cholesky(d, 4);
    expect(traceOfShare(d, identity(4, 3), 4)).toBeCloseTo(6, 12);
  });
});
