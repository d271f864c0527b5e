import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { uniform } from '../estimate/testing/random.ts';
import { BASE, createPyramid, FACTOR, type Pyramid, type Rows } from './pyramid.ts';
import type { PictureWindow, SeriesKey } from './types.ts';

const KEYS: SeriesKey[] = [
  { name: 'bar', place: null, channel: 0 },
  { name: 'temperature', place: 'sleeve', channel: 1 },
];

interface Row {
  us: number;
  values: number[];
  gap: boolean;
}

function trace(n: number, seed: number): Row[] {
  const next = uniform(seed + 1);
  const rows: Row[] = [];
  let us = 0;
  for (let i = 0; i < n; i++) {
    const gap = i > 0 && next() < 0.004;
    us += gap ? 1e6 + Math.round(next() * 60e6) : 20_000;
    const silent = next() < 0.02;
    rows.push({
      us,
      values: [
        silent ? Number.NaN : Math.fround(1 + next()),
        i % 5 === 0 ? Math.fround(20 + next()) : Number.NaN,
      ],
      gap,
    });
  }
  return rows;
}

function build(rows: readonly Row[]): Pyramid {
  const pyramid = createPyramid(KEYS);
  for (const r of rows) pyramid.append(r.us, r.values, r.gap);
  return pyramid;
}

const reader =
  (rows: readonly Row[]) =>
  (first: number, n: number): Rows => {
    const part = rows.slice(first, first + n);
    return {
      n: part.length,
      us: Float64Array.from(part.map((r) => r.us)),
      values: KEYS.map((_, s) => Float32Array.from(part.map((r) => r.values[s]!))),
    };
  };

const extreme = (values: readonly number[], pick: (...v: number[]) => number): number => {
  const real = values.filter((v) => !Number.isNaN(v));
  return real.length === 0 ? Number.NaN : pick(...real);
};

/**
 * Checks a window against all readings, one by one: the points' stretches cover every reading of the window once
 * and in order, each with that stretch's lowest and highest value, and no stretch reaches over a gap unless it is
 * narrower than a spot of the picture.
 */
function check(rows: readonly Row[], w: PictureWindow, points: number): void {
  const width = (w.toUs - w.fromUs) / points;
  const inside = rows.filter((r) => r.us >= w.fromUs && r.us <= w.toUs);
  for (let i = 1; i < w.us.length; i++) expect(w.us[i]!).toBeGreaterThan(w.us[i - 1]!);
  // A point at the very time of a reading starts a stretch; the others are gap marks.
  const at = new Map(rows.map((r, i) => [r.us, i]));
  const starts = [...w.us].flatMap((us, p) => (at.has(us) ? [[at.get(us)!, p] as const] : []));
  let counted = 0;
  starts.forEach(([row, p], k) => {
    const nextRow = starts[k + 1]?.[0];
    // The last stretch runs to the end of what was counted.
    const end = nextRow ?? row + (w.readings - counted);
    const part = rows.slice(row, end);
    counted += part.length;
    KEYS.forEach((_, s) => {
      const v = part.map((r) => r.values[s]!);
      expect(w.series[s]!.min[p]).toBe(extreme(v, Math.min));
      expect(w.series[s]!.max[p]).toBe(extreme(v, Math.max));
    });
    const span = part[part.length - 1]!.us - part[0]!.us;
    if (part.slice(1).some((r) => r.gap)) expect(span).toBeLessThanOrEqual(width);
    // Coarser than a spot only where a single bucket is.
    if (span > width) expect(part.length).toBeLessThanOrEqual(BASE);
  });
  expect(counted).toBe(w.readings);
  if (inside.length > 0) {
    expect(rows[starts[0]![0]]!.us).toBeLessThanOrEqual(inside[0]!.us);
    const last = starts[0]![0] + w.readings - 1;
    expect(rows[last]!.us).toBeGreaterThanOrEqual(inside[inside.length - 1]!.us);
  }
  expect(w.us.length).toBeLessThanOrEqual(2 * points + 8 + 2 * rows.filter((r) => r.gap).length);
}

describe('pyramid', () => {
  it('equals a look at every reading, in any window at any zoom (property)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9000 }),
        fc.nat(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom(1, 2, 7, 40, 300),
        (n, seed, a, b, points) => {
          const rows = trace(n, seed);
          const end = rows[rows.length - 1]!.us;
          const fromUs = Math.floor(Math.min(a, b) * end);
          const toUs = Math.ceil(Math.max(a, b) * end);
          check(rows, build(rows).picture(fromUs, toUs, points, reader(rows)), points);
        },
      ),
      { seed: 20261125, numRuns: 120 },
    );
  });

  it('is the same whether built reading by reading or restored from its buckets (property)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.nat(), (n, seed) => {
        const rows = trace(n, seed);
        const built = build(rows);
        built.close();
        const restored = createPyramid(KEYS);
        for (const bucket of built.takeClosed()) restored.restore(bucket);
        const end = rows[rows.length - 1]!.us;
        for (const points of [1, 3, 50])
          expect(restored.picture(0, end, points, reader(rows))).toEqual(
            built.picture(0, end, points, reader(rows)),
          );
        expect([restored.readings, restored.firstUs, restored.lastUs]).toEqual([n, rows[0]!.us, end]);
      }),
      { seed: 3, numRuns: 60 },
    );
  });

  it('shows a gap as NaN between its shores, at every zoom at which it is wider than a spot', () => {
    const rows: Row[] = [];
    for (let i = 0; i < 40_000; i++)
      rows.push({ us: i * 20_000 + (i >= 20_000 ? 600e6 : 0), values: [1, 20], gap: i === 20_000 });
    const pyramid = build(rows);
    const end = rows[rows.length - 1]!.us;
    for (const points of [5, 100, 2000]) {
      const w = pyramid.picture(0, end, points, reader(rows));
      const nan = [...w.series[0]!.min].flatMap((v, i) => (Number.isNaN(v) ? [w.us[i]!] : []));
      expect(nan).toHaveLength(1);
      expect(nan[0]).toBeGreaterThan(rows[19_999]!.us);
      expect(nan[0]).toBeLessThan(rows[20_000]!.us);
    }
  });

  it('gives the readings themselves in a narrow window, and one on each side', () => {
    const rows = trace(3000, 5).map((r, i) => ({ ...r, us: i * 20_000, gap: false }));
    const w = build(rows).picture(20_000 * 1000, 20_000 * 1100, 400, reader(rows));
    expect(w.exact).toBe(true);
    expect(w.readings).toBe(103);
    expect([...w.us]).toEqual(rows.slice(999, 1102).map((r) => r.us));
    expect([...w.series[0]!.min]).toEqual(rows.slice(999, 1102).map((r) => r.values[0]));
  });

  it('never asks for more readings than a window needs', () => {
    const rows = trace(60_000, 9);
    const pyramid = build(rows);
    const end = rows[rows.length - 1]!.us;
    let most = 0;
    const counting = (first: number, n: number): Rows => {
      most = Math.max(most, n);
      return reader(rows)(first, n);
    };
    for (let k = 0; k < 40; k++)
      pyramid.picture((end * k) / 50, (end * (k + 1 + (k % 3) * 4)) / 50, 100, counting);
    expect(most).toBeLessThanOrEqual(BASE * 102);
    expect(FACTOR).toBeGreaterThan(1);
  });

  it('of nothing is an empty picture', () => {
    const w = createPyramid(KEYS).picture(0, 1e6, 100, reader([]));
    expect([w.us.length, w.readings]).toEqual([0, 0]);
  });
});
