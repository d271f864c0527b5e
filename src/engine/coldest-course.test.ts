import { describe, expect, it } from 'vitest';
import { setupOf } from '../job/testing/givens.ts';
import { coldestNow, createColdest } from '../watch/cure/coldest-now.ts';
import type { WatchEvent } from '../watch/events.ts';
import { coldestOver } from './coldest-course.ts';
import type { TraceWindow } from './messages.ts';

const GROUND = { c: 10, uC: 1, source: 'entered' } as const;
const DRY = setupOf({ ground: GROUND, infiltration: 'none' });
const STEP_S = 10;
const checked = (place: string, tS = 0, agrees = true): WatchEvent =>
  ({ tUs: tS * 1e6, e: 'warm-check', place, agrees }) as unknown as WatchEvent;

/** A trace in steps of ten seconds; null is a gap. */
function trace(course: Readonly<Record<string, (number | null)[]>>, fromS = 0): TraceWindow {
  const n = Object.values(course)[0]!.length;
  const column = (values: (number | null)[]) => Float32Array.from(values, (v) => v ?? Number.NaN);
  const bar = Object.values(course)[0]!.map((v) => (v === null ? null : 1.4));
  return {
    fromS,
    toS: fromS + (n - 1) * STEP_S,
    s: Float64Array.from({ length: n }, (_, i) => fromS + i * STEP_S),
    series: [
      { name: 'bar', place: null, channel: -1, min: column(bar), max: column(bar) },
      ...Object.entries(course).map(([place, values], i) => ({
        name: 'temperature' as const,
        place,
        channel: i + 1,
        min: column(values),
        max: column(values),
      })),
    ],
    readings: n,
  };
}
const flat = (c: number, n = 60) => Array.from({ length: n }, () => c);

describe('the coldest likely spot of a recorded cure', () => {
  it('is what the cure counts by at that moment: one function for both', () => {
    const course = Array.from({ length: 200 }, (_, i) => 20 - 4 * Math.sin(i / 30));
    const live = createColdest(0);
    const least = Math.min(
      ...course.map((c, i) => {
        const probes = [{ place: 'sleeve' as const, c: Math.fround(c), uC: 0.5, checked: true }];
        return coldestNow(live, i * STEP_S * 1e6, false, probes, DRY).c!.value;
      }),
    );
    const told = coldestOver(trace({ sleeve: course }), 0, [checked('sleeve')], DRY);
    expect(told).toEqual({ c: Math.round(least * 10) / 10, source: 'sleeve' });
  });

  it('on a wall that a checked probe reads it is the lowest of what was read', () => {
    const wall = [...flat(14), 12.3, ...flat(15)];
    expect(coldestOver(trace({ pipe: wall }), 0, [checked('pipe')], DRY)).toEqual({
      c: 12.3,
      source: 'pipe',
    });
  });

  it('an unchecked probe earns nothing above the ground, whatever it reads; before its check neither', () => {
    const wall = trace({ pipe: flat(16) });
    expect(coldestOver(wall, 0, [], DRY)).toEqual({ c: 10, source: 'ground' });
    expect(coldestOver(wall, 0, [checked('pipe', 0, false)], DRY)).toEqual({ c: 10, source: 'ground' });
    expect(coldestOver(wall, 0, [checked('pipe', 300)], DRY)).toEqual({ c: 10, source: 'ground' });
  });

  it('only the window counts, and a gap tells nothing', () => {
    const wall = trace({ pipe: [3, 15, 14, null, null, 15, 2] });
    const within = { ...wall, fromS: STEP_S, toS: 5 * STEP_S };
    expect(coldestOver(within, 0, [checked('pipe')], DRY)).toEqual({ c: 14, source: 'pipe' });
  });

  it('nothing is known without a probe that counts and without the ground', () => {
    expect(coldestOver(trace({ air: flat(18) }), 0, [], setupOf({ ground: null }))).toBeNull();
  });
});
