import { describe, expect, it } from 'vitest';
import { suggestChannels } from '../sensing/suggest.ts';
import { IN_ICE, JUNCTION, PROBE } from '../sensing/testing/device.ts';
import { worthOfComparing } from './probe-worth.ts';
import { codes, plan } from './testing/plan-of.ts';

const [probe, junction] = suggestChannels([PROBE, JUNCTION]);

describe('what comparing a probe is worth', () => {
  it('is about an eighth of the wait for a class 2 probe in a cold pipe, worked by hand', () => {
    // GUM: class 2.5 K and a junction, uncompared about 1.6 K (1 s); in ice 0.1, 0.1, 0.3/√3, 0.0075·25/√3, 0.5/√3 K: about
    // 0.40 K; each with 0.4 K of placing: 1.6 · (1.66 − 0.57) K at Ea/(R·T²) = 60000/(8.314·283²) = 0.090 a kelvin.
    const sooner = worthOfComparing(probe!, junction!, 60_000, 10);
    expect(sooner).toBeGreaterThan(10);
    expect(sooner).toBeLessThan(19);
  });

  it('is less for a better class, and nothing once it is done', () => {
    const better = { ...probe!, thermocoupleClass: 1 as const };
    expect(worthOfComparing(better, junction!, 60_000, 10)).toBeLessThan(
      worthOfComparing(probe!, junction!, 60_000, 10),
    );
    expect(worthOfComparing({ ...probe!, calibration: IN_ICE }, junction!, 60_000, 10)).toBe(0);
  });

  it('stands on the sheet once, with its figure, where a resin cures by time', () => {
    const notes = plan().warnings.filter((w) => w.code === 'probe-uncompared');
    expect(notes).toHaveLength(1);
    for (const { numbers } of notes) expect(numbers[0]).toMatchObject({ name: 'sooner', unit: '%' });
    expect(codes(plan({}, { resin: null }).warnings)).not.toContain('probe-uncompared');
    expect(codes(plan({}, {}, null).warnings)).not.toContain('probe-uncompared');
  });
});
