import { describe, expect, it } from 'vitest';
import { blankRegister } from '../../job/reading-map.ts';
import { busMap, lineMap } from '../../job/testing/maps.ts';
import { withCrc } from '../modbus/crc16.ts';
import { introduce } from './introduce.ts';
import { countsOf } from './scale.ts';
import { createTranslate } from './translate.ts';

const line = (text: string) => [{ ask: 0, bytes: new TextEncoder().encode(text) }];
const answer = (ask: number, ...body: number[]) => ({ ask, bytes: withCrc(body) });

describe('numbers to counts', () => {
  it('are Pa and m°C, whatever they were told in', () => {
    const as = (unit: Parameters<typeof countsOf>[0]['unit']) => ({ unit, scale: 1, offset: 0 });
    expect(countsOf(as('bar'), 1.5)).toBe(150_000);
    expect(countsOf(as('mbar'), 1500)).toBe(150_000);
    expect(countsOf(as('kPa'), 150)).toBe(150_000);
    expect(countsOf(as('MPa'), 0.15)).toBe(150_000);
    // 1 psi is 6894.757 Pa (NIST SP 811, B.8).
    expect(countsOf(as('psi'), 10)).toBe(68_948);
    expect(countsOf(as('F'), 212)).toBe(100_000);
    expect(countsOf(as('K'), 273.15)).toBe(0);
    expect(countsOf({ unit: 'C', scale: 0.1, offset: -40 }, 600)).toBe(20_000);
    expect(countsOf(as('bar'), 1e9)).toBeNull();
  });
});

describe('a bus’s answers by the map', () => {
  const translate = createTranslate(busMap());
  // 1.5 in binary32, status 0; 23.5 °C as 235 tenths.
  const pressure = answer(0, 1, 3, 6, 0x3f, 0xc0, 0, 0, 0, 0);
  const temperature = answer(1, 2, 4, 2, 0, 235);

  it('are counts, each of its channel; what was not asked is none', () => {
    expect(translate([temperature, pressure])).toEqual({ counts: [150_000, 23_500], doubts: [] });
    expect(translate([pressure]).counts).toEqual([150_000, null]);
  });

  it('an exception, a bad status, a number that is none: no count, and why', () => {
    expect(translate([answer(0, 1, 0x83, 2)])).toMatchObject({
      counts: [null, null],
      doubts: [{ code: 'exception', channel: 0, value: 2 }],
    });
    expect(translate([answer(0, 1, 3, 6, 0x3f, 0xc0, 0, 0, 0, 1)])).toMatchObject({
      counts: [null, null],
      doubts: [{ code: 'status', channel: 0, value: 1.5 }],
    });
    // Bits beyond the mask say nothing.
    expect(translate([answer(0, 1, 3, 6, 0x3f, 0xc0, 0, 0, 0, 0x10)]).counts[0]).toBe(150_000);
    expect(translate([answer(0, 1, 3, 6, 0x7f, 0xc0, 0, 0, 0, 0)])).toMatchObject({
      doubts: [{ code: 'no-number', channel: 0 }],
    });
  });

  it('a wrong word order shows no zero', () => {
    const [p, t] = busMap().channels;
    const swapped = createTranslate(busMap({ channels: [{ ...p!, order: 'cdab' }, t!] }));
    expect(swapped([pressure])).toMatchObject({
      counts: [null, null],
      doubts: [{ code: 'no-number', channel: 0 }],
    });
  });

  it('a wrong unit is told: far outside of the span', () => {
    const wrong = createTranslate(busMap({ channels: [{ ...busMap().channels[0]!, unit: 'MPa' }] }));
    expect(wrong([pressure])).toMatchObject({
      counts: [1_500_000],
      doubts: [{ code: 'outside', channel: 0, value: 1.5 }],
    });
  });

  it('is not led astray by bytes that are no answer to what was asked', () => {
    const broken = { ask: 0, bytes: pressure.bytes.map((b, i) => (i === 5 ? 1 : b)) };
    expect(translate([broken, { ask: 9, bytes: pressure.bytes }])).toEqual({
      counts: [null, null],
      doubts: [],
    });
  });
});

describe('a plain line by the map', () => {
  const translate = createTranslate(lineMap());

  it('gives counts, and says what is missing', () => {
    expect(translate(line('1.25,22.5\n')).counts).toEqual([125_000, 22_500]);
    expect(translate(line('1.25,nan\n'))).toEqual({
      counts: [125_000, null],
      doubts: [{ code: 'missing', channel: 1, value: null }],
    });
  });

  it('absurd numbers are no counts', () => {
    expect(translate(line('1e300,22.5\n'))).toMatchObject({ counts: [null, 22_500] });
    expect(translate(line('40,22.5\n')).doubts).toEqual([{ code: 'outside', channel: 0, value: 40 }]);
  });
});

describe('the hello in the place of a source', () => {
  it('names the map, and has digital channels in Pa and m°C', () => {
    const { hello, channels } = introduce(busMap(), 77, 1234);
    expect(hello).toMatchObject({
      deviceId: 'BUS-1',
      firmware: 'registers',
      bootId: 77,
      channels: 2,
      maxRateHz: 20,
    });
    expect(channels[0]).toMatchObject({
      quantity: 'press',
      signal: 'digital',
      rawLo: 0,
      rawHi: 400_000,
      elHi: 400_000,
      rangeHi: 400_000,
      rateMilliHz: 20_000,
    });
    expect(channels[1]).toMatchObject({
      quantity: 'temp',
      place: 'sleeve',
      rawHi: 150_000,
      rateMilliHz: 2000,
    });
  });

  it('whole registers are as coarse as they are: tenths of a degree over 150 are 1500 steps', () => {
    expect(introduce(busMap(), 1, 0).channels[1]!.bits).toBe(10);
    const fine = busMap({ channels: [{ ...blankRegister('pressure'), type: 'int16', unit: 'mbar' }] });
    // 4000 steps of a millibar.
    expect(introduce(fine, 1, 0).channels[0]!.bits).toBe(11);
  });

  it('a bus that cannot carry the rate says what it can', () => {
    const { hello } = introduce(
      busMap({ baud: 9600, channels: [{ ...blankRegister('pressure'), everyMs: 10 }] }),
      1,
      0,
    );
    expect(hello.maxRateHz).toBe(37);
  });
});
