import { describe, expect, it } from 'vitest';
import { BATCHES, type CupTask, cupTasks, workCup } from './cups.ts';
import { isEarly } from './sleeves-judge.ts';

// A slice of tuning seeds: the reported ones stand in docs/validation.md.
const SEED = 970_003;
const task = (more: Partial<CupTask>): CupTask => ({
  probe: 'pipe',
  seed: SEED,
  batch: 'usual',
  cup: true,
  known: true,
  fault: 'none',
  ...more,
});

describe('a sleeve with a witness cup', () => {
  it('of a batch at 1.5 times the usual time is early without the cup, and not with it', () => {
    const [without, withIt] = [false, true].map((cup) => workCup(task({ batch: 1.5, cup })));
    expect(without!.trueS).toBe(withIt!.trueS);
    expect(isEarly(without!, 'program')).toBe(true);
    expect(isEarly(withIt!, 'program')).toBe(false);
    expect(withIt!.foundS).not.toBeNull();
    expect(withIt!.foundS!).toBeLessThan(withIt!.halfS!);
    expect(withIt!.times! / 1.5).toBeGreaterThan(0.85);
    expect(withIt!.times! / 1.5).toBeLessThan(1.18);
  });

  it('of a usual batch is called none of it', () => {
    const r = workCup(task({}));
    expect(r.said.at(-1)).toBe('usual');
    expect(r.foundS).toBeNull();
    expect(isEarly(r, 'program')).toBe(false);
  });

  it.each([
    ['in-the-air', /not-of-pot|no-reaction|cooler-than-sleeve|slow/],
    ['other-batch', /not-of-pot|too-early|quick/],
    ['lost', /lost|usual/],
  ] as const)('a cup that is %s is asked about and moves no bound', (fault, words) => {
    const r = workCup(task({ fault }));
    expect(r.said.join(' ')).toMatch(words);
    expect(isEarly(r, 'program')).toBe(false);
  });
});

it('each batch is judged with the cup, the usual one without it too', () => {
  const tasks = cupTasks(0.01).filter((t) => t.fault === 'none' && t.known);
  const of = (cup: boolean) => new Set(tasks.filter((t) => t.cup === cup).map((t) => t.batch));
  expect(of(true)).toEqual(new Set(BATCHES));
  expect(of(false)).toContain('usual');
});
