import { describe, expect, it } from 'vitest';
import type { AirTest } from '../job/codes.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { DEMO } from '../words/testing/demo.ts';
import { planAirTest } from './airtest.ts';
import { Notes } from './notes.ts';

const frame = (rangeHi: number, bits: number) =>
  suggestChannels([
    {
      t: 'C',
      index: 0,
      quantity: 'press',
      place: 'hose',
      signal: 'digital',
      partner: null,
      bits,
      rawLo: 0,
      rawHi: 2 ** bits - 1,
      elLo: 0,
      elHi: rangeHi,
      rangeLo: 0,
      rangeHi,
      rateMilliHz: 20_000,
    },
  ])[0]!;
const job = (method: AirTest, lengthM: number | null) => ({ ...DEMO.job, airTest: { method, lengthM } });
const plan = (
  method: AirTest,
  ch: ReturnType<typeof frame> | null,
  headBar = 0.1,
  lengthM: number | null = 20,
) => {
  const notes = new Notes();
  return { plan: planAirTest(job(method, lengthM), 150, ch, false, headBar, notes), notes };
};

describe('planning the air test', () => {
  it('refuses a drop of 2.5 mbar to a 6 bar channel (a count of 12 bits is 1.5 mbar), and says what sensor would do', () => {
    const coarse = plan('LA', frame(600_000, 12));
    expect(coarse.plan).toMatchObject({ possible: false, dropMbar: 2.5, startMbar: 10, seconds: 300 });
    expect(coarse.notes.warnings.map((w) => w.code)).toEqual(['air-test-refused']);
    const named = (name: string) => coarse.notes.warnings[0]!.numbers.find((n) => n.name === name)!.value;
    expect(named('sensor-span')).toBeGreaterThan(0.2);
    expect(named('sensor-span')).toBeLessThan(1);
    expect(named('sensor-step')).toBeLessThanOrEqual(0.25);
  });

  it('allows 15 mbar to a fine one, however far its zero may be off', () => {
    const fine = plan('LC', { ...frame(40_000, 16), uSensor: 0.003 });
    expect(fine.plan).toMatchObject({ possible: true, dropMbar: 15, seconds: 180 });
    expect(fine.plan!.uMbar).toBeLessThanOrEqual(1.5);
    expect(fine.notes.warnings).toEqual([]);
    expect(fine.plan!.setup).toEqual({ method: 'LC', mm: DEMO.job.pipe.dn, lengthM: 20, headBar: null });
  });

  it('without a known sensor it is refused, without a method there is none', () => {
    expect(plan('LC', null).plan).toMatchObject({ possible: false, uMbar: null });
    expect(plan('none', null).plan).toBeNull();
    expect(plan('F1417', null).plan).toMatchObject({
      startMbar: expect.closeTo(341.3, 1),
      dropMbar: expect.closeTo(34.5, 1),
    });
  });

  it('without the length that the method asks for, or under much groundwater, it says so', () => {
    expect(plan('F1417', null, 0.1, null).notes.warnings.map((w) => w.code)).toEqual(['air-test-unknown']);
    const deep = plan('F1417', { ...frame(100_000, 24), uSensor: 0.0001 }, 0.5);
    expect(deep.plan).toMatchObject({ possible: false });
    expect(deep.notes.warnings.map((w) => w.code)).toEqual(['air-test-over-plugs']);
  });
});
