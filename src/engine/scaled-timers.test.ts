import { expect, it } from 'vitest';
import { createManualTimers, settle } from '../link/testing/timers.ts';
import { createScaledTimers } from './scaled-timers.ts';

it('a scaled second is shorter, and a change of speed moves what is pending', async () => {
  const base = createManualTimers(5_000_000);
  const timers = createScaledTimers(base);
  const fired: string[] = [];
  timers.after(1000, () => fired.push('a'));
  const cancel = timers.after(1000, () => fired.push('never'));
  cancel();
  await base.run(500);
  expect(timers.nowUs()).toBe(5_500_000);
  timers.setSpeed(10, false);
  await base.run(49);
  expect(fired).toEqual([]);
  await base.run(2);
  expect(fired).toEqual(['a']);
  expect(timers.nowUs()).toBe(6_010_000);
  timers.setSpeed(1, false);
  await base.run(1000);
  expect(timers.nowUs()).toBe(7_010_000);
  expect(() => timers.setSpeed(0, false)).toThrow(RangeError);
});

/** A platform that is busy: its clock runs, its timers wait until it is let go. */
function busyBase() {
  let now = 0;
  const due = new Map<number, { atUs: number; call: () => void }>();
  let key = 0;
  return {
    nowUs: () => now,
    after(ms: number, call: () => void) {
      const id = key++;
      due.set(id, { atUs: now + ms * 1000, call });
      return () => void due.delete(id);
    },
    pass: (ms: number) => {
      now += ms * 1000;
    },
    async letGo() {
      for (const [id, timer] of [...due]) {
        if (timer.atUs > now) continue;
        due.delete(id);
        timer.call();
      }
      for (let i = 0; i < 200; i++) await settle();
    },
  };
}

it('simulated time passes in steps: a late platform timer is no pause, and calls keep their order', async () => {
  const base = busyBase();
  const timers = createScaledTimers(base);
  timers.setSpeed(60, true);
  const at: number[] = [];
  const sample = (): void => {
    at.push(Math.round(timers.nowUs() / 1000));
    timers.after(10, sample);
  };
  timers.after(10, sample);
  const answered: number[] = [];
  timers.after(15, () => void Promise.resolve().then(() => answered.push(timers.nowUs() / 1000)));
  base.pass(40); // 2.4 simulated seconds in which nothing could run
  expect(timers.nowUs()).toBe(10_000);
  await base.letGo();
  expect(at.slice(0, 4)).toEqual([10, 20, 30, 40]);
  expect(at.at(-1)).toBe(2400);
  for (let i = 1; i < at.length; i++) expect(at[i]! - at[i - 1]!).toBe(10);
  expect(answered).toEqual([15]);
});

it('simulated time that the machine has no time for is not caught up with: the pace sinks', async () => {
  const base = busyBase();
  const timers = createScaledTimers(base);
  timers.setSpeed(10, true);
  let calls = 0;
  const work = (): void => {
    calls++;
    base.pass(5); // dearer than the 1 ms that it has
    timers.after(10, work);
  };
  timers.after(10, work);
  base.pass(1000);
  await base.letGo();
  expect(calls).toBeLessThan(10);
  expect(timers.nowUs()).toBeLessThan(100_000);
  base.pass(50);
  expect(timers.nowUs()).toBeLessThan(200_000);
});

it('in real time a late call is late', async () => {
  const base = busyBase();
  const timers = createScaledTimers(base);
  let atUs = 0;
  timers.after(10, () => {
    atUs = timers.nowUs();
  });
  base.pass(700);
  await base.letGo();
  expect(atUs).toBe(700_000);
});
