import { expect, it } from 'vitest';
import { createManualTimers } from '../link/testing/timers.ts';
import { createScaledTimers } from './scaledTimers.ts';

it('a scaled second is shorter, and a change of speed moves what is pending', async () => {
  const base = createManualTimers(5_000_000);
  const timers = createScaledTimers(base);
  const fired: string[] = [];
  timers.after(1000, () => fired.push('a'));
  const cancel = timers.after(1000, () => fired.push('never'));
  cancel();
  await base.run(500);
  expect(timers.nowUs()).toBe(5_500_000);
  timers.setSpeed(10);
  await base.run(49);
  expect(fired).toEqual([]);
  await base.run(2);
  expect(fired).toEqual(['a']);
  expect(timers.nowUs()).toBe(6_010_000);
  timers.setSpeed(1);
  await base.run(1000);
  expect(timers.nowUs()).toBe(7_010_000);
  expect(() => timers.setSpeed(0)).toThrow(RangeError);
});
