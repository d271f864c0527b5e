import { describe, expect, it } from 'vitest';
import {
  blankPacker,
  type ConditionEntry,
  type PackerDocument,
  packerSchema,
} from '../job/packer-document.ts';
import { Notes } from './notes.ts';
import {
  cycleEntries,
  overRatedUninspected,
  planPackerHistory,
  reviewPacker,
  withEntries,
  withOverRated,
  withoutRun,
} from './packer-history.ts';

const ISO = (day: number) => new Date(Date.parse('2026-03-01') + day * 86_400_000).toISOString().slice(0, 10);
const cycle = (day: number, leakMbarPerMin: number | null) => ({
  runId: `r${day}`,
  date: ISO(day),
  peakBar: 1.52,
  leakMbarPerMin,
  minutes: 130,
});
const seen = { damage: false, by: 'A.B.', note: '' };
const packer = (
  conditions: readonly ConditionEntry[],
  part: Partial<PackerDocument> = {},
): PackerDocument => ({
  ...blankPacker('P 100-150'),
  earlierCycles: 41,
  conditions: [...conditions],
  ...part,
});
const said = (p: PackerDocument) => {
  const notes = new Notes();
  planPackerHistory(p, notes);
  return [...notes.refusals, ...notes.warnings].map((n) => n.code);
};

describe('putting a packer away', () => {
  it('writes the cycle and what was found, in the form of the log', () => {
    const entries = cycleEntries(
      { ...cycle(0, 0.31499), peakBar: 1.52349, minutes: 131.4 },
      { damage: true, by: 'A.B.', note: 'cut, 4 mm' },
    );
    expect(entries).toMatchObject([
      { what: 'cycle', peakBar: 1.523, minutes: 131, runId: 'r0', note: '' },
      { what: 'damage', peakBar: null, note: 'cut, 4 mm', by: 'A.B.', runId: 'r0' },
    ]);
    expect(entries[0]!.leakMbarPerMin).toBeCloseTo(0.31, 9);
    expect(packerSchema.safeParse(packer(entries)).success).toBe(true);
  });

  it('figures that no log can hold are brought into it, unknown ones stay unknown', () => {
    const wild = { ...cycle(0, Number.NaN), peakBar: 99, minutes: null };
    const entries = cycleEntries(wild, { ...seen, note: 'x'.repeat(999), by: 'y'.repeat(999) });
    expect(entries[0]).toMatchObject({ peakBar: 30, leakMbarPerMin: null, minutes: null });
    expect(packerSchema.safeParse(packer(entries)).success).toBe(true);
  });

  it('a full log lets its oldest go and forgets no cycle', () => {
    let p = packer([]);
    for (let d = 0; d < 503; d++) p = withEntries(p, cycleEntries(cycle(d, 0.2), seen));
    expect(p.conditions).toHaveLength(1000);
    expect(reviewPacker(p).cycles).toBe(41 + 503);
    expect(packerSchema.safeParse(p).success).toBe(true);
  });

  it('what was logged for a run can be taken back', () => {
    const p = withEntries(packer(cycleEntries(cycle(1, 0.2), seen)), cycleEntries(cycle(2, 0.2), seen));
    expect(withoutRun(p, 'r2').conditions).toEqual(cycleEntries(cycle(1, 0.2), seen));
  });

  it('counts its cycles and follows the leak since the last repair', () => {
    const before = cycleEntries(cycle(0, 6), seen);
    const repaired: ConditionEntry = { ...before[1]!, what: 'repaired', date: ISO(1) };
    const after = [10, 20, 30].flatMap((d) => cycleEntries(cycle(d, 0.2), seen));
    const h = reviewPacker(packer([...before, repaired, ...after]));
    expect(h.cycles).toBe(45);
    expect(h.logged).toHaveLength(4);
    expect(h.leak).toMatchObject({ jobs: 3, now: 0.2 });
    expect(h.unseen).toBe(false);
  });
});

describe('at planning', () => {
  it('a packer that nobody looked at since its last cycle is told', () => {
    const [only] = cycleEntries(cycle(0, 0.2), seen);
    expect(said(packer([only!]))).toEqual(['packer-unseen']);
    expect(said(packer(cycleEntries(cycle(0, 0.2), seen)))).toEqual([]);
    expect(said(packer([]))).toEqual([]);
  });

  it('damage warns, retirement refuses, and a repair makes good', () => {
    const damaged = cycleEntries(cycle(0, 0.2), { ...seen, damage: true });
    expect(said(packer(damaged))).toEqual(['packer-damaged']);
    expect(said(packer([...damaged, { ...damaged[1]!, what: 'repaired' }]))).toEqual([]);
    expect(said(packer([], { retired: true }))).toEqual(['packer-retired']);
    expect(said(packer([{ ...damaged[1]!, what: 'retired' }]))).toEqual(['packer-retired']);
  });

  it('a packer that was over its rating is told until somebody has inspected or repaired it', () => {
    const run = { runId: 'r9', date: ISO(9), peakBar: 2.3004 };
    const over = withOverRated(packer([]), run)!;
    expect(over.conditions).toMatchObject([{ what: 'over-rated', peakBar: 2.3, runId: 'r9' }]);
    expect(packerSchema.safeParse(over).success).toBe(true);
    expect(said(over)).toEqual(['packer-over-rated']);
    // The run has one such line, with its highest pressure.
    expect(withOverRated(over, { ...run, peakBar: 2.2 })).toBeNull();
    expect(withOverRated(over, { ...run, peakBar: 2.4 })?.conditions).toMatchObject([{ peakBar: 2.4 }]);
    // What is logged when it is put away clears it, if nobody found damage; taken back, it stands again.
    const cycles = cycleEntries({ ...cycle(9, 0.2), runId: 'r9' }, seen);
    const looked = withEntries(over, cycles);
    expect(said(looked)).toEqual([]);
    expect(said(withoutRun(looked, 'r9'))).toEqual(['packer-over-rated']);
    expect(said(withEntries(over, cycles.slice(0, 1)))).toEqual(['packer-over-rated', 'packer-unseen']);
    const damaged = withEntries(over, cycleEntries(cycle(9, 0.2), { ...seen, damage: true }));
    expect(said(damaged)).toEqual(['packer-damaged', 'packer-over-rated']);
    expect(overRatedUninspected(withEntries(damaged, [{ ...cycles[1]!, what: 'repaired' }]))).toBeNull();
    // Another one after the inspection counts anew, and hides no damage.
    expect(overRatedUninspected(withOverRated(looked, { ...run, runId: 'r10' })!)?.runId).toBe('r10');
    expect(said(withOverRated(damaged, { ...run, runId: 'r10' })!)).toContain('packer-damaged');
  });

  it('a leak that grows is told, one that scatters or falls is not', () => {
    const over = (leaks: readonly number[]) =>
      packer(leaks.flatMap((l, i) => cycleEntries(cycle(10 * i, l), seen)));
    expect(said(over([0.2, 0.6, 1.0, 1.4]))).toEqual(['packer-leak-grows']);
    expect(said(over([0.2, 0.3, 0.2, 0.25, 0.2, 4]))).toEqual(['packer-leak-grows']);
    expect(said(over([0.3, 0.1, 0.4, 0.2]))).toEqual([]);
    expect(said(over([1.4, 1.0, 0.6, 0.2]))).toEqual([]);
  });
});
