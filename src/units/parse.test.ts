import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatNumber, METRIC, show } from './display.ts';
import { parseNumber, parseQuantity } from './parse.ts';

const value = (text: string) => {
  const r = parseNumber(text);
  return r.ok ? r.value : r.code;
};

describe('typed numbers', () => {
  it.each([
    ['1.5', 1.5],
    ['1,5', 1.5],
    [' 12 ', 12],
    ['.5', 0.5],
    ['5.', 5],
    ['-3', -3],
    ['\u22123,25', -3.25],
    ['+7', 7],
    ['-0', 0],
    ['', 'empty'],
    ['   ', 'empty'],
    ['1,234.5', 'grouped'],
    ['1.234.567', 'grouped'],
    ['1e3', 'not-a-number'],
    ['0x10', 'not-a-number'],
    ['Infinity', 'not-a-number'],
    ['.', 'not-a-number'],
    ['--1', 'not-a-number'],
    ['1 2', 'not-a-number'],
    ['1234567890123456', 'not-a-number'],
  ] as const)('%j', (text, expected) => {
    expect(value(text)).toBe(expected);
  });

  it('reads back what formatting wrote', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e8, max: 1e8 }), fc.constantFrom('point', 'comma'), (n, mark) => {
        expect(value(formatNumber(n / 1000, 3, mark))).toBe(n / 1000 || 0);
      }),
      { seed: 3 },
    );
  });
});

describe('typed quantities', () => {
  const US = { pressure: 'psi', temperature: 'F', length: 'in' } as const;
  it('counts in the user\u2019s unit unless another is written', () => {
    expect(parseQuantity('1,5', 'pressure', METRIC)).toEqual({ ok: true, value: 1.5 });
    expect(parseQuantity('22 psi', 'pressure', METRIC)).toMatchObject({ value: expect.closeTo(1.516847, 6) });
    expect(parseQuantity('150kPa', 'pressure', METRIC)).toMatchObject({ value: expect.closeTo(1.5, 12) });
    expect(parseQuantity('1.5 bar', 'pressure', US)).toEqual({ ok: true, value: 1.5 });
    expect(parseQuantity('50', 'temperature', US)).toMatchObject({ value: expect.closeTo(10, 12) });
    expect(parseQuantity('-40 °F', 'temperature', METRIC)).toMatchObject({ value: expect.closeTo(-40, 12) });
    expect(parseQuantity('6"', 'length', METRIC)).toMatchObject({ value: expect.closeTo(152.4, 12) });
    expect(parseQuantity('2 mbar/min', 'pressureRate', US)).toMatchObject({ value: 2 });
    expect(parseQuantity('0.5 m³', 'volume', METRIC)).toEqual({ ok: true, value: 500 });
  });

  it('never mixes kinds', () => {
    expect(parseQuantity('10 °C', 'pressure', METRIC)).toEqual({ ok: false, code: 'unit' });
    expect(parseQuantity('10 bar', 'temperature', METRIC)).toEqual({ ok: false, code: 'unit' });
    expect(parseQuantity('10 constructor', 'pressure', METRIC)).toEqual({ ok: false, code: 'unit' });
    expect(parseQuantity('bar', 'pressure', METRIC)).toEqual({ ok: false, code: 'not-a-number' });
    expect(parseQuantity('', 'pressure', METRIC)).toEqual({ ok: false, code: 'empty' });
  });

  it('show and parse undo each other', () => {
    const s = show('pressure', 1.37, US, 'comma', 4);
    expect(parseQuantity(`${s.number} ${s.unit}`, 'pressure', METRIC)).toMatchObject({
      value: expect.closeTo(1.37, 5),
    });
  });
});
