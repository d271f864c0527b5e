import { expect, it } from 'vitest';
import { applySetup, createSensing, describe as greet, sense } from './sensing.ts';
import { isSpanStated, suggestChannels } from './suggest.ts';
import { channelSetup, HELLO, JUNCTION, PRESS, PROBE, RATIO, SUPPLY, sample } from './testing/device.ts';

/** 0.5-4.5 V over 0-4 bar on 16 bits of 0-5 V: 1.00 bar is 1.5 V. */
const VOLTAGE = { ...PRESS, signal: 'voltage', rawLo: 0, rawHi: 65_535, elLo: 0, elHi: 5_000_000 } as const;
const AT_1_BAR = Math.round((1.5 / 5) * 65_535);

it('turns the device\u2019s words into a suggestion in bar, °C and V, without calibration', () => {
  const [press, probe, junction] = suggestChannels([PRESS, PROBE, JUNCTION]);
  expect(press).toMatchObject({ role: 'pressure', place: null, signal: 'current', rangeLo: 0, rangeHi: 4 });
  expect(press).toMatchObject({ spanElLo: 4000, spanElHi: 20_000, calibration: null, gaugeKind: 'gauge' });
  expect(probe).toMatchObject({
    role: 'temperature',
    place: 'sleeve',
    signal: 'thermocouple',
    thermocouple: 'K',
    thermocoupleClass: 2,
    partner: 2,
    rangeLo: -40,
    rangeHi: 200,
  });
  expect(junction).toMatchObject({
    role: 'junction',
    signal: 'digital',
    spanElLo: -40_000,
    spanElHi: 125_000,
  });
  const [, supply] = suggestChannels([RATIO, SUPPLY]);
  expect(supply).toMatchObject({ role: 'supply', rangeLo: 4.75, rangeHi: 5.25 });
});

it('takes the first pressure channel and only places it knows', () => {
  const two = suggestChannels([PRESS, { ...PRESS, index: 1 }, { ...PROBE, index: 2, place: 'packer' }]);
  expect(two.map((c) => c.role)).toEqual(['pressure', 'unused', 'temperature']);
  expect(two[2]!.place).toBeNull();
});

it('reads no pressure by a voltage whose ends nobody states; a sensor that states them gives the right one', () => {
  const [guess] = suggestChannels([VOLTAGE]);
  expect(isSpanStated(guess!)).toBe(false);
  const bar = (setup: ReturnType<typeof channelSetup> | null) => {
    const s = createSensing();
    greet(s, { ...HELLO, channels: 1 }, [VOLTAGE]);
    if (setup !== null) applySetup(s, setup);
    return sense(s, sample(1, [AT_1_BAR]), 50_000).bar;
  };
  expect(bar(null)).toBeNull();
  expect(bar(channelSetup([guess!]))).toBeNull();
  expect(bar(channelSetup([{ ...guess!, spanElLo: 500_000, spanElHi: 4_500_000 }]))).toBeCloseTo(1, 3);
});

it('takes a pressure channel that states its span before one that does not', () => {
  const both = suggestChannels([VOLTAGE, { ...PRESS, index: 1 }]);
  expect(both.map((c) => c.role)).toEqual(['unused', 'pressure']);
  expect(both.every((c) => c.role === 'unused' || isSpanStated(c))).toBe(true);
});
