import { expect, it } from 'vitest';
import { createClock } from './clock.ts';

function bench() {
  let realMs = 1000;
  const timers = new Map<number, { atMs: number; call: () => void }>();
  let id = 0;
  const clock = createClock({
    nowMs: () => realMs,
    setTimeout: (call, ms) => {
      timers.set(++id, { atMs: realMs + ms, call });
      return id;
    },
    clearTimeout: (n) => timers.delete(n),
    turn: () => Promise.resolve(),
  });
  const go = (ms: number) => {
    const toMs = realMs + ms;
    for (;;) {
      const next = [...timers].sort((a, b) => a[1].atMs - b[1].atMs).find(([, t]) => t.atMs <= toMs);
      if (next === undefined) break;
      timers.delete(next[0]);
      realMs = Math.max(realMs, next[1].atMs);
      next[1].call();
    }
    realMs = toMs;
  };
  return { clock, go };
}

it('goes with the platform until it is held, and stands still then', () => {
  const { clock, go } = bench();
  const seen: number[] = [];
  clock.after(30, () => seen.push(clock.nowMs()));
  clock.after(50, () => seen.push(clock.nowMs()));
  go(40);
  expect(seen).toEqual([1030]);
  clock.hold();
  go(5000);
  expect(seen).toEqual([1030]);
  expect(clock.nowMs()).toBe(1040);
});

it('passes as it is told: each call at its own moment, in order, what they arm among them', async () => {
  const { clock } = bench();
  clock.hold();
  const seen: string[] = [];
  const say = (what: string) => seen.push(`${what} ${clock.nowMs()}`);
  clock.after(20, () => {
    say('b');
    clock.after(5, () => say('c'));
  });
  clock.after(10, () => say('a'));
  const kept = clock.after(15, () => say('never'));
  clock.cancel(kept);
  clock.after(26, () => say('later'));
  expect(await clock.pass(25)).toBe(false);
  expect(seen).toEqual(['a 1010', 'b 1020', 'c 1025']);
  expect(clock.nowMs()).toBe(1025);
});

it('stops where it is asked to, at the moment of the call that made it so', async () => {
  const { clock } = bench();
  clock.hold();
  let n = 0;
  clock.after(10, () => n++, 10);
  expect(await clock.pass(1000, () => n === 3)).toBe(true);
  expect(clock.nowMs()).toBe(1030);
});

it('gives the next turn to what asks for no time, though time stands still', async () => {
  const { clock } = bench();
  clock.hold();
  const seen: number[] = [];
  clock.after(0, () => seen.push(clock.nowMs()));
  clock.after(1, () => seen.push(-1));
  await Promise.resolve();
  await Promise.resolve();
  expect(seen).toEqual([1000]);
});
