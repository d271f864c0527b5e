import { describe, expect, it } from 'vitest';
import { blankRegister } from '../../job/reading-map.ts';
import { busMap } from '../../job/testing/maps.ts';
import { asksOf, paceOf } from './asks.ts';

const reg = blankRegister('pressure');
const short = (channels: Parameters<typeof asksOf>[0]['channels']) =>
  asksOf({ channels }).map((a) => `${a.address}/${a.fn}/${a.register}+${a.count}:${a.channels}`);

describe('requests of a map', () => {
  it('a value and the status right behind it are read together, another unit apart', () => {
    expect(short(busMap().channels)).toEqual(['1/3/0+3:0', '2/4/10+1:1']);
  });

  it('what has a gap between is read apart: between them there may be nothing to read', () => {
    expect(short([reg, { ...reg, register: 3, quantity: 'temperature' }])).toEqual([
      '1/3/0+2:0',
      '1/3/3+2:1',
    ]);
    expect(short([reg, { ...reg, register: 2, quantity: 'temperature' }])).toEqual(['1/3/0+4:0,1']);
  });

  it('the first pressure is asked first, wherever it stands', () => {
    expect(
      short([
        { ...reg, quantity: 'temperature', address: 1 },
        { ...reg, address: 9 },
      ]),
    ).toEqual(['9/3/0+2:1', '1/3/0+2:0']);
  });

  it('tells what the bus carries at best beside what is asked for', () => {
    const fast = paceOf(busMap({ baud: 115_200, channels: [{ ...reg, everyMs: 10 }] }));
    const slow = paceOf(busMap({ baud: 9600, channels: [{ ...reg, everyMs: 10 }] }));
    expect(fast.askedHz).toBe(100);
    // 8 + 9 characters of 11 bits, 3 ms for the unit, the silence: 1.62 + 3 + 1.75 ms, and 19.48 + 3 + 4.01 ms.
    expect(fast.mostHz).toBeCloseTo(156.9, 0);
    expect(slow.mostHz).toBeCloseTo(37.7, 0);
  });
});
