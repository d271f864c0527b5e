import { describe, expect, it } from 'vitest';
import { fitLine, fitThroughOrigin } from './line.ts';

// NIST Statistical Reference Datasets, linear regression, data set Norris (36 points, ozone monitors).
const NORRIS: readonly (readonly [y: number, x: number])[] = [
  [0.1, 0.2],
  [338.8, 337.4],
  [118.1, 118.2],
  [888.0, 884.6],
  [9.2, 10.1],
  [228.1, 226.5],
  [668.5, 666.3],
  [998.5, 996.3],
  [449.1, 448.6],
  [778.9, 777.0],
  [559.2, 558.2],
  [0.3, 0.4],
  [0.1, 0.6],
  [778.1, 775.5],
  [668.8, 666.9],
  [339.3, 338.0],
  [448.9, 447.5],
  [10.8, 11.6],
  [557.7, 556.0],
  [228.3, 228.1],
  [998.0, 995.8],
  [888.8, 887.6],
  [119.6, 120.2],
  [0.3, 0.3],
  [0.6, 0.3],
  [557.6, 556.8],
  [339.3, 339.1],
  [888.0, 887.2],
  [998.5, 999.0],
  [778.9, 779.0],
  [10.2, 11.1],
  [117.6, 118.3],
  [228.9, 229.2],
  [668.4, 669.1],
  [449.2, 448.9],
  [0.2, 0.5],
];
// NIST Statistical Reference Datasets, NoInt1.
const NOINT1: readonly (readonly [y: number, x: number])[] = [
  [130.0, 60.0],
  [131.0, 61.0],
  [132.0, 62.0],
  [133.0, 63.0],
  [134.0, 64.0],
  [135.0, 65.0],
  [136.0, 66.0],
  [137.0, 67.0],
  [138.0, 68.0],
  [139.0, 69.0],
  [140.0, 70.0],
];

describe('fitLine', () => {
  it('gives the certified values of NIST StRD Norris', () => {
    const fit = fitLine(
      NORRIS.map((r) => r[1]),
      NORRIS.map((r) => r[0]),
    )!;
    expect(fit.intercept).toBeCloseTo(-0.262323073774029, 10);
    expect(fit.slope).toBeCloseTo(1.00211681802045, 12);
    expect(fit.sdIntercept).toBeCloseTo(0.232818234301152, 10);
    expect(fit.sdSlope).toBeCloseTo(4.29796848199937e-4, 13);
    expect(fit.residualSd).toBeCloseTo(0.884796396144373, 10);
  });

  it('on five even points is the Savitzky-Golay first derivative (-2..2)/10 (Savitzky and Golay 1964)', () => {
    for (let k = 0; k < 5; k++) {
      const y = [0, 0, 0, 0, 0];
      y[k] = 1;
      expect(fitLine([-2, -1, 0, 1, 2], y)!.slope).toBeCloseTo((k - 2) / 10, 14);
    }
  });

  it('weighs points: a weight of three is the point three times', () => {
    const a = fitLine([0, 1, 2], [1, 4, 3], [1, 3, 1])!;
    const b = fitLine([0, 1, 1, 1, 2], [1, 4, 4, 4, 3])!;
    expect(a.slope).toBeCloseTo(b.slope, 14);
    expect(a.intercept).toBeCloseTo(b.intercept, 14);
  });

  it('refuses what no line goes through', () => {
    expect(fitLine([], [])).toBeNull();
    expect(fitLine([1, 1], [0, 2])).toBeNull();
    expect(() => fitLine([1], [])).toThrow(RangeError);
  });
});

describe('fitThroughOrigin', () => {
  it('gives the certified values of NIST StRD NoInt1', () => {
    const fit = fitThroughOrigin(
      NOINT1.map((r) => r[1]),
      NOINT1.map((r) => r[0]),
    )!;
    expect(fit.slope).toBeCloseTo(2.07438016528926, 13);
    expect(fit.sdSlope).toBeCloseTo(0.0165289256198347, 13);
  });
  it('needs an x that is not zero', () => {
    expect(fitThroughOrigin([0, 0], [1, 2])).toBeNull();
  });
});
