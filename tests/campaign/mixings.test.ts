import { expect, it } from 'vitest';
import { MIXING_PROBES, mixingTasks, workMixing } from './mixings.ts';
import { isEarly } from './sleeves-judge.ts';

// A slice of tuning seeds: the reported ones stand in docs/validation.md.
const SEEDS = [910_001, 910_002];

it('a sheet that counts from mixing is met sooner than one that does not say, and never before the resin', () => {
  for (const seed of SEEDS)
    for (const probe of MIXING_PROBES) {
      const [plain, counted] = [false, true].map((is) => workMixing({ probe, seed, counted: is }));
      expect(plain!.trueS).toBe(counted!.trueS);
      expect(counted!.declaredS.program!).toBeLessThanOrEqual(plain!.declaredS.program!);
      expect([seed, probe, isEarly(counted!, 'program')]).toEqual([seed, probe, false]);
    }
});

it('each sleeve is judged both ways', () => {
  const tasks = mixingTasks(0.01);
  expect(tasks.filter((t) => t.counted)).toHaveLength(tasks.length / 2);
});
