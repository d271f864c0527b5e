import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDocument, parseReadingMap } from './documents.ts';
import { blankColumnMap, blankRegister, blankRegisterMap, type RegisterChannel } from './reading-map.ts';
import { busMap, lineMap } from './testing/maps.ts';

const issues = (input: unknown): string[] => {
  const parsed = parseReadingMap(input);
  return parsed.ok ? [] : parsed.issues.map((i) => `${i.path}: ${i.code}`);
};
const rows = (...channels: Partial<RegisterChannel>[]) =>
  busMap({ channels: channels.map((c) => ({ ...blankRegister('pressure'), ...c })) });

describe('a register map', () => {
  it('is taken as it is made', () => {
    expect(issues(blankRegisterMap('x'))).toEqual([]);
    expect(issues(busMap())).toEqual([]);
    expect(parseDocument('registers', busMap()).ok).toBe(true);
  });

  it('that of docs/register-map.md: 40001 and 40010 counted from 0, bits 0 to 2 as one number', () => {
    const file = new URL('../../fixtures/maps/invented-transmitter.json', import.meta.url);
    const parsed = parseDocument('registers', JSON.parse(readFileSync(file, 'utf8')));
    expect(parsed.ok && parsed.value.channels).toMatchObject([
      { address: 17, fn: 3, register: 40_001 - 40_001, order: 'cdab', type: 'float32', lo: 0, hi: 6 },
    ]);
    expect(parsed.ok && parsed.value.channels[0]?.status).toEqual({
      register: 40_010 - 40_001,
      mask: 2 ** 0 + 2 ** 1 + 2 ** 2,
      good: 0,
    });
  });

  it('two values in the same registers are refused, also a status inside a value', () => {
    expect(issues(rows({}, { register: 1, type: 'int16' }))).toEqual(['channels: overlap']);
    expect(issues(rows({ status: { register: 1, mask: 1, good: 0 } }))).toEqual(['channels: overlap']);
    // Another unit, another function, the next register: each is its own.
    expect(issues(rows({}, { address: 2 }, { fn: 4 }, { register: 2 }))).toEqual([]);
  });

  it('registers beyond the last, addresses that no unit has', () => {
    expect(issues(rows({ register: 65_535 }))).toEqual(['channels.0.register: past-end']);
    expect(issues(rows({ register: 65_535, type: 'uint16' }))).toEqual([]);
    expect(issues(rows({ register: 65_536 }))).toContain('channels.0.register: too-high');
    expect(issues(rows({ address: 0 }))).toEqual(['channels.0.address: too-low']);
    expect(issues(rows({ address: 248 }))).toEqual(['channels.0.address: too-high']);
  });

  it('units that measure something else, a span upside down, a scale of nothing, a status that never holds', () => {
    expect(issues(rows({ unit: 'C' }))).toEqual(['channels.0.unit: pair']);
    expect(issues(rows({ lo: 4, hi: 0 }))).toEqual(['channels.0.hi: pair']);
    expect(issues(rows({ scale: 0 }))).toEqual(['channels.0.scale: pair']);
    expect(issues(rows({ status: { register: 9, mask: 1, good: 2 } }))).toEqual(['channels.0.status: pair']);
  });

  it('without a pressure nothing is guarded', () => {
    // A second adapter's, beside the device with the pressure.
    expect(issues(busMap({ channels: [blankRegister('temperature')] }))).toEqual([]);
    expect(issues(busMap({ channels: [] }))).toEqual(['channels: too-few']);
  });
});

describe('a column map', () => {
  it('is taken as it is made', () => {
    expect(issues(blankColumnMap('x'))).toEqual([]);
    expect(issues(lineMap())).toEqual([]);
  });

  it('a row has a name or a column, and no column that the line has not', () => {
    const [p, t] = lineMap().channels;
    expect(issues(lineMap({ channels: [{ ...p!, key: 'p' }] }))).toEqual(['channels.0.column: pair']);
    expect(issues(lineMap({ channels: [p!, { ...t!, column: 1 }] }))).toEqual(['channels: duplicate']);
    expect(issues(lineMap({ cells: 1 }))).toEqual(['cells: pair']);
  });
});

it('what is neither kind is refused', () => {
  expect(issues({ is: 'coils' })).toEqual(['is: not-one-of']);
  expect(issues(null)).toEqual(['is: not-one-of']);
});
