import { expect, it } from 'vitest';
import { applySetup, createSensing, describe, sense } from './sensing.ts';
import { suggestChannels } from './suggest.ts';
import { at, CALIBRATION, channelSetup, HELLO, PRESS, sample } from './testing/device.ts';
import { zero, zeroLimitBar } from './zero.ts';

const DEVICE = { ...HELLO, channels: 1 };
const fed = (ma: (n: number) => number | null, count = 40, rateHz = 20) => {
  const s = createSensing();
  describe(s, DEVICE, [PRESS]);
  for (let n = 0; n < count; n++) {
    const v = ma(n);
    sense(s, sample(n, [v === null ? null : v * 1000], rateHz), at(n, rateHz));
  }
  return s;
};

it('takes the mean of the last second and subtracts it from then on', () => {
  // 0-4 bar on 16 mA: 0.08 mA is 20 mbar.
  const s = fed((n) => (n < 15 ? 4.04 : 4.08 + (n % 2 ? 0.004 : -0.004)));
  const r = zero(s);
  expect(r).toMatchObject({ taken: true, reason: null });
  expect(r.offsetBar).toBeCloseTo(0.02, 3);
  expect(sense(s, sample(41, [4080 + 8000]), at(41)).bar).toBeCloseTo(2, 3);
});

it('refuses a line under pressure, a moving line, silence, and leaves everything as it was', () => {
  expect(zero(fed(() => 4.4))).toMatchObject({ taken: false, reason: 'too-far' });
  expect(zero(fed((n) => 4 + n * 0.004))).toMatchObject({ taken: false, reason: 'not-still' });
  expect(zero(fed(() => null))).toMatchObject({ taken: false, reason: 'no-reading' });
  expect(zero(fed(() => 3))).toMatchObject({ taken: false, reason: 'no-reading' });
  expect(zero(fed(() => 4, 2))).toMatchObject({ taken: false, reason: 'no-reading' });
  expect(zero(createSensing())).toMatchObject({ taken: false, reason: 'no-channel' });
  const s = fed(() => 4.4);
  zero(s);
  expect(sense(s, sample(41, [4400]), at(41)).bar).toBeCloseTo(0.1, 6);
});

it('refuses what reads low as it refuses what reads high: both hide a fault', () => {
  // 3.7 mA on 0-4 bar: 75 mbar under zero, where 40 may be taken.
  const s = fed(() => 3.7);
  expect(zero(s)).toMatchObject({ taken: false, reason: 'too-far' });
  expect(zero(s).offsetBar).toBeCloseTo(-0.075, 6);
});

it('takes none from readings of another scale', () => {
  const s = fed(() => 4);
  const [ch] = suggestChannels([PRESS]);
  const moved = { ...CALIBRATION, deviceId: DEVICE.deviceId, offset: 0.03, gain: 1 };
  applySetup(s, channelSetup([{ ...ch!, calibration: moved }]));
  expect(zero(s)).toMatchObject({ taken: false, reason: 'no-reading' });
  for (let n = 41; n < 47; n++) sense(s, sample(n, [4000]), at(n));
  expect(zero(s).offsetBar).toBeCloseTo(0.03, 6);
});

it('at one sample a second the last few readings serve', () => {
  expect(zero(fed(() => 4.04, 6, 1))).toMatchObject({ taken: true });
});

it('never takes more than 50 mbar', () => {
  const [ch] = suggestChannels([PRESS]);
  expect(zeroLimitBar(ch!)).toBeCloseTo(0.04, 12);
  expect(zeroLimitBar({ ...ch!, rangeHi: 16 })).toBe(0.05);
  expect(zeroLimitBar({ ...ch!, rangeHi: 0.6 })).toBe(0.02);
  // An absolute sensor shows the air pressure, which the sheet knows to so much only.
  expect(zeroLimitBar({ ...ch!, gaugeKind: 'absolute' }, 0.03)).toBeCloseTo(0.07, 12);
  expect(zeroLimitBar(ch!, 0.03)).toBeCloseTo(0.04, 12);
});

it('zero makes gauge pressure of an absolute sensor, whatever air pressure was assumed', () => {
  const s = createSensing();
  describe(s, DEVICE, [PRESS]);
  const [ch] = suggestChannels([PRESS]);
  const air = { bar: 0.985, uBar: 0.03, source: 'altitude' } as const;
  applySetup(s, channelSetup([{ ...ch!, gaugeKind: 'absolute' }], { air }));
  // True air 1.00 bar: 4 + 1.00 · 4 mA on a loop of 0-4 bar absolute.
  for (let n = 0; n < 40; n++) sense(s, sample(n, [8000]), at(n));
  expect(zero(s)).toMatchObject({ taken: true, offsetBar: expect.closeTo(0.015, 6) });
  expect(sense(s, sample(60, [14_000]), at(60)).bar).toBeCloseTo(1.5, 6);
});

it('taking it twice changes nothing, and a calibration entered later keeps it', () => {
  const s = fed(() => 4.08);
  zero(s);
  sense(s, sample(41, [4080]), at(41));
  expect(zero(s).offsetBar).toBeCloseTo(0.02, 6);
  const [ch] = suggestChannels([PRESS]);
  applySetup(s, channelSetup([{ ...ch!, calibration: { ...CALIBRATION, offset: 0.005, gain: 1.001 } }]));
  expect(sense(s, sample(42, [4080]), at(42)).bar).toBeCloseTo(0, 9);
  expect(sense(s, sample(60, [12_080]), at(60)).bar).toBeCloseTo(2.002, 6);
  // A calibration that would move the zero beyond its limit voids it.
  applySetup(s, channelSetup([{ ...ch!, calibration: { ...CALIBRATION, offset: 0.2, gain: 1.001 } }]));
  expect(s.zero).toBeNull();
});
