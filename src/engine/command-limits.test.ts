import { describe, expect, it } from 'vitest';
import { ENTRIES, MOST_TEXT } from '../job/entries.ts';
import type { Command } from '../watch/inputs.ts';
import { checkCommand } from './command-limits.ts';

const WITH: Readonly<Record<keyof typeof ENTRIES, (value: number) => Command>> = {
  gaugeBar: (bar) => ({ c: 'gauge', bar }),
  thermometerC: (thermometerC) => ({ c: 'warm-check', place: 'sleeve', thermometerC }),
  shelvedS: (seconds) => ({ c: 'shelve', alarm: 'leaking', seconds, reason: 'test' }),
};

describe('a command before it is logged', () => {
  it.each(Object.entries(ENTRIES))('%s is held to the bounds that its field shows', (entry, { lo, hi }) => {
    const command = WITH[entry as keyof typeof ENTRIES];
    for (const value of [lo, hi, (lo + hi) / 2]) expect(checkCommand(command(value))).toEqual(command(value));
    for (const value of [lo - 0.001, hi + 0.001, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => checkCommand(command(value))).toThrow(`is not ${lo} to ${hi}`);
  });

  it('holds a text to what a record takes', () => {
    expect(() => checkCommand({ c: 'note', text: 'x'.repeat(MOST_TEXT) })).not.toThrow();
    expect(() => checkCommand({ c: 'note', text: 'x'.repeat(MOST_TEXT + 1) })).toThrow('at most 2000');
  });

  it('refuses what it does not know', () => {
    expect(() => checkCommand({ c: 'dance' } as unknown as Command)).toThrow('not known');
    expect(() => checkCommand(null as unknown as Command)).toThrow('not known');
  });
});
