import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import type { Stage } from '../codes.ts';
import { Script } from '../testing/script.ts';
import { airComesIn, followInflow } from './inflow.ts';
import { createGuard } from './state.ts';

/** A whole hold and its let-down, then nothing said but what `say` says, and air at `rate` bar/s past the ceiling. */
function refilled(say: (s: Script) => void, rate: number, hz: number): { rising: number; ceiling: number } {
  const at = { hz, sd: 0.002 };
  const s = new Script({ setup: setupOf({ rateHz: hz }) })
    .flow(2, 0, at)
    .say({ c: 'stage', to: 'inflate' })
    .flow(12, (t) => Math.min(1.8, 0.15 * t), at)
    .say({ c: 'stage', to: 'hold' })
    .flow(20, 1.8, at);
  say(s);
  s.flow(12, (t) => Math.max(0, 1.8 - 0.2 * t), at).flow(10, 0, at);
  const from = s.tS;
  s.flow(2.6 / rate, (t) => rate * t, at);
  const raised = (alarm: 'rising' | 'ceiling') => s.at(alarm, 'unacknowledged') - from;
  return { rising: raised('rising'), ceiling: raised('ceiling') };
}

const stage = (to: Stage) => (s: Script) => void s.say({ c: 'stage', to });

describe('air that comes in', () => {
  for (const hz of [10, 50])
    it(`after a let-down, done, abandoned or with the vent said open is warned of as in a fill or sooner, at ${hz} Hz`, () => {
      for (const rate of [0.05, 0.3]) {
        const plain = refilled(stage('inflate'), rate, hz);
        expect(plain.rising).toBeLessThan(2.48 / rate);
        for (const say of [
          stage('let-down'),
          stage('done'),
          stage('abandoned'),
          (s: Script) => void s.say({ c: 'vent', open: true }),
          (s: Script) => void s.say({ c: 'stage', to: 'let-down' }).say({ c: 'stage', to: 'abandoned' }),
        ]) {
          const { rising } = refilled(say, rate, hz);
          // A rise that only an open valve makes is told sooner (opened.ts).
          expect(rising - plain.rising).toBeLessThan(0.15);
          if (rate < 0.08) expect(plain.rising - rising).toBeLessThan(0.15);
        }
      }
    });

  it('while a packer is said to be done makes a second’s silence long, as in a fill', () => {
    const s = new Script()
      .flow(5, 1)
      .say({ c: 'stage', to: 'let-down' })
      .flow(6, (t) => Math.max(0, 1 - 0.5 * t));
    s.say({ c: 'stage', to: 'abandoned' }).flow(10, 0);
    const quiet = s.tS;
    s.silence(4).flow(2, 0);
    expect(s.heard()).toEqual([]);
    expect(s.tS - quiet).toBeCloseTo(6, 5);
    s.flow(5, (t) => 0.1 * t);
    const from = s.tS;
    expect(s.silence(2).at('pressure-lost', 'unacknowledged') - from).toBeCloseTo(1, 1);
  });
});

describe('a rise', () => {
  const sd = 0.001;
  const least = 0.0015;
  /** The rate stands so many standard deviations over the least one at each of the moments, which are 0.1 s apart. */
  const comesIn = (above: readonly number[], rise = 0.1): boolean => {
    const s = createGuard();
    for (const [i, n] of above.entries()) {
      const bar = (rise * i) / (above.length - 1);
      s.motion = { atS: 0.1 * i, bar, midS: 0.1 * i, rate: least + n * sd, sd, before: 0, ago: 0 };
      followInflow(s);
    }
    return airComesIn(s);
  };
  const during = (n: number, begin = 5) => [begin, ...Array.from({ length: 20 }, () => n)];

  it('begins over four standard deviations and goes on over two, for 1.5 s and 50 mbar', () => {
    expect(comesIn(during(3))).toBe(true);
    expect(comesIn(during(3, 3.5))).toBe(false);
    expect(comesIn(during(1.5))).toBe(false);
    expect(comesIn(during(3).slice(0, 15))).toBe(false);
    expect(comesIn(during(3).slice(0, 17))).toBe(true);
    expect(comesIn(during(3), 0.045)).toBe(false);
  });
});

describe('a let-down', () => {
  /** The vent is shut on a packer that still holds `bar`: behind a hose the reading comes back, sooner or later. */
  const shut = (bar: number, tauS: number, seed: number) => {
    const at = { hz: 50, sd: 0.003 };
    const s = new Script({ seed, setup: setupOf({ tap: 'hose', rateHz: 50 }) })
      .flow(15, (t) => Math.min(bar, 0.2 * t), at)
      .say({ c: 'stage', to: 'hold' })
      .flow(20, bar, at)
      .say({ c: 'stage', to: 'let-down' })
      .flow(3, (t) => bar * (0.4 + 0.6 * Math.exp(-t / 0.3)), at);
    const n = s.events.length;
    s.say({ c: 'vent', open: false }).flow(20, (t) => bar * (1 - 0.6 * Math.exp(-t / tauS)), at);
    return s.events.slice(n).filter((e) => e.e === 'alarm' && e.to === 'unacknowledged');
  };

  // A hose of a few metres evens out within half a second; what takes longer is a kink or a check valve.
  it('in which the vent is shut on a packer that is still full is no air that comes in', () => {
    for (const [bars, taus] of [
      [
        [0.9, 1.7, 2.3],
        [0.1, 0.3, 0.5],
      ],
      [
        [0.9, 1.7],
        [1, 3, 10],
      ],
    ] as const)
      for (const tauS of taus)
        for (const bar of bars)
          for (const seed of [7, 8]) expect([bar, tauS, shut(bar, tauS, seed)]).toEqual([bar, tauS, []]);
  });
});
