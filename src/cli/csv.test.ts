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
    ['time_s,pressure_bar\n0,0.1\n1,150\n', /^row 3: pressure_bar "150" is outside -1.05 to 100$/],
    ['time_s,pressure_bar\n0,0.1\n1,-2\n', /^row 3: pressure_bar "-2" is outside/],
    ['time_s,pressure_bar,temperature_c\n0,0.1,9999\n', /^row 2: temperature "9999" is outside -60 to 300$/],
    ['time_s,pressure_bar\n0,\n1,\n', /^rows 2 to the end: pressure_bar is empty in every row$/],
    ['time_s;pressure_bar\n0;0.1\n', /^row 1: unknown column "time_s;pressure_bar"/],
  ])('%j is refused with its row', (text, message) => {
    expect(faultOf(() => readCsv(text))).toMatch(message);
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
    const smooth = Array.from({ length: 200 }, (_, i) => `${i},${(Math.sin(i) + 1).toFixed(5)}`);
    expect(pressureStep(readCsv(`time_s,pressure_bar\n${smooth.join('\n')}\n`))).toBe(1e-5);
  });
});
