import { expect, describe as group, it } from 'vitest';
import type { ChannelSetup } from '../job/setup.ts';
import { applySetup, createSensing, describe, sense } from './sensing.ts';
import { suggestChannels } from './suggest.ts';
import {
  CALIBRATION,
  channelSetup,
  HELLO,
  IN_ICE,
  JUNCTION,
  PRESS,
  PROBE,
  RATIO,
  SUPPLY,
  sample,
} from './testing/device.ts';
import { budget, combine } from './uncertainty.ts';

const [press, probe, junction] = suggestChannels([PRESS, PROBE, JUNCTION]);
const calibrated = { ...press!, calibration: CALIBRATION };

group('uncertainty', () => {
  it('combines as root of squares and doubles (GUM, JCGM 100: 5.1.2 and 6.2)', () => {
    const b = combine([
      { code: 'reference', u: 3, distribution: 'normal', type: 'B' },
      { code: 'noise', u: 4, distribution: 'normal', type: 'A' },
    ]);
    expect(b.combined).toBe(5);
    expect(b.expanded).toBe(10);
  });

  it('a calibrated loop of 4 bar is good to some ten millibars; uncalibrated to several times that', () => {
    const good = budget({ channels: [calibrated] }, 0, 1.8, { zeroed: true })!;
    expect(good.expanded).toBeGreaterThan(0.008);
    expect(good.expanded).toBeLessThan(0.02);
    const rough = budget({ channels: [press!] }, 0, 1.8)!;
    expect(rough.expanded).toBeGreaterThan(2.5 * good.expanded);
    expect(rough.rows.map((r) => r.code)).toContain('sensor');
    expect(good.rows.map((r) => r.code)).toEqual([
      'reference',
      'residual',
      'drift',
      'environment',
      'zero',
      'resolution',
      'noise',
    ]);
  });

  it('its own warmth counts by its sheet, calibrated or not; where the sheet says nothing, as usual', () => {
    const row = (perKelvin?: number, ch: ChannelSetup = calibrated) =>
      budget({ channels: [perKelvin === undefined ? ch : { ...ch, perKelvin }] }, 0, 1.8)!.rows.find(
        (r) => r.code === 'environment',
      )!.u;
    // 0.02 % and 0.05 % of 4 bar a kelvin, 10 K away, rectangular (common practice, no source).
    expect(row(2e-4)).toBeCloseTo((0.0008 * 10) / Math.sqrt(3), 9);
    expect(row(5e-4, press!)).toBeCloseTo((0.002 * 10) / Math.sqrt(3), 9);
    expect(row()).toBeGreaterThan(row(2e-4));
    expect(row()).toBeLessThan(row(5e-4));
    expect(row(0)).toBe(0);
  });

  it('a drift that the last calibration found counts in the next interval', () => {
    const asFound = [
      { indicated: 0.03, reference: 0 },
      { indicated: 4.05, reference: 4 },
    ];
    const asLeft = [
      { indicated: 0, reference: 0 },
      { indicated: 4, reference: 4 },
    ];
    const moved = { ...calibrated, calibration: { ...CALIBRATION, asFound, asLeft } };
    expect(budget({ channels: [moved] }, 0, 1.8)!.rows.find((r) => r.code === 'drift')!.u).toBeCloseTo(
      0.05 / Math.sqrt(3),
      9,
    );
  });

  it('supply: measured is small, unknown is most of it, and it grows with the pressure', () => {
    const [ratio, supply] = suggestChannels([RATIO, SUPPLY]);
    const known = budget({ channels: [ratio!, supply!] }, 0, 1.5)!;
    const unknown = budget({ channels: [{ ...ratio!, partner: null }] }, 0, 1.5)!;
    expect(unknown.expanded).toBeGreaterThan(2 * known.expanded);
    const at = (bar: number) =>
      budget({ channels: [ratio!, supply!] }, 0, bar)!.rows.find((r) => r.code === 'supply')!.u;
    // 0.75 bar under zero there is no signal: the sensitivity starts there (0.5 V of 5 V, 0-6 bar on 4 V).
    expect(at(3) / at(0)).toBeCloseTo((3 + 0.75) / 0.75, 6);
  });

  it('an absolute sensor adds the air pressure, which a zero takes away but for the weather', () => {
    const absolute = { ...calibrated, gaugeKind: 'absolute' as const };
    const zeroRow = (o: { zeroed: boolean; airU?: number }) =>
      budget({ channels: [absolute] }, 0, 1.8, o)!.rows.find((r) => r.code === 'zero')!.u;
    expect(zeroRow({ zeroed: false, airU: 0.06 })).toBeGreaterThan(0.03);
    expect(zeroRow({ zeroed: false })).toBeGreaterThan(0.07);
    expect(zeroRow({ zeroed: true, airU: 0.06 })).toBeLessThan(0.004);
    expect(budget({ channels: [calibrated] }, 0, 1.8, { airU: 0.06 })!.expanded).toBeLessThan(0.03);
  });

  it('the reading carries what the table says', () => {
    const s = createSensing();
    describe(s, { ...HELLO, channels: 1 }, [PRESS]);
    applySetup(s, channelSetup([calibrated]));
    const r = sense(s, sample(0, [12_000]), 0);
    expect(r.uBar).toBeCloseTo(budget({ channels: [calibrated] }, 0, 2, { zeroed: false })!.expanded, 9);
    expect(r.stepBar).toBeCloseTo((4 / 16_000) * 1.002, 9);
  });

  it('a thermocouple: class, junction, input; a calibration takes the class\u2019s place', () => {
    const channels = [press!, probe!, junction!];
    const b = budget({ channels }, 1, 40)!;
    expect(b.rows.map((r) => r.code)).toEqual(['class', 'sensor', 'junction', 'resolution', 'noise']);
    expect(b.rows[0]!.u).toBeCloseTo(2.5 / Math.sqrt(3), 9);
    const better = {
      ...probe!,
      calibration: { ...CALIBRATION, channel: 1, uReference: 0.1, uResidual: 0.1 },
    };
    expect(budget({ channels: [press!, better, junction!] }, 1, 40)!.expanded).toBeLessThan(b.expanded / 2);
    expect(budget({ channels: [probe!] }, 1, 40)!.expanded).toBeGreaterThan(b.expanded);
  });

  it('a probe compared in ice alone: the class is gone, what is left grows away from zero', () => {
    const channels = [press!, { ...probe!, calibration: IN_ICE }, junction!];
    const at = (c: number) => {
      const { rows } = budget({ channels }, 1, c)!;
      return rows.find((r) => r.code === 'away')!.u;
    };
    expect(budget({ channels }, 1, 10)!.rows.map((r) => r.code)).not.toContain('class');
    // IEC 60584-1, class 2: 0.75 % of the way from the point, and of 15 K that the cold junction may be off it; rectangular.
    expect(at(0)).toBeCloseTo((0.0075 * 15) / Math.sqrt(3), 9);
    expect(at(40)).toBeCloseTo((0.0075 * 55) / Math.sqrt(3), 9);
    // 0.1 and 0.1 of ice and reading, 0.3/√3 drift, 0.0075 · 25/√3, 0.5/√3 of the junction: 0.39 K (1 s) by hand.
    expect(budget({ channels }, 1, 10)!.combined).toBeGreaterThan(0.3);
    expect(budget({ channels }, 1, 10)!.combined).toBeLessThan(0.45);
    expect(budget({ channels: [press!, probe!, junction!] }, 1, 10)!.combined).toBeGreaterThan(1.4);
  });

  it('has none for what measures nothing', () => {
    expect(budget({ channels: [junction!] }, 2, 20)).toBeNull();
    expect(budget({ channels: [] }, 0, 1)).toBeNull();
  });
});
