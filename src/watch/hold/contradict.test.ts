import { describe, expect, it } from 'vitest';
import type { LineEvidence } from './contradict.ts';
import { lineContradicted } from './contradict.ts';

const QUIET: LineEvidence = {
  line: 'closed',
  startBar: 1.8,
  levelBar: 1.8,
  topUpsS: [],
  nowS: 400,
  loses: false,
  gains: false,
  held: false,
};
const said = (more: Partial<LineEvidence>) => lineContradicted({ ...QUIET, ...more });

describe('the declared line against the data', () => {
  it('a regulator that feeds does not let the pressure sink, one that relieves does not let it climb', () => {
    const relieving = { line: 'supplied-relieving' } as const;
    const feeding = { line: 'supplied-nonrelieving' } as const;
    expect(said({ ...relieving, levelBar: 1.65 })).toBe(true);
    expect(said({ ...relieving, levelBar: 1.95 })).toBe(true);
    expect(said({ ...feeding, levelBar: 1.65 })).toBe(true);
    expect(said({ ...feeding, levelBar: 1.95 })).toBe(false);
    expect(said({ ...relieving, levelBar: 1.75 })).toBe(false);
    // A small fall counts where gas is surely lost.
    expect(said({ ...relieving, levelBar: 1.74, loses: true })).toBe(true);
    expect(said({ ...feeding, levelBar: 1.78, loses: true })).toBe(false);
  });

  it('a closed line is not fed', () => {
    expect(said({ levelBar: 1.2, loses: true })).toBe(false);
    expect(said({ gains: true })).toBe(true);
    expect(said({ held: true })).toBe(true);
    expect(said({ topUpsS: [100, 200, 300] })).toBe(false);
    expect(said({ topUpsS: [100, 200, 300, 390] })).toBe(true);
    // A hand that opens the valve four times for one top-up.
    expect(said({ topUpsS: [380, 384, 389, 395] })).toBe(false);
    expect(said({ topUpsS: [100, 200, 300, 390], nowS: 5000 })).toBe(false);
  });

  it('an unknown line contradicts nothing', () => {
    expect(said({ line: 'unknown', levelBar: 0.2, loses: true, held: true, gains: true })).toBe(false);
  });
});
