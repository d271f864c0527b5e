import { describe, expect, it } from 'vitest';
import { charactersUs, silenceUs } from './timing.ts';

describe('times of the bus', () => {
  it('a character has eleven bits', () => {
    expect(charactersUs({ baud: 9600 }, 1)).toBeCloseTo(1145.8, 1);
  });

  it('3.5 characters of silence, and 1.75 ms over 19 200 baud (Modbus over Serial Line V1.02, 2.5.1.1)', () => {
    expect(silenceUs({ baud: 9600 })).toBeCloseTo(4010.4, 1);
    expect(silenceUs({ baud: 19_200 })).toBeCloseTo(2005.2, 1);
    expect(silenceUs({ baud: 38_400 })).toBe(1750);
    expect(silenceUs({ baud: 115_200 })).toBe(1750);
  });
});
