import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { english } from '../words/testing/english.ts';
import { looksLikeCsv, pressureStep, readCsv } from './csv.ts';
import { InputFault } from './fault.ts';
import { faultOf } from './testing/fault-of.ts';

describe('reading a CSV trace', () => {
  it('takes the columns in any order, a BOM, CRLF, spaces, empty cells and blank lines at the end', () => {
    const t = readCsv(
      '\uFEFFpressure_bar,time_s,temperature_c_sleeve\r\n0.10, 5.0 ,12.5\r\n,5.5,\r\n0.2,6,13\r\n\r\n',
    );
    expect([...t.s]).toEqual([0, 0.5, 1]);
    expect([...t.bar]).toEqual([0.1, Number.NaN, 0.2]);
    expect(t.temps).toEqual([{ place: 'sleeve', c: Float64Array.of(12.5, Number.NaN, 13) }]);
  });

  it('knows its own kind by the header', () => {
    expect(looksLikeCsv('time_s,pressure_bar\n')).toBe(true);
    expect(looksLikeCsv('pressure_bar,foo\n')).toBe(true);
    expect(looksLikeCsv('S,1,2,3,0,00000000\n')).toBe(false);
    expect(looksLikeCsv('{"time_s": 1}')).toBe(false);
  });

  it.each([
    ['time_s\n0\n', /^row 1: column pressure_bar is missing$/],
    ['pressure_bar\n0\n', /^row 1: column time_s is missing$/],
    ['time_s,pressure_bar,time_s\n0,0,0\n', /^row 1: column "time_s" is there twice$/],
    ['time_s,pressure_bar,humidity\n0,0,0\n', /^row 1: unknown column "humidity"; known are time_s, /],
    ['time_s,pressure_bar,temperature_c_roof\n', /^row 1: unknown column "temperature_c_roof"/],
    ['time_s,pressure_bar\n', /^row 2: no data rows$/],
    ['time_s,pressure_bar\n0,0.1\n1\n', /^row 3: 1 columns, the header has 2$/],
    ['time_s,pressure_bar\n0,0.1\n1,0,1\n', /^row 3: 3 columns, the header has 2$/],
    ['time_s,pressure_bar\n0,0.1\n1,abc\n', /^row 3: pressure_bar "abc" is not a number$/],
    ['time_s,pressure_bar\n0,0.1\n1,0x10\n', /^row 3: pressure_bar "0x10" is not a number$/],
    ['time_s,pressure_bar\n0,0.1\n1,Infinity\n', /^row 3: pressure_bar "Infinity" is not a number$/],
    ['time_s,pressure_bar\n0,0.1\n,0.1\n', /^row 3: time_s is empty$/],
    ['time_s,pressure_bar\n0,0.1\n0,0.1\n', /^row 3: time_s "0" is not later than the row before$/],
    ['time_s,pressure_bar\n5,0.1\n4,0.1\n', /^row 3: time_s "4" is not later than the row before$/],
    // Another unit: not one pressure can be.
    ['time_s,pressure_bar\n0,\n1,1013\n2,1500\n', /^row 3: pressure_bar "1013" is outside -1.05 to 100$/],
    ['time_s,pressure_bar\n0,0.1\n1e12,0.1\n', /^row 3: time_s "1e12" is outside/],
    ['time_s,pressure_bar\n0,\n1,\n', /^rows 2 to the end: pressure_bar is empty in every row$/],
    ['time_s;pressure_bar\n0;0.1\n', /^row 1: unknown column "time_s;pressure_bar"/],
  ])('%j is refused with its row', (text, message) => {
    expect(faultOf(() => readCsv(text))).toMatch(message);
  });

  it('an impossible value is a reading that cannot be used, told with its row; the rest stands', () => {
    const t = readCsv(
      'time_s,temperature_c,pressure_bar\n0,12,0.1\n1,9999,150\n2,,-2\n3,-80,0.2\n4,13,\n5,13,0.3\n',
    );
    expect([...t.bar]).toEqual([0.1, Infinity, Infinity, 0.2, Number.NaN, 0.3]);
    expect([...t.temps[0]!.c]).toEqual([12, Infinity, Number.NaN, Infinity, 13, 13]);
    expect(t.unusable.cells).toBe(4);
    expect(t.unusable.listed.map(({ row, column, said }) => [row, column, said.text(english)])).toEqual([
      [3, 'pressure_bar', 'row 3: pressure_bar "150" is outside -1.05 to 100'],
      [3, 'temperature_c', 'row 3: temperature "9999" is outside -60 to 300'],
      [4, 'pressure_bar', 'row 4: pressure_bar "-2" is outside -1.05 to 100'],
      [5, 'temperature_c', 'row 5: temperature "-80" is outside -60 to 300'],
    ]);
    // The step of the print is that of the values that can be.
    expect(t.printedBar).toBe(0.01);
  });

  it('of many impossible values the first are listed and all are counted', () => {
    const rows = Array.from({ length: 500 }, (_, i) => `${i},${i % 2 === 0 ? 0.1 : 9999}`);
    const { unusable } = readCsv(`time_s,pressure_bar\n${rows.join('\n')}\n`);
    expect(unusable.cells).toBe(250);
    expect(unusable.listed).toHaveLength(100);
  });

  it('never throws anything else, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (tail) => {
        try {
          readCsv(`time_s,pressure_bar\n${tail}`);
        } catch (cause) {
          expect(cause).toBeInstanceOf(InputFault);
          expect((cause as InputFault).text(english)).not.toMatch(/[\r\n]/);
        }
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it('sees the step of a 12-bit converter through the print, and takes the print where none shows', () => {
    const step = 6 / 4095;
    const rows = Array.from({ length: 200 }, (_, i) => `${i},${(((i * 7919) % 5) * step).toFixed(5)}`);
    const t = readCsv(`time_s,pressure_bar\n${rows.join('\n')}\n`);
    expect(pressureStep(t)).toBeCloseTo(step, 4);
    rows[100] = '100,9999';
    expect(pressureStep(readCsv(`time_s,pressure_bar\n${rows.join('\n')}\n`))).toBeCloseTo(step, 4);
    const smooth = Array.from({ length: 200 }, (_, i) => `${i},${(Math.sin(i) + 1).toFixed(5)}`);
    expect(pressureStep(readCsv(`time_s,pressure_bar\n${smooth.join('\n')}\n`))).toBe(1e-5);
  });
});
