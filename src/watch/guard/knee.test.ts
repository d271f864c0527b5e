import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { DEFAULT_REACTION } from '../../job/reaction.ts';
import type { Tap } from '../../job/setup.ts';
import { PLATE_LIMITS } from '../../job/testing/givens.ts';
import { readingOf } from '../../sensing/testing/readings.ts';
import type { Bounded } from '../events.ts';
import { createGuard, guardReading, guardVerdict } from './guard.ts';

// Made-up fills with the knee put where the test says: no outside source, the knee is known by construction.

/** Still for 3 s, then limp up to `kneeBar`, then steep; the reading lies `drop` over the packer while air flows. */
function kneeOf(
  o: {
    tap?: Tap;
    knee?: number;
    limp?: number;
    steep?: number;
    drop?: number;
    sd?: number;
    seed?: number;
    /** Limp, it was let rest there for 8 s, bar. */
    restAt?: number;
  },
  hz = 20,
): Bounded | null {
  const {
    tap = 'packer',
    knee = 0.28,
    limp = 0.016,
    steep = 0.07,
    drop = 0,
    sd = 0.0012,
    seed = 5,
    restAt,
  } = o;
  const state = createGuard();
  const next = noise(seed);
  const ctx = {
    limits: PLATE_LIMITS,
    tap,
    line: 'unknown',
    reaction: DEFAULT_REACTION,
    stage: 'inflate',
    ventOpen: false,
  } as const;
  let p = 0;
  let flow = 0;
  let rest = restAt === undefined ? 0 : 8 * hz;
  for (let i = 0; i < 120 * hz && p < 0.9; i++) {
    if (i >= 3 * hz) {
      const rests = rest > 0 && p >= (restAt ?? 0);
      if (rests) rest--;
      // The valve takes 0.3 s to open, and to shut.
      flow = Math.max(0, Math.min(1, flow + (rests ? -1 : 1) / (0.3 * hz)));
      p += (flow * (p < knee ? limp : steep)) / hz;
    }
    guardReading(
      state,
      readingOf(i / hz, Math.round((p + flow * drop + sd * next()) / 0.0015) * 0.0015, {
        tUs: Math.round((i * 1e6) / hz),
        seq: i,
        uBar: 0.015,
      }),
      ctx,
    );
  }
  return guardVerdict(state, ctx).knee;
}

describe('knee', () => {
  it('is held by its interval, quiet or noisy, at sparse and dense readings', () => {
    for (const hz of [10, 20, 100])
      for (const sd of [0.0005, 0.004])
        for (const knee of [0.15, 0.28, 0.4]) {
          const seen = kneeOf({ knee, sd }, hz)!;
          expect(seen).not.toBeNull();
          expect(seen.low).toBeLessThan(knee);
          expect(seen.high).toBeGreaterThan(knee);
          expect(seen.high - seen.low).toBeLessThan(0.2);
        }
  });

  it('before a hose is less the drop, which the jump at the beginning of the flow shows', () => {
    for (const drop of [0, 0.05, 0.15]) {
      const seen = kneeOf({ tap: 'hose', drop })!;
      expect(seen.low).toBeLessThan(0.28);
      expect(seen.high).toBeGreaterThan(0.28);
    }
  });

  it('behind a rest is less the drop that the flow brought back', () => {
    for (const drop of [0.05, 0.15]) {
      const seen = kneeOf({ tap: 'hose', drop, restAt: 0.08, knee: 0.4 })!;
      expect(seen.low).toBeLessThan(0.4);
      expect(seen.high).toBeGreaterThan(0.4);
      expect(seen.high - seen.low).toBeLessThan(0.3);
    }
  });

  it('is not made of noise: a steady rise on a noisy sensor has none', () => {
    for (let seed = 1; seed <= 12; seed++)
      expect(kneeOf({ limp: 0.012, steep: 0.012, sd: 0.006, seed: 100 + seed }, 10)).toBeNull();
  });

  it('is not claimed where the reading is the regulator’s outlet', () => {
    expect(kneeOf({ tap: 'supply' })).toBeNull();
  });
});
