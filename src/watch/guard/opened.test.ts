import { describe, expect, it } from 'vitest';
import type { Line, Tap } from '../../job/setup.ts';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { Script } from '../testing/script.ts';

const NEAR = { ...LIMITS, ratedBar: 2, ceilingBar: 1.92, workingBar: 1.6 };

interface Way {
  readonly hz?: number;
  readonly sd?: number;
  readonly tap?: Tap;
  readonly line?: Line;
  readonly seed?: number;
}

/** A hold at a pressure, so many seconds old. */
function held(
  bar: number,
  seconds: number,
  { hz = 20, sd = 0.002, tap = 'packer', line = 'closed', seed = 7 }: Way,
) {
  const at = { hz, sd };
  return new Script({ seed, setup: setupOf({ limits: NEAR, rateHz: hz, tap, line }) })
    .flow(2, 0, at)
    .say({ c: 'stage', to: 'inflate' })
    .flow(bar / 0.1 + 4, (t) => Math.min(bar, 0.1 * t), at)
    .say({ c: 'stage', to: 'hold' })
    .flow(seconds, bar, at);
}

/** How far the pressure has risen when the first *rising* is heard, bar; NaN: none. */
function risenBy(s: Script, rate: number, way: Way, most = 0.5): number {
  const from = s.tS;
  const bar = s.w.signal.median!;
  s.flow(most / rate, (t) => bar + rate * t, { hz: way.hz ?? 20, sd: way.sd ?? 0.002 });
  const e = s
    .of('alarm')
    .find((one) => one.alarm === 'rising' && one.to === 'unacknowledged' && one.tUs > from * 1e6);
  return e === undefined ? Number.NaN : (e.tUs / 1e6 - from) * rate;
}

describe('a valve that is opened in a hold', () => {
  it.each([
    [0.1, 0.11],
    [0.2, 0.12],
    [0.225, 0.13],
    [0.6, 0.28],
  ])('at %s bar/s is told when %s bar have come in, at 10 to 50 Hz', (rate, most) => {
    for (const hz of [10, 20, 50])
      for (const [bar, seconds] of [
        [1.4, 60],
        [1.5, 12],
      ] as const) {
        const way = { hz };
        const s = held(bar, seconds, way);
        const risen = risenBy(s, rate, way);
        expect([hz, bar, risen < most]).toEqual([hz, bar, true]);
        expect(s.of('alarm').find((e) => e.alarm === 'rising')!.values.kind).toBe('opened');
      }
  });

  it('is told before a hose as soon, where nothing was let out before', () => {
    const way = { tap: 'hose' } as const;
    expect(risenBy(held(1.5, 30, way), 0.2, way)).toBeLessThan(0.12);
  });

  it('is none where a hold begins on a fill that is just ending', () => {
    const s = new Script({ setup: setupOf({ limits: NEAR }) })
      .flow(2, 0)
      .say({ c: 'stage', to: 'inflate' })
      .flow(14, (t) => 0.1 * t)
      .say({ c: 'stage', to: 'hold' })
      .flow(10, (t) => 1.4 + 0.1 * Math.min(t, 0.8));
    expect(s.heard()).toEqual([]);
  });

  it('is none where the crew has gone back to inflate, or an alarm asks for a top-up', () => {
    const said = held(1.4, 30, {}).say({ c: 'stage', to: 'inflate' });
    expect(said.flow(1, (t) => 1.4 + 0.2 * t).heard()).toEqual([]);
    const asked = held(0.6, 30, {});
    expect(asked.heard()).toEqual(['below-floor']);
    asked.flow(3, (t) => 0.6 + 0.2 * t);
    expect(asked.heard()).toEqual(['below-floor']);
  });

  it('is none on a line that is said to be supplied', () => {
    const way = { line: 'supplied-relieving' } as const;
    expect(risenBy(held(1.2, 30, way), 0.2, way, 0.2)).toBeNaN();
  });

  it('is not a vent that was opened a little before a hose and shut again', () => {
    for (const seed of [1, 2, 3])
      for (const tauS of [0.1, 0.2, 0.4]) {
        const s = held(1.55, 30, { tap: 'hose', seed });
        s.flow(4, (t) => 1.55 - 0.02 * t - 0.25 * (1 - Math.exp(-t / tauS)), { sd: 0.003 });
        s.flow(10, (t) => 1.47 - 0.25 * Math.exp(-t / tauS), { sd: 0.003 });
        expect(s.heard()).not.toContain('rising');
      }
  });

  it('is no noise, and no warmth', () => {
    for (const [hz, sd] of [
      [10, 0.006],
      [20, 0.006],
      [50, 0.01],
    ] as const) {
      const s = held(1.4, 2, { hz, sd });
      s.flow(300, (t) => 1.4 + 0.001 * t, { hz, sd });
      expect(s.heard()).not.toContain('rising');
    }
  });
});

describe('a valve that is opened in a let-down', () => {
  it('is told at once where the sensor is at the packer', () => {
    const way = {};
    const s = held(1.5, 20, way)
      .say({ c: 'stage', to: 'let-down' })
      .flow(5, (t) => 1.5 - 0.1 * t);
    expect(risenBy(s, 0.2, way)).toBeLessThan(0.12);
  });
});
