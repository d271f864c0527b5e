import { expect, it } from 'vitest';
import { suggestChannels } from './suggest.ts';
import { JUNCTION, PRESS, PROBE, RATIO, SUPPLY } from './testing/device.ts';

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
