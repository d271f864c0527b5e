import { expect, it } from 'vitest';
import { sampleTasks, workSample } from './samples.ts';

// A slice of tuning seeds: the reported ones stand in docs/validation.md.
it('a batch that takes twice the time is not let down by its count once the sample was felt', () => {
  const [without, withIt] = [false, true].map((sample) =>
    workSample({ probe: 'pipe', seed: 970_003, batch: 2, sample, way: 'sound' }),
  );
  expect(without!.trueS).toBe(withIt!.trueS);
  expect(without!.declaredS.program!).toBeLessThan(without!.trueS!);
  expect(withIt!.declaredS.program!).toBeGreaterThan(1.2 * without!.declaredS.program!);
});

it('each batch is judged with a sample and without', () => {
  const tasks = sampleTasks(0.01).filter((t) => t.way === 'sound');
  expect(tasks.filter((t) => t.sample)).toHaveLength(tasks.length / 2);
});
