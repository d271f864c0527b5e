import { describe, expect, it } from 'vitest';
import { suggestChannels } from '../sensing/suggest.ts';
import { DEMO } from '../words/testing/demo.ts';
import { en1610Minutes, f1417Seconds, planAirTest } from './airtest.ts';
import { Notes } from './notes.ts';

describe('EN 1610', () => {
  // EN 1610 Table 3, pipes other than dry concrete, DN 100, 200, 300, 400, 600 (values from memory).
  it.each([
    ['LA', [5, 5, 7, 10, 14]],
    ['LB', [4, 4, 6, 7, 11]],
    ['LC', [3, 3, 4, 5, 8]],
    ['LD', [1.5, 1.5, 2, 2.5, 4]],
  ] as const)('method %s', (method, minutes) => {
    expect([100, 200, 300, 400, 600].map((dn) => en1610Minutes(method, dn))).toEqual(minutes);
  });
  it('dry concrete is shorter', () => {
    expect(en1610Minutes('LA', 600, true)).toBeLessThan(en1610Minutes('LA', 600));
  });
});

describe('ASTM F1417', () => {
  const clock = (s: number) => `${Math.floor(s / 60)}:${String(Math.round(s % 60)).padStart(2, '0')}`;
  // Table 2 of the standard, 0.5 psi drop: minimum times, coefficients in s/ft, and the length where they take over.
  it.each([
    [4, '1:53', 0.19, 597],
    [6, '2:50', 0.427, 398],
    [8, '3:47', 0.76, 298],
    [10, '4:43', 1.187, 239],
    [12, '5:40', 1.709, 199],
    [15, '7:05', 2.671, 159],
    [18, '8:30', 3.846, 133],
  ] as const)('%i in', (d, least, perFoot, from) => {
    expect(clock(f1417Seconds(d, 10))).toBe(least);
    expect(f1417Seconds(d, 1000) / 1000).toBeCloseTo(perFoot, 2);
    expect(f1417Seconds(d, from - 2)).toBeCloseTo(f1417Seconds(d, 10), 6);
    expect(f1417Seconds(d, from + 3)).toBeGreaterThan(f1417Seconds(d, 10));
  });
  it.each([
    [8, 300, 228],
    [8, 400, 304],
    [8, 450, 342],
    [12, 400, 684],
  ])('%i in, %i ft: %i s (same table)', (d, l, s) => {
    expect(Math.abs(f1417Seconds(d, l) - s)).toBeLessThanOrEqual(1);
  });
});

describe('planning it', () => {
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
  const job = (method: 'LA' | 'LC' | 'F1417' | 'none') => ({ ...DEMO.job, airTest: { method, lengthM: 20 } });
  const plan = (method: 'LA' | 'LC' | 'F1417' | 'none', ch: ReturnType<typeof frame> | null) => {
    const notes = new Notes();
    return { plan: planAirTest(job(method), 150, ch, false, 0.1, notes), notes };
  };

  it('refuses a drop of 2.5 mbar to a 6 bar channel (a count of 12 bits is 1.5 mbar) and allows 15 to a fine one', () => {
    const coarse = plan('LA', frame(600_000, 12));
    expect(coarse.plan).toMatchObject({ possible: false, dropMbar: 2.5, startMbar: 10, seconds: 300 });
    expect(coarse.notes.warnings.map((w) => w.code)).toEqual(['air-test-refused']);
    const low = { ...frame(40_000, 16), uSensor: 0.0003 };
    const fine = plan('LC', low);
    expect(fine.plan).toMatchObject({ possible: true, dropMbar: 15, seconds: 180 });
    expect(fine.plan!.uMbar).toBeLessThanOrEqual(1.5);
    expect(fine.notes.warnings).toEqual([]);
  });

  it('without a known sensor it is refused, without a method there is none', () => {
    expect(plan('LC', null).plan).toMatchObject({ possible: false, uMbar: null });
    expect(plan('none', null).plan).toBeNull();
    expect(plan('F1417', null).plan).toMatchObject({
      startMbar: expect.closeTo(341.3, 1),
      dropMbar: expect.closeTo(34.5, 1),
    });
  });
});
