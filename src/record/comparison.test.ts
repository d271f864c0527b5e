import { describe, expect, it } from 'vitest';
import { bytesSource } from './byte-source.ts';
import { Comparison, CsvComparison } from './comparison.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const HEADER = 'time_s,pressure_bar,temperature_c_air,flags,raw_0\r\n';
const rows = Array.from(
  { length: 300 },
  (_, i) => `${i / 50},1.50${String(i).padStart(4, '0')},20.5,0,${9000 + i}\r\n`,
);
const MADE = HEADER + rows.join('');

/** What is made again comes in pieces of whole lines. */
async function compared(there: string) {
  const c = new CsvComparison(bytesSource(bytes(there)));
  await c.take(bytes(HEADER));
  for (let i = 0; i < rows.length; i += 70) await c.take(bytes(rows.slice(i, i + 70).join('')));
  return { difference: c.difference(), apart: c.apart };
}

it('any file: where it differs first, or ends', async () => {
  for (const [there, difference] of [
    ['abcdef', null],
    ['abcdXf', 4],
    ['abcd', 4],
    ['abcdefg', 6],
    ['', 0],
  ] as const) {
    const c = new Comparison(bytesSource(bytes(there)));
    for (const piece of ['abc', 'def']) await c.take(bytes(piece));
    expect(c.difference(), there).toBe(difference);
  }
});

describe('trace.csv', () => {
  it('that is the same, or differs by the rounding of measured values, says the same', async () => {
    expect(await compared(MADE)).toEqual({ difference: null, apart: false });
    for (const [from, to] of [
      ['1.500100', '1.500099'],
      ['1.500290', '1.50029'],
      ['20.5,0,9123', '20.50004,0,9123'],
      ['1.500000,', '1.50001,'],
    ] as const) {
      const there = MADE.replace(from, to);
      expect(there, from).not.toBe(MADE);
      const { difference, apart } = await compared(there);
      expect([difference === null, apart], from).toEqual([false, false]);
    }
  });

  it('with another value, count, flag, line or header is apart, wherever it stands', async () => {
    for (const there of [
      MADE.replace('1.500100', '1.499'),
      MADE.replace('1.500299', '1.300299'),
      MADE.replace('1.500100', ''),
      MADE.replace('1.500100', '1e9'),
      MADE.replace('20.5,0,9123', '21.5,0,9123'),
      MADE.replace('20.5,0,9123', '20.5,1,9123'),
      MADE.replace(',9123', ',9124'),
      MADE.replace('2,1.500100', '2.00001,1.500100'),
      MADE.replace(rows[120]!, ''),
      MADE.replace(rows[299]!, ''),
      MADE.replace(rows[120]!, rows[120]! + rows[120]!),
      `${MADE}${rows[299]}`,
      `${MADE} `,
      MADE.replace('pressure_bar', 'pressure_psi'),
      MADE.replaceAll('\r\n', '\n'),
      '',
      HEADER,
      'x'.repeat(300_000),
    ]) {
      expect(there).not.toBe(MADE);
      expect((await compared(there)).apart).toBe(true);
    }
    // Rounded in one line and cut or forged in a later one.
    const rounded = MADE.replace('1.500010', '1.500011');
    expect((await compared(rounded)).apart).toBe(false);
    expect((await compared(rounded.replace(',9299', ',9298'))).apart).toBe(true);
    expect((await compared(rounded.slice(0, -1))).apart).toBe(true);
    expect((await compared(`${rounded}1`)).apart).toBe(true);
  });
});
