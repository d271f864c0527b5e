import { describe, expect, it } from 'vitest';
import { lineContradicted } from './contradict.ts';

describe('the declared line against the data', () => {
  it('a regulator that feeds does not let the pressure sink, one that relieves does not let it climb', () => {
    expect(lineContradicted('supplied-relieving', 1.8, 1.65, [], 0)).toBe(true);
    expect(lineContradicted('supplied-relieving', 1.8, 1.95, [], 0)).toBe(true);
    expect(lineContradicted('supplied-nonrelieving', 1.8, 1.65, [], 0)).toBe(true);
    expect(lineContradicted('supplied-nonrelieving', 1.8, 1.95, [], 0)).toBe(false);
    expect(lineContradicted('supplied-relieving', 1.8, 1.75, [], 0)).toBe(false);
  });

  it('a closed line is not filled up again and again', () => {
    expect(lineContradicted('closed', 1.8, 1.2, [100, 200, 300], 400)).toBe(false);
    expect(lineContradicted('closed', 1.8, 1.8, [100, 200, 300, 390], 400)).toBe(true);
    expect(lineContradicted('closed', 1.8, 1.8, [100, 200, 300, 390], 5000)).toBe(false);
  });

  it('an unknown line contradicts nothing', () => {
    expect(lineContradicted('unknown', 1.8, 0.2, [1, 2, 3, 4, 5], 6)).toBe(false);
  });
});
