import { describe, expect, it } from 'vitest';
import { calibrationDrift, fitCalibration } from './calibration.ts';

const points = (rows: readonly (readonly [number, number])[]) =>
  rows.map(([indicated, reference]) => ({ indicated, reference }));

describe('calibration fit', () => {
  it('two points make the line through them, with an assumed non-linearity', () => {
    const r = fitCalibration(
      points([
        [0.01, 0],
        [4.03, 4],
      ]),
      4,
    );
    expect(r.ok).toBe(true);
    if (!r.ok) return;
    expect(r.gain).toBeCloseTo(4 / 4.02, 12);
    expect(r.offset + r.gain * 0.01).toBeCloseTo(0, 12);
    expect(r.residuals.every((x) => Math.abs(x) < 1e-12)).toBe(true);
    expect(r.uResidual).toBeCloseTo(0.004 / Math.sqrt(3), 12);
    expect(r.uResidualAssumed).toBe(true);
  });

  it('least squares of five points, worked by hand from the normal equations', () => {
    // x 0..4, y = x + (0.01, -0.01, 0, -0.01, 0.01): slope 1, intercept 0, residual sd sqrt(4e-4/3).
    const r = fitCalibration(
      points([
        [0, 0.01],
        [1, 0.99],
        [2, 2],
        [3, 2.99],
        [4, 4.01],
      ]),
      4,
    );
    if (!r.ok) throw new Error(r.reason);
    expect(r.gain).toBeCloseTo(1, 12);
    expect(r.offset).toBeCloseTo(0, 12);
    expect(r.uResidual).toBeCloseTo(Math.sqrt(4e-4 / 3), 12);
    expect(r.residuals[1]).toBeCloseTo(-0.01, 12);
  });

  it.each([
    ['too-few', points([[0, 0]]), 4],
    ['too-many', points(Array.from({ length: 12 }, (_, i) => [i, i] as const)), 11],
    [
      'not-finite',
      points([
        [0, 0],
        [Number.NaN, 4],
      ]),
      4,
    ],
    [
      'not-finite',
      points([
        [0, 0],
        [4, 4],
      ]),
      0,
    ],
    [
      'narrow',
      points([
        [0, 0],
        [1, 1],
      ]),
      4,
    ],
    [
      'gain',
      points([
        [0, 0],
        [14.5, 1],
        [58, 4],
      ]),
      4,
    ], // psi taken for bar
    [
      'gain',
      points([
        [2, 0],
        [2, 4],
      ]),
      4,
    ],
    [
      'gain',
      points([
        [4, 0],
        [0, 4],
      ]),
      4,
    ],
    [
      'offset',
      points([
        [0.3, 0],
        [4.3, 4],
      ]),
      4,
    ],
    [
      'residual',
      points([
        [0, 0],
        [1, 1],
        [2.2, 2],
        [3, 3],
        [4, 4],
      ]),
      4,
    ],
  ] as const)('refuses: %s', (reason, rows, span) => {
    expect(fitCalibration(rows, span)).toEqual({ ok: false, reason });
  });
});

describe('a temperature', () => {
  it('compared at one point is corrected by an offset, whatever its range', () => {
    const r = fitCalibration(points([[0.6, 0]]), 240, 'temperature');
    expect(r).toMatchObject({ ok: true, gain: 1, offset: -0.6, residuals: [0], uResidualAssumed: true });
    expect(fitCalibration(points([[0.6, 0]]), 240)).toEqual({ ok: false, reason: 'too-few' });
    expect(fitCalibration([], 240, 'temperature')).toEqual({ ok: false, reason: 'too-few' });
  });

  it('compared at points near each other makes no slope of their scatter: the mean, and its scatter', () => {
    // Differences 0.6, 0.4, 0.2: mean 0.4, standard deviation 0.2 by hand.
    const r = fitCalibration(
      points([
        [0.6, 0],
        [10.4, 10],
        [20.2, 20],
      ]),
      240,
      'temperature',
    );
    if (!r.ok) throw new Error(r.reason);
    expect(r.gain).toBe(1);
    expect(r.offset).toBeCloseTo(-0.4, 12);
    expect(r.uResidual).toBeCloseTo(0.2, 12);
    expect(r.uResidualAssumed).toBe(false);
  });

  it('over half of its range it has a line like any other', () => {
    const r = fitCalibration(
      points([
        [0.5, 0],
        [121.5, 120],
      ]),
      240,
      'temperature',
    );
    if (!r.ok) throw new Error(r.reason);
    expect(r.gain).toBeCloseTo(120 / 121, 12);
  });

  it.each([
    ['far-off', points([[11, 0]])],
    [
      'scattered',
      points([
        [0, 0],
        [5, 0],
      ]),
    ],
  ] as const)('refuses: %s', (reason, rows) => {
    expect(fitCalibration(rows, 240, 'temperature')).toEqual({ ok: false, reason });
  });
});

describe('as found, as left', () => {
  it('says how far it had moved and what is left', () => {
    const found = points([
      [0.02, 0],
      [2.03, 2],
      [4.04, 4],
    ]);
    const left = points([
      [0, 0],
      [2.001, 2],
      [4, 4],
    ]);
    const d = calibrationDrift(found, left, 0, 4)!;
    expect(d.worstFound).toBeCloseTo(0.04, 12);
    expect(d.worstLeft).toBeCloseTo(0.001, 12);
    expect(d.drift).toBeCloseTo(0.04, 2);
    expect(d.at).toBe(4);
  });

  it('nothing adjusted is no drift; no as-found is no answer', () => {
    expect(
      calibrationDrift(
        points([
          [0.02, 0],
          [4.04, 4],
        ]),
        [],
        0,
        4,
      ),
    ).toMatchObject({ drift: 0, worstLeft: expect.closeTo(0.04, 9) });
    expect(
      calibrationDrift(
        [],
        points([
          [0, 0],
          [4, 4],
        ]),
        0,
        4,
      ),
    ).toBeNull();
  });

  it('at one point it is the offset that moved', () => {
    const d = calibrationDrift(points([[0.9, 0]]), points([[0.2, 0]]), -40, 200)!;
    expect(d.drift).toBeCloseTo(0.7, 12);
    expect(d.worstFound).toBeCloseTo(0.9, 12);
  });
});
