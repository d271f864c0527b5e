import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import type { Tap } from '../../job/setup.ts';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import { createJump, jumpReading } from './jump.ts';

const NEAR = { ...LIMITS, ratedBar: 2, ceilingBar: 1.92, workingBar: 1.6 };

const begin = (hz: number, tap: Tap = 'packer', seed = 7) =>
  new Script({ seed, setup: setupOf({ limits: NEAR, rateHz: hz, tap }) })
    .flow(2, 0, { hz, sd: 0.002 })
    .say({ c: 'stage', to: 'inflate' });

/** A steady fill to `toBar`, with the sensor off by `off` bar from `atBar` on, reached over so many seconds. */
function fill(
  s: Script,
  hz: number,
  rate: number,
  atBar: number,
  toBar: number,
  off: number,
  overS = 0,
): Script {
  const atS = atBar / rate;
  return s.flow(
    toBar / rate,
    (t) => rate * t + off * Math.min(1, Math.max(0, overS === 0 ? (t >= atS ? 1 : 0) : (t - atS) / overS)),
    { hz, sd: 0.002 },
  );
}

const raised = (s: Script) =>
  s.of('alarm').filter((e) => e.alarm === 'reading-jump' && e.to === 'unacknowledged');

describe('a sensor that jumps in a fill', () => {
  for (const hz of [10, 20, 50, 200])
    it(`is told within a second, urgent, with the step, at ${hz} Hz`, () => {
      for (const tap of ['packer', 'hose'] as const)
        for (const rate of [0.05, 0.1])
          for (const atBar of [1.1, 1.27])
            for (const off of [-0.3, 0.3]) {
              const s = fill(begin(hz, tap), hz, rate, atBar, atBar + 1.6 * rate, off);
              const [e] = raised(s);
              expect([tap, rate, atBar, off, e?.priority]).toEqual([tap, rate, atBar, off, 'urgent']);
              expect(e!.tUs / 1e6 - 2 - atBar / rate).toBeLessThan(tap === 'packer' ? 0.8 : 1.5);
              expect(Math.abs(e!.values.jumpBar! - off)).toBeLessThan(0.02);
            }
    });

  it('ends the countdown, and stands until the dial gauge is compared', () => {
    const s = fill(begin(20), 20, 0.1, 1.27, 1.75, -0.3);
    const view = () => viewOf(s.w, s.tS * 1e6);
    expect(view().guard.closeInS).toBeNull();
    s.acknowledge().flow(60, 1.45, { hz: 20, sd: 0.002 });
    expect(view().alarms.some((a) => a.alarm === 'reading-jump')).toBe(true);
    s.say({ c: 'gauge', bar: 1.75 }).flow(1, 1.45, { hz: 20, sd: 0.002 });
    expect(s.states('reading-jump').at(-1)).toBe('normal');
    expect(s.heard()).toContain('gauge-differs');
  });

  it('stands until it goes back', () => {
    const s = begin(20);
    s.flow(12, (t) => 0.1 * t - (t >= 6 && t < 9 ? 0.3 : 0), { hz: 20, sd: 0.002 });
    expect(s.states('reading-jump')).toEqual(['unacknowledged', 'returned']);
  });

  it('behind a filter that smears it over up to half a second is told, where part of it goes faster than air', () => {
    for (const hz of [10, 20, 50])
      for (const tap of ['packer', 'hose'] as const)
        for (const [off, tauS] of [
          [-0.5, 0.05],
          [-0.3, 0.05],
          [-0.5, hz === 10 && tap === 'packer' ? 0.05 : 0.1],
        ] as const)
          for (const atBar of [1.1, 1.13, 1.16]) {
            const atS = atBar / 0.1;
            const s = begin(hz, tap).flow(
              atS + 3,
              (t) => 0.1 * t + (t < atS ? 0 : off * (1 - Math.exp(-(t - atS) / tauS))),
              { hz, sd: 0.002 },
            );
            const [e] = raised(s);
            expect([hz, tap, off, tauS, atBar, e?.priority]).toEqual([hz, tap, off, tauS, atBar, 'urgent']);
            // The end of a smeared step comes after it is told.
            expect(Math.abs(e!.values.jumpBar! - off)).toBeLessThan(0.3 * Math.abs(off));
          }
  });

  it('behind a slow filter is told downwards, where more air is asked for by it', () => {
    for (const hz of [20, 50])
      for (const tap of ['packer', 'hose'] as const)
        for (const [off, tauS] of [
          [-0.3, 0.2],
          [-0.2, 0.15],
          [-0.6, 0.2],
          [-0.6, 0.3],
        ] as const) {
          const at = { hz, sd: 0.002 };
          const s = begin(hz, tap).flow(11, (t) => 0.1 * t, at);
          s.flow(4, (t) => 1.1 + 0.1 * t + off * (1 - Math.exp(-t / tauS)), at);
          expect([hz, tap, off, tauS, raised(s).length]).toEqual([hz, tap, off, tauS, 1]);
        }
  });

  it('in two or three samples is told too', () => {
    for (const [hz, samples] of [
      [10, 1],
      [20, 2],
      [50, 2],
      [50, 3],
    ] as const)
      expect(raised(fill(begin(hz), hz, 0.1, 1.1, 1.3, -0.3, samples / hz))).toHaveLength(1);
  });
});

describe('a sensor that jumps in a hold, a let-down or the seat pause', () => {
  it.each(['seat', 'hold', 'let-down'] as const)('is told at the packer, in %s', (stage) => {
    for (const hz of [10, 50])
      for (const off of [-0.3, 0.3]) {
        // Within a tenth of a second a vent makes such a fall.
        if (stage === 'let-down' && off < 0 && hz === 10) continue;
        const at = { hz, sd: 0.002 };
        const s = begin(hz).flow(16, (t) => Math.min(1.3, 0.1 * t), at);
        s.say({ c: 'stage', to: stage })
          .flow(10, 1.3, at)
          .flow(3, 1.3 + off, at);
        expect([hz, off, raised(s).map((e) => e.priority)]).toEqual([
          hz,
          off,
          [stage === 'seat' ? 'urgent' : 'high'],
        ]);
      }
  });

  it('that is hardly more than the least step is told in whatever noise', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const random = noise(seed * 7 + 3);
      const j = createJump();
      for (let i = 1; i < 400; i++)
        jumpReading(j, i / 50, (i > 250 ? 0.895 : 1) + 0.003 * random(), 0.01, 'packer', true, false);
      expect([seed, Math.abs((j.standingBar ?? 0) + 0.105) < 0.02]).toEqual([seed, true]);
    }
  });

  it('is over when the line stands at zero after the let-down, and not on its way through zero', () => {
    const at = { hz: 20, sd: 0.002 };
    const down = (jumpedTo: number, off: number) => {
      const s = begin(20)
        .flow(16, (t) => Math.min(1.3, 0.1 * t), at)
        .say({ c: 'stage', to: 'hold' })
        .flow(10, 1.3, at)
        .flow(5, jumpedTo, at)
        .acknowledge();
      return s
        .say({ c: 'stage', to: 'let-down' })
        .flow(30, (t) => Math.max(off, jumpedTo - 0.1 * t), at)
        .states('reading-jump')
        .at(-1);
    };
    expect(down(1.6, 0)).toBe('normal');
    expect(down(1.6, -0.09)).toBe('acknowledged');
    // A sensor that fell by 0.3 bar shows zero where 0.3 bar are left.
    expect(down(1, 0)).toBe('acknowledged');
  });
});

describe('no jump', () => {
  it('is a spike, however large', () => {
    for (const hz of [10, 20, 50])
      for (const size of [-0.8, -0.3, 0.3, 2]) {
        const s = begin(hz);
        s.flow(15, (t) => 0.08 * t + (Math.round(t * hz) % (4 * hz) === 0 ? size : 0), { hz, sd: 0.003 });
        expect(raised(s)).toEqual([]);
      }
  });

  it('is a burst, a hose that blows off, or a vent that is opened', () => {
    for (const hz of [10, 50])
      for (const tap of ['packer', 'hose'] as const)
        for (const down of [
          (t: number) => 1.5 * Math.exp(-t / 0.3),
          (t: number) => 1.5 * Math.exp(-t / 0.03),
          (t: number) => 0.4 + 1.1 * Math.exp(-t / 0.05),
          (t: number) => 1.5 - Math.min(0.3, 0.6 * t),
          (t: number) => Math.max(0, 1.5 - 0.2 * t),
        ]) {
          const at = { hz, sd: 0.002 };
          const s = begin(hz, tap).flow(20, (t) => Math.min(1.5, 0.1 * t), at);
          s.say({ c: 'stage', to: 'hold' }).flow(10, 1.5, at).flow(10, down, at);
          expect(raised(s)).toEqual([]);
        }
  });

  it('is a valve that a quick hand opens wide for a moment, or a vent for a moment', () => {
    for (const hz of [10, 20, 50])
      for (const tap of ['packer', 'hose'] as const)
        for (const wideS of [0.2, 0.3, 0.5])
          for (const rate of [0.6, -0.6])
            for (const slow of [0, 0.05, 0.1]) {
              const at = { hz, sd: 0.003 };
              const s = begin(hz, tap).flow(12, (t) => Math.min(1.2, 0.1 * t), at);
              s.flow(6, (t) => 1.2 + slow * t + rate * Math.min(wideS, Math.max(0, t - 3)), at);
              expect([hz, tap, wideS, rate, slow, raised(s)]).toEqual([hz, tap, wideS, rate, slow, []]);
            }
  });

  it('is a small packer’s valve or vent that is opened in pulses', () => {
    for (const hz of [10, 20, 50])
      for (const onS of [0.1, 0.15, 0.2, 0.3])
        for (const offS of [0.6, 1.2, 2.5]) {
          const at = { hz, sd: 0.002 };
          // The line between a pulse and the next: filled from 0, or let down from 1.5 bar.
          const pulses = (s: Script, fromBar: number, rate: number) => {
            for (let bar = fromBar; bar + rate * onS < 1.5 && bar + rate * onS > 0.1; bar += rate * onS) {
              const before = bar;
              s.flow(onS + offS, (t) => before + rate * Math.min(t, onS), at);
            }
            return raised(s);
          };
          for (const rate of [0.8, 1.2, 1.6])
            expect([hz, onS, offS, rate, pulses(begin(hz), 0, rate)]).toEqual([hz, onS, offS, rate, []]);
          for (const rate of [-1.5, -2.5]) {
            const up = begin(hz)
              .flow(15, (t) => 0.1 * t, at)
              .say({ c: 'stage', to: 'let-down' });
            expect([hz, onS, offS, rate, pulses(up, 1.5, rate)]).toEqual([hz, onS, offS, rate, []]);
          }
        }
  });

  it('is a valve that is opened or shut, with the drop of a hose or without', () => {
    for (const hz of [10, 20, 50])
      for (const tap of ['packer', 'hose'] as const)
        for (const rate of [0.02, 0.1, 0.6])
          for (const seed of [1, 2]) {
            const at = { hz, sd: 0.003 };
            const s = begin(hz, tap, seed);
            const dropBar = tap === 'hose' ? 0.35 : 0;
            for (let k = 0; k < 3; k++) {
              const from = 0.4 * k;
              const lag = (t: number) => dropBar * (1 - Math.exp(-t / 0.06));
              s.flow(0.4 / rate, (t) => from + rate * t + lag(t), at);
              s.flow(4, (t) => from + 0.4 + dropBar * Math.exp(-t / 0.06), at);
            }
            expect([hz, tap, rate, raised(s)]).toEqual([hz, tap, rate, []]);
          }
  });
});
