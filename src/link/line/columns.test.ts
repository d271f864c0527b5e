import { describe, expect, it } from 'vitest';
import { lineMap } from '../../job/testing/maps.ts';
import { cellsOf, numbersOf } from './columns.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const short = (text: string, decimal: 'point' | 'comma' = 'point') =>
  cellsOf(bytes(text), decimal).map((c) => (c.key === '' ? c.value : `${c.key}=${c.value}`));
const numbers = (text: string, part: Parameters<typeof lineMap>[0] = {}) =>
  numbersOf(lineMap(part), cellsOf(bytes(text), part.decimal ?? 'point'));

describe('cells of a line', () => {
  it('columns by comma, semicolon, tab or blanks', () => {
    for (const text of ['1.25,22.5\r\n', '1.25;22.5', '1.25\t22.5', ' 1.25   22.5 ', '1.25, 22.5'])
      expect(short(text)).toEqual([1.25, 22.5]);
  });

  it('pairs by name, with = or :, blanks beside them or none, and a unit behind the number', () => {
    expect(short('p=1.25 t=22.5')).toEqual(['p=1.25', 't=22.5']);
    expect(short('p : 1.25bar, t = 22.5°C')).toEqual(['p=1.25', 't=22.5']);
  });

  it('a comma before the decimals', () => {
    expect(short('1,25;22,5', 'comma')).toEqual([1.25, 22.5]);
    expect(short('p=1,25 t=22,5', 'comma')).toEqual(['p=1.25', 't=22.5']);
  });

  it('what is no number is none, and no digits are taken out of words', () => {
    expect(short('nan,ERR,12x34,1.2.3,--5,0x1F,1e3,-0.5')).toEqual([
      null,
      null,
      null,
      null,
      null,
      null,
      1000,
      -0.5,
    ]);
  });
});

describe('numbers of a map’s channels', () => {
  it('by column', () => {
    expect(numbers('1.25,22.5')).toEqual([1.25, 22.5]);
  });

  it('a line with another number of columns is not read: nobody knows which one came or went', () => {
    expect(numbers('7,1.25,22.5')).toEqual([null, null]);
    expect(numbers('1.25')).toEqual([null, null]);
  });

  it('by name, wherever it stands; one that stands twice is none, one that is missing may come in another line', () => {
    const [p, t] = lineMap().channels;
    const named = {
      cells: null,
      channels: [
        { ...p!, key: 'p', column: null },
        { ...t!, key: 't', column: null },
      ],
    };
    expect(numbers('t=22.5 n=7 p=1.25', named)).toEqual([1.25, 22.5]);
    expect(numbers('t=22.5', named)).toEqual([undefined, 22.5]);
    expect(numbers('p=1 p=2 t=22.5', named)).toEqual([null, 22.5]);
  });
});
