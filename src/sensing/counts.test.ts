import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChannelSetup, GaugeKind } from '../job/setup.ts';
import { countsAt } from './counts.ts';
import { applySetup, createSensing, describe as greet, sense } from './sensing.ts';
import { suggestChannels } from './suggest.ts';
import { CALIBRATION, channelSetup, HELLO, PRESS } from './testing/device.ts';
import { zero } from './zero.ts';

function ready(changes: Partial<ChannelSetup> = {}, airBar = 1.013) {
  const state = createSensing();
  const channels = suggestChannels([PRESS]).map((c) => ({ ...c, ...changes }));
  applySetup(state, channelSetup(channels, { air: { bar: airBar, uBar: 0.002, source: 'typed' } }));
  greet(state, { ...HELLO, channels: 1 }, [PRESS]);
  let seq = 0;
  const read = (counts: number) => {
    seq++;
    const frame = { t: 'S', seq, tick: seq * 1000, counts: [counts], status: 0 } as const;
    return sense(state, frame, seq * 100_000).bar!;
  };
  return { state, read };
}

describe('counts of a pressure', () => {
  it('follow the scale: 4-20 mA over 0-4 bar, a count a microampere', () => {
    // 1.77 bar is 4 + 1.77 / 4 · 16 = 11.08 mA (worked by hand).
    expect(countsAt(ready({ calibration: null }).state, 1.77)).toEqual({ channel: 0, counts: 11_080 });
  });

  it('hold what the reading holds: calibration, kind of sensor, air, zero', () => {
    const kinds: readonly GaugeKind[] = ['gauge', 'absolute', 'sealed'];
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.double({ min: 0.8, max: 1.05, noNaN: true }),
        fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        fc.double({ min: 0.95, max: 1.05, noNaN: true }),
        fc.integer({ min: -15, max: 15 }),
        fc.double({ min: 0.5, max: 2.5, noNaN: true }),
        (gaugeKind, airBar, offset, gain, open, bar) => {
          // Sealed with a standard atmosphere inside, it reads under zero on a mountain.
          const rangeLo = gaugeKind === 'sealed' ? -1 : 0;
          const calibration = { ...CALIBRATION, offset, gain };
          const { state, read } = ready({ gaugeKind, calibration, rangeLo }, airBar);
          // The open line reads a few millibar off, and that is taken as the zero.
          const empty = countsAt(state, open / 1000)!.counts;
          for (let i = 0; i < 12; i++) read(empty);
          expect(zero(state).taken).toBe(true);
          const { counts } = countsAt(state, bar)!;
          expect(read(counts)).toBeLessThanOrEqual(bar + 1e-9);
          expect(read(counts + 1)).toBeGreaterThan(bar);
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  it('are none without a channel, or where the counts fall as the pressure rises', () => {
    expect(countsAt(createSensing(), 1)).toBeNull();
    expect(countsAt(ready({ rawLo: 25_000, rawHi: 0 }).state, 1)).toBeNull();
    expect(countsAt(ready({ spanElLo: 20_000, spanElHi: 4000 }).state, 1)).toBeNull();
  });
});
