/**
 * A small fixed slice of the campaign of holds, with bounds that the full one (docs/validation.md) keeps with room. Seeds
 * are fixed, so that the figures are the same each time; the bounds are what must never be lost.
 */
import { describe, expect, it } from 'vitest';
import { type HoldRecord, type HoldSet, type HoldTask, recordOf, workHold } from './holds.ts';
import { holdsIt, leadOf } from './holds-report.ts';
import { drawHold } from './holds-scenario.ts';
import { runHold } from './holds-world.ts';
import { quantile } from './stats.ts';

function run(set: HoldSet, count: number): HoldRecord[] {
  const out: HoldRecord[] = [];
  for (let i = 0; i < count; i++) out.push(workHold({ set, seed: 300_000 + i }));
  return out.filter((r) => r.played);
}

describe('campaign of holds, a slice', () => {
  it('the interval holds the truth, and is not wider than it need be with a probe in the air', () => {
    const records = run('cover', 18);
    const scored = records.flatMap((r) => r.scored);
    expect(scored.length).toBeGreaterThan(60);
    expect(scored.filter(holdsIt).length / scored.length).toBeGreaterThan(0.88);
    const air = records
      .filter((r) => r.witness === 'air')
      .flatMap((r) => r.scored.filter((s) => s.minute >= 15).map((s) => (s.high - s.low) / 2));
    expect(quantile(air, 0.5)).toBeLessThan(1);
  });

  it('2 mbar/min that begin in a settled hold are called soon, and never before', () => {
    const records = run('later2', 8);
    const called = records.flatMap((r) => (r.afterLeakS === null ? [] : [r.afterLeakS]));
    expect(called.length).toBe(records.length);
    expect(records.some((r) => r.early)).toBe(false);
    expect(quantile(called, 0.5)).toBeLessThanOrEqual(600);
  });

  it('no tight packer is called leaking, after a fast fill, through an exotherm or while the sensor warms', () => {
    for (const set of ['fast', 'exotherm', 'sun'] as const)
      expect(run(set, 6).filter((r) => r.calledS !== null || r.contradicted)).toEqual([]);
  });

  it('neither a puff before a limp packer nor the heat of a fill is taken for a burst', () => {
    for (let i = 0; i < 30; i++) {
      const task: HoldTask = { set: 'cover', seed: 310_000 + i };
      const short = drawHold(task.seed, { fastFill: i % 2 === 0, leakMbarMin: 0, holdS: 120 });
      expect([task.seed, recordOf(task, runHold(short)).fallS]).toEqual([task.seed, null]);
    }
  });

  it('nothing is claimed on a supplied line, and a line that is another one is found out', () => {
    const supplied = run('supplied', 4);
    expect(supplied.some((r) => r.claimed || r.calledS !== null || r.contradicted)).toBe(false);
    const shut = run('shut', 4);
    expect(shut.some((r) => r.claimed)).toBe(false);
    expect(shut.every((r) => r.contradicted)).toBe(true);
    // Half of them: what a pressure does that stands while its gas warms a little may also be the sensor's own warmth.
    expect(run('fed', 6).filter((r) => r.contradicted).length).toBeGreaterThanOrEqual(3);
  });

  it('slow cures are warned of five minutes before the ceiling', () => {
    // Three of the seeds whose pressure passes the ceiling.
    const over = [4, 6, 8].map((i) => workHold({ set: 'lift', seed: 300_000 + i }));
    expect(over.every((r) => r.ceilingS !== null)).toBe(true);
    for (const r of over) expect([r.seed, leadOf(r) >= 300]).toEqual([r.seed, true]);
  });

  it('a supplied line is full when the air is no longer heard to go, not when the needle before the hose stands', () => {
    // Drawn sites that ended with a limp packer.
    for (const [set, seed] of [
      ['fed', 480_026],
      ['supplied', 490_012],
      ['supplied', 490_025],
    ] as const)
      expect(workHold({ set, seed }).played).toBe(true);
  });
});
