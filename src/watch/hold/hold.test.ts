import { describe, expect, it } from 'vitest';
import type { Limits, Setup } from '../../job/setup.ts';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { readingOf } from '../../sensing/testing/readings.ts';
import type { Bounded } from '../events.ts';
import { createLevels } from '../signal/levels.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import type { HoldContext } from './hold.ts';
import { createHold, holdReading, holdView } from './hold.ts';

function hold(more: Partial<Setup> = {}, bar: (t: number) => number = () => 1.8, minutes = 10) {
  const s = new Script({ setup: setupOf({ rateHz: 10, ...more }) });
  s.say({ c: 'stage', to: 'inflate' })
    .flow(36, (t) => (t * bar(0)) / 36)
    .say({ c: 'stage', to: 'hold' })
    .flow(minutes * 60, bar, { hz: 10 });
  return s;
}
const view = (s: Script) => viewOf(s.w, s.tS * 1e6).hold!;

describe('minutes in the band', () => {
  it('count from the first still reading, at each tap that sees the packer', () => {
    for (const tap of ['packer', 'hose'] as const) {
      const v = view(hold({ tap }));
      expect(v.minutesInBand).toBeGreaterThan(9.8);
      expect(v.minutesInBand).toBeLessThanOrEqual(10);
      expect(v.minBar).toBeGreaterThan(1.79);
      expect(v.maxBar).toBeLessThan(1.81);
    }
  });

  it('do not count under the floor, over the ceiling, or across a hole', () => {
    expect(view(hold({}, (t) => (t < 300 ? 1.8 : 0.6))).minutesInBand).toBeCloseTo(5, 1);
    expect(view(hold({ limits: { ...LIMITS, ceilingBar: 1.7 } })).minutesInBand).toBe(0);
    const s = hold({}, () => 1.8, 5)
      .silence(180)
      .flow(300, 1.8);
    expect(view(s).minutesInBand).toBeCloseTo(10, 1);
  });

  it('are none at a tap that does not see the packer, and the verdict says so', () => {
    for (const tap of ['supply', 'unknown'] as const) {
      const s = hold({ tap });
      expect(view(s)).toMatchObject({ minutesInBand: 0, minBar: null, maxBar: null });
      expect(view(s).leak).toMatchObject({ verdict: 'cannot-tell', reason: 'tap' });
      expect(viewOf(s.w, s.tS * 1e6).standing).toContain('no-hold-by-tap');
    }
  });

  it('an unknown floor leaves the ceiling as the only edge', () => {
    const limits = { ...LIMITS, floorBar: null, freeInflationBar: null };
    expect(view(hold({ limits }, () => 0.5)).minutesInBand).toBeGreaterThan(9.8);
    expect(hold({ limits }, () => 0.3).heard()).toEqual([]);
  });
});

describe('the floor', () => {
  it('is an alarm after 5 s under it, and clears over its deadband', () => {
    const s = hold({}, () => 0.75, 1);
    const from = s.tS;
    s.flow(20, 0.69, { sd: 0 });
    expect(s.at('below-floor', 'unacknowledged') - from).toBeCloseTo(5.1, 0);
    s.flow(20, 0.71, { sd: 0 });
    expect(s.states('below-floor')).toEqual(['unacknowledged']);
    s.flow(20, 0.73, { sd: 0 });
    expect(s.states('below-floor')).toEqual(['unacknowledged', 'returned']);
  });

  it('is silent in other stages and at other taps', () => {
    expect(new Script().flow(60, 0.3).heard()).toEqual([]);
    expect(hold({ tap: 'supply' }, () => 0.3).heard()).toEqual([]);
  });
});

describe('the floor and its parts', () => {
  const ctx = (limits: Limits, knee: Bounded | null): HoldContext => ({
    setup: setupOf({ limits }),
    levels: createLevels(),
    noiseBar: 0.001,
    ventOpen: false,
    still: true,
    knee,
  });
  const blank = { ...LIMITS, floorBar: null, freeInflationBar: null };

  it('come with the view; a free-inflation pressure that nobody typed is the one seen at the knee', () => {
    const h = createHold(0, 0);
    const play = (c: HoldContext) => {
      holdReading(h, readingOf(1, 1.8), 1.8, false, 1e6, c, () => {});
      return holdView(h, 1e6).floor!;
    };
    expect(play(ctx(blank, null))).toMatchObject({ bar: null, freeInflationFrom: 'unknown', headBar: 0.3 });
    const seen = play(ctx(blank, { value: 0.2, low: 0.15, high: 0.25 }));
    // Head 0.3, the knee's upper end 0.25, margin 0.1.
    expect(seen.bar).toBeCloseTo(0.65, 12);
    expect(seen.freeInflationFrom).toBe('seen');
  });
});

describe('warmth', () => {
  it('is told with advice before the ceiling, on lines that keep it', () => {
    const rise = (t: number) => 2.2 + (t < 300 ? 0 : 0.00025 * (t - 300));
    for (const line of ['closed', 'supplied-nonrelieving'] as const) {
      const s = hold({ line }, rise, 20);
      const e = s.of('lift')[0]!;
      expect(e.adviceLowBar).toBeCloseTo(0.75, 9);
      expect(e.adviceHighBar!).toBeLessThan(2.4);
      // The ceiling is passed 1120 s after the rise began.
      const crossing = 36 + 300 + 0.28 / 0.00025;
      expect(crossing - e.tUs / 1e6).toBeGreaterThan(300);
      expect(s.heard()).toContain('lift');
      expect(e.tUs / 1e6 + e.ceilingInS!.low).toBeLessThan(crossing);
      expect(e.tUs / 1e6 + e.ceilingInS!.high).toBeGreaterThan(crossing);
    }
    expect(hold({ line: 'supplied-relieving' }, rise, 20).of('lift')).toEqual([]);
  });
});

describe('segments and verdicts', () => {
  it('air that is let out at the end of a segment is no leak', () => {
    const s = hold({}, () => 1.8, 20).flow(20, (t) => 1.8 - 0.02 * t);
    expect(s.of('segment').at(-1)).toMatchObject({ what: 'closed', why: 'flow' });
    expect(s.heard()).not.toContain('leaking');
    expect(s.of('leak').some((e) => e.leak.verdict === 'leaking')).toBe(false);
  });

  it('a top-up splits, and the verdict starts anew', () => {
    const s = hold({}, () => 1.8, 5)
      .flow(5, (t) => 1.8 + 0.02 * t)
      .flow(120, 1.9);
    expect(s.of('segment').map((e) => `${e.what} ${e.why}`)).toEqual([
      'opened still',
      'closed top-up',
      'opened still',
    ]);
    expect(view(s).leak).toMatchObject({ verdict: 'cannot-tell', mbarPerMin: null });
  });

  it('a clear leak becomes an alarm, once, with its rate', () => {
    const s = hold({}, (t) => 1.8 - (0.03 * t) / 60, 20);
    expect(s.heard()).toContain('leaking');
    expect(s.of('leak').at(-1)!.leak).toMatchObject({ verdict: 'leaking' });
    expect(s.of('leak').at(-1)!.leak.mbarPerMin!).toBeGreaterThan(20);
    expect(s.of('alarm').filter((e) => e.alarm === 'leaking')).toHaveLength(1);
    // The band exit would say the same again.
    const exit = viewOf(s.w, s.tS * 1e6).alarms.find((a) => a.alarm === 'band-exit');
    expect(exit === undefined || exit.state === 'suppressed').toBe(true);
  });

  it('nothing is claimed on a supplied line, and a fall there contradicts it', () => {
    const s = hold({ line: 'supplied-relieving' }, (t) => 1.8 - (0.03 * t) / 60, 10);
    expect(view(s).leak).toMatchObject({ verdict: 'cannot-be-seen', mbarPerMin: null });
    expect(s.heard()).toContain('line-contradicted');
    expect(s.heard()).not.toContain('leaking');
  });

  it('a quiet hold of an hour is quiet', () => {
    const s = hold({}, (t) => 1.8 - 0.05 * (1 - Math.exp(-t / 120)), 60);
    expect(s.heard()).toEqual([]);
  });
});

describe('a hold that was begun off the working pressure', () => {
  const marks = (s: Script) => viewOf(s.w, s.tS * 1e6).standing.filter((m) => m.startsWith('hold-'));

  it('is marked for as long as it is, whatever reason was given, and until the working pressure is come to', () => {
    const s = hold({}, () => 1.2, 2);
    expect(marks(s)).toEqual(['hold-under-working']);
    s.flow(600, 1.25);
    expect(marks(s)).toEqual(['hold-under-working']);
    // Cure heat alone that brings it near is no working pressure yet.
    s.flow(60, 1.7);
    expect(marks(s)).toEqual(['hold-under-working']);
    s.flow(60, 1.8);
    expect(marks(s)).toEqual([]);
    // What it loses later is a leak, and told as one.
    s.flow(60, 1.2);
    expect(marks(s)).toEqual([]);
    const over = hold({}, () => 2.0, 2);
    expect(marks(over)).toEqual(['hold-over-working']);
    over.flow(30, 1.8, { sd: 0 });
    expect(marks(over)).toEqual([]);
    over.say({ c: 'stage', to: 'let-down' }).flow(5, 0.2);
    expect(marks(over)).toEqual([]);
  });

  it('is not marked near it, without a working pressure, or where the packer is not seen', () => {
    for (const bar of [1.6, 1.8, 1.84]) expect(marks(hold({}, () => bar, 1))).toEqual([]);
    expect(marks(hold({ limits: { ...LIMITS, cue: false } }, () => 1.2, 1))).toEqual([]);
    expect(marks(hold({ tap: 'supply' }, () => 1.2, 1))).toEqual([]);
  });
});
