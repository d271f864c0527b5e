import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { DEFAULT_REACTION } from '../../job/reaction.ts';
import { PLATE_LIMITS } from '../../job/testing/givens.ts';
import type { Reading } from '../../sensing/reading.ts';
import { FLAG } from '../../sensing/reading.ts';
import { readingOf } from '../../sensing/testing/readings.ts';
import {
  createGuard,
  type GuardContext,
  type GuardState,
  type GuardVerdict,
  guardReading,
  guardReset,
  guardVerdict,
} from './guard.ts';
import { type Fill, play, stopsAt } from './testing/fills.ts';

const CTX: GuardContext = {
  limits: PLATE_LIMITS,
  tap: 'packer',
  line: 'unknown',
  reaction: DEFAULT_REACTION,
  stage: 'inflate',
  ventOpen: false,
};

const reading = (i: number, hz: number, bar: number | null, over: Partial<Reading> = {}): Reading =>
  readingOf(i / hz, bar, { tUs: Math.round((i * 1e6) / hz), seq: i, uBar: 0.015, ...over });

/** Rigid vessel at constant temperature behind one restriction (ISO 6358 form), RK4; gauge bar at each sample. */
function vessel(p1Gauge: number, k: number, p0: number, hz: number, seconds: number): number[] {
  const p1 = p1Gauge + 1.01325;
  const b = 0.3;
  const rate = (p: number): number => {
    const u = (p / p1 - b) / (1 - b);
    return k * p1 * (u <= 0 ? 1 : u >= 1 ? 0 : Math.sqrt(1 - u * u));
  };
  const h = 1 / hz;
  let p = p0 + 1.01325;
  const out: number[] = [];
  for (let i = 0; i < seconds * hz; i++) {
    out.push(p - 1.01325);
    const a = rate(p);
    const c = rate(p + (h / 2) * a);
    const d = rate(p + (h / 2) * c);
    p += (h / 6) * (a + 2 * c + 2 * d + rate(p + h * d));
  }
  return out;
}

interface Run {
  readonly state: GuardState;
  readonly at: (pick: (v: GuardVerdict) => boolean) => number;
  readonly last: GuardVerdict;
}

function run(bars: readonly number[], hz: number, ctx: GuardContext = CTX, sd = 0.0012, seed = 11): Run {
  const state = createGuard();
  const next = noise(seed);
  const verdicts: GuardVerdict[] = [];
  bars.forEach((bar, i) => {
    guardReading(state, reading(i, hz, Math.round((bar + sd * next()) / 0.0015) * 0.0015), ctx);
    verdicts.push(guardVerdict(state, ctx));
  });
  return {
    state,
    at: (pick) => {
      const i = verdicts.findIndex(pick);
      return i < 0 ? Number.NaN : i / hz;
    },
    last: verdicts[verdicts.length - 1]!,
  };
}

const risen = (v: GuardVerdict): boolean => v.rising !== null;
const crossing = (bars: readonly number[], bar: number, hz: number): number =>
  bars.findIndex((p) => p >= bar) / hz;

describe('the ceiling', () => {
  it('acts on the median of three, one sample after a bare threshold, at once', () => {
    const bars = Array.from({ length: 60 }, (_, i) => 1 + i * 0.01);
    const bare = crossing(bars, 1.485, 20);
    expect(run(bars, 20, CTX, 0).at((v) => v.ceiling !== null)).toBeCloseTo(bare + 0.05, 9);
  });

  it('a spike is no ceiling, and no reading is one without neighbours', () => {
    const bars = Array.from({ length: 200 }, (_, i) => (i % 50 === 0 ? 6 : 1.2));
    const r = run(bars, 20);
    expect(r.at((v) => v.ceiling !== null)).toBeNaN();
    expect(r.at(risen)).toBeNaN();
  });

  it('acts for every tap, with the vent open and in every stage', () => {
    for (const over of [
      { tap: 'supply' },
      { tap: 'unknown' },
      { ventOpen: true },
      { stage: 'let-down' },
      { stage: 'hold' },
    ] as const)
      expect(run([1.5, 1.5, 1.5], 10, { ...CTX, ...over }).last.ceiling).not.toBeNull();
  });

  it('without a limit nothing is claimed', () => {
    const r = run(vessel(6, 0.03, 0.5, 20, 15), 20, { ...CTX, limits: null });
    expect(r.at((v) => v.ceiling !== null || v.rising !== null || v.cue !== null)).toBeNaN();
    expect(r.last.view.rateBarPerS).toBeGreaterThan(0.01);
  });
});

describe('a regulator', () => {
  it('too high: says where the line will settle, long before, and the interval holds it', () => {
    const bars = vessel(1.75, 0.018, 0.3, 20, 90);
    const r = run(bars, 20);
    const at = r.at(risen);
    expect(crossing(bars, PLATE_LIMITS.ratedBar, 20) - at).toBeGreaterThan(4);
    const state = createGuard();
    for (let i = 0; i <= at * 20; i++) guardReading(state, reading(i, 20, bars[i]!), CTX);
    for (let i = Math.round(at * 20) + 1; guardVerdict(state, CTX).rising === null; i++)
      guardReading(state, reading(i, 20, bars[i]!), CTX);
    const { kind, values } = guardVerdict(state, CTX).rising!;
    expect(kind).toBe('settle');
    expect(values.settleLowBar).toBeLessThan(1.75);
    expect(values.settleHighBar).toBeGreaterThan(1.75);
    expect(values.ceilingBar).toBe(PLATE_LIMITS.ceilingBar);
  });

  it('at the working pressure raises nothing, at any rate of samples and with a coarse converter', () => {
    for (const hz of [10, 20, 50, 100, 200])
      expect(run(vessel(1.2, 0.02, 0.2, hz, 60), hz).at(risen)).toBeNaN();
    const coarse = vessel(1.2, 0.02, 0.2, 20, 60).map((p) => Math.round(p / 0.01) * 0.01);
    expect(run(coarse, 20, CTX, 0).at(risen)).toBeNaN();
  });

  it('that creeps after it has settled is told once the band is left', () => {
    const settled = vessel(1.2, 0.03, 0.4, 20, 60);
    const creep = Array.from({ length: 20 * 30 }, (_, i) => 1.2 + 0.012 * (i / 20));
    const at = run([...settled, ...creep], 20).at(risen);
    expect(at).toBeGreaterThan(60);
    expect(at).toBeLessThan(66);
  });
});

describe('an open supply', () => {
  const rise = vessel(6.5, 0.008, 0.5, 20, 20);

  it('is no alarm while it may still be a hand: it is the same signal until the working pressure', () => {
    const upTo = rise.filter((p) => p < PLATE_LIMITS.workingBar);
    expect(run(upTo, 20).at(risen)).toBeNaN();
  });

  it('shut by a hand at the working pressure raises nothing, not even with a slow hand', () => {
    for (const closeS of [0.3, 0.6, 0.75]) {
      const bars: number[] = [];
      let p = 0.5;
      let open = 1;
      for (let i = 0; i < 20 * 25; i++) {
        bars.push(p);
        if (p >= PLATE_LIMITS.workingBar || open < 1) open = Math.max(0, open - 0.05 / closeS);
        p += 0.06 * open * 0.05;
      }
      expect(run(bars, 20).at(risen)).toBeNaN();
    }
  });

  it('stopped just after it was opened raises nothing: the slope before it was none', () => {
    // A short stroke near the working pressure at 0.29 bar/s on a noisy sensor, shut within the hand's time.
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const hand = () => stopsAt([1.05, 1.2], 3, 0.4);
      const fill = { seconds: 9, k: 0.045, supply: () => 5.5, hand, sd: 0.0045 };
      const { verdicts, truth } = play(fill, 20, seed);
      expect(Math.max(...truth)).toBeGreaterThan(PLATE_LIMITS.workingBar);
      expect(verdicts.some(risen)).toBe(false);
    }
  });

  it('left open is told soon after no hand explains it, before the ceiling', () => {
    const r = run(rise, 20);
    const left = crossing(rise, PLATE_LIMITS.workingBar, 20) + 0.6;
    const at = r.at(risen);
    expect(at).toBeLessThan(left + 0.6);
    expect(at).toBeLessThan(crossing(rise, PLATE_LIMITS.ceilingBar, 20));
  });

  it('counts down to the working pressure: the cue says when to shut', () => {
    const r = run(rise, 20);
    const first = r.at((v) => v.cue !== null && v.cue.value < 4);
    const cue = crossing(rise, PLATE_LIMITS.workingBar, 20) - first;
    expect(cue).toBeGreaterThan(3.3);
    expect(cue).toBeLessThan(5.2);
  });

  it('with the rated pressure alone is told within the hand time of the ceiling', () => {
    const ctx = { ...CTX, limits: { ...PLATE_LIMITS, workingBar: PLATE_LIMITS.ceilingBar, cue: false } };
    const slow = vessel(6.5, 0.003, 0.9, 20, 40);
    const r = run(slow, 20, ctx);
    const lead = crossing(slow, PLATE_LIMITS.ceilingBar, 20) - r.at(risen);
    expect(lead).toBeGreaterThan(2);
    expect(lead).toBeLessThan(5);
    expect(r.at((v) => v.cue !== null)).toBeNaN();
  });
});

describe('what is shown of the settling point', () => {
  /** The first one shown, and whether any was. */
  const shown = (fill: Fill, hz: number) => play(fill, hz).verdicts.map((v) => v.view.settleBar);

  it('nothing on a straight rise: it has no end in it', () => {
    for (const hz of [10, 50])
      for (const supply of [5, 6, 8]) {
        const fill: Fill = {
          seconds: 14,
          fromBar: 0.2,
          k: 0.6 / (supply + 1) / 8,
          supply: () => supply,
          sd: 0.0004,
        };
        expect(shown(fill, hz).filter((b) => b !== null)).toEqual([]);
      }
  });

  it('a regulator’s, and never further off than one and a half times the rise that it is seen in', () => {
    for (const set of [1.15, 1.4, 1.9]) {
      const fill: Fill = { seconds: 60, fromBar: 0.3, k: 0.03, supply: () => set };
      const { verdicts, truth } = play(fill, 50);
      const seen = verdicts.flatMap((v, i) =>
        v.view.settleBar === null ? [] : [{ b: v.view.settleBar, i }],
      );
      expect(seen.length).toBeGreaterThan(50);
      for (const { b, i } of seen) expect(b.value - truth[i]!).toBeLessThan(1.5 * (truth[i]! - 0.3) + 0.02);
      expect(seen[0]!.b.low).toBeLessThan(set);
      expect(seen[0]!.b.high).toBeGreaterThan(set);
    }
  });
});

describe('stillness and rest', () => {
  it('needs a second after a stop, and cooling is no flow', () => {
    const bars = [
      ...Array.from({ length: 200 }, (_, i) => 0.4 + i * 0.003),
      ...Array.from({ length: 200 }, (_, i) => 1 - 0.03 * (1 - Math.exp(-i / 100))),
    ];
    const at = run(bars, 20).at((v) => v.still && v.view.restBar !== null && v.view.restBar.value > 0.9);
    expect(at).toBeGreaterThan(10.9);
    expect(at).toBeLessThan(12.6);
  });

  it('a raised alarm goes when the rise has ended', () => {
    const rise = vessel(6.5, 0.008, 0.5, 20, 20).filter((p) => p < 1.42);
    const r = run([...rise, ...new Array<number>(80).fill(1.42)], 20);
    expect(r.at(risen)).toBeLessThan(rise.length / 20);
    expect(r.last.rising).toBeNull();
  });
});

describe('the knee', () => {
  it('is where the limp part ends', () => {
    const bars: number[] = [];
    for (let i = 0, p = 0; i < 20 * 30; i++) {
      bars.push(p);
      p += (p < 0.28 ? 0.016 : 0.07) / 20;
      if (p > 1) break;
    }
    const { knee } = run(bars, 20).last;
    expect(knee).not.toBeNull();
    expect(knee!.value).toBeCloseTo(0.28, 1);
    expect(knee!.low).toBeLessThan(0.28);
    expect(knee!.high).toBeGreaterThan(0.28);
  });

  it('is not claimed on a plain rise', () => {
    expect(run(vessel(1.4, 0.02, 0, 20, 60), 20).last.knee).toBeNull();
  });
});

describe('the state', () => {
  it('is plain data and goes on from a snapshot as if nothing had been', () => {
    const bars = vessel(1.75, 0.018, 0.3, 20, 60);
    const a = createGuard();
    let b = createGuard();
    bars.forEach((bar, i) => {
      guardReading(a, reading(i, 20, bar), CTX);
      guardReading(b, reading(i, 20, bar), CTX);
      if (i % 97 === 0) b = JSON.parse(JSON.stringify(b)) as GuardState;
      expect(guardVerdict(b, CTX)).toEqual(guardVerdict(a, CTX));
    });
  });

  it('stays of one size, however long the trace', () => {
    const state = createGuard();
    const next = noise(3);
    let size = 0;
    for (let i = 0; i < 40_000; i++) {
      guardReading(state, reading(i, 50, 1.2 + 0.002 * next() + 0.0000001 * i), CTX);
      if (i === 5000) size = JSON.stringify(state).length;
    }
    expect(JSON.stringify(state).length).toBeLessThan(1.2 * size);
  });

  it('after a gap knows nothing of the slope before it; readings that say nothing are passed over', () => {
    const state = createGuard();
    const bars = vessel(6.5, 0.008, 0.5, 20, 8);
    bars.forEach((bar, i) => void guardReading(state, reading(i, 20, bar), CTX));
    expect(guardVerdict(state, CTX).view.rateBarPerS).not.toBeNull();
    guardReading(state, reading(bars.length, 20, null, { flags: FLAG.fault }), CTX);
    guardReading(state, reading(bars.length + 1, 20, 9, { flags: FLAG.held }), CTX);
    expect(guardVerdict(state, CTX).ceiling).toBeNull();
    guardReset(state);
    expect(guardVerdict(state, CTX).view.rateBarPerS).toBeNull();
    expect(guardVerdict(state, CTX).rising).toBeNull();
    // A silence in the stream is such a gap by itself.
    guardReading(state, reading(400, 20, 0.5), CTX);
    guardReading(state, reading(500, 20, 0.5), CTX);
    expect(guardVerdict(state, CTX).view.rateBarPerS).toBeNull();
  });
});

describe('a rate that falls in a fill', () => {
  /** Seconds before the ceiling at which a straight rise is warned of; the rate changes so long before it. */
  function warned(slope: number, hz: number, slowHz: number, changeS: number): number {
    const { ceilingBar } = PLATE_LIMITS;
    const ceilingS = 4 + (ceilingBar - 0.2) / slope;
    const state = createGuard();
    const next = noise(3);
    for (let t = 0, i = 0; t < ceilingS + 3; t += 1 / (t < ceilingS - changeS ? hz : slowHz), i++) {
      const bar = 0.2 + slope * Math.max(0, t - 4) + 0.0012 * next();
      guardReading(state, readingOf(t, bar, { tUs: Math.round(t * 1e6), seq: i, uBar: 0.015 }), CTX);
      const { rising, ceiling } = guardVerdict(state, CTX);
      if (rising !== null || ceiling !== null) return ceilingS - t;
    }
    return Number.NEGATIVE_INFINITY;
  }

  it('costs no more than the rate itself: as a device that was always so slow, and before the ceiling', () => {
    for (const slope of [0.05, 0.1, 0.2])
      for (const changeS of [2, 4, 9]) {
        const steady = warned(slope, 5, 5, 0);
        const fallen = warned(slope, 50, 5, changeS);
        expect(fallen).toBeGreaterThan(0);
        expect(fallen).toBeGreaterThan(steady - 0.25);
      }
  });
});
