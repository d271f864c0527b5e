import { beforeEach, expect, it } from 'vitest';
import { createPressGuard, REST_MS } from './press-guard.ts';

let time = 0;
const at = (ms: number) => {
  time = ms;
};
beforeEach(() => at(0));
const guard = () => createPressGuard(REST_MS, () => time);

it('what has always stood there takes a press at once', () => {
  const g = guard();
  g.begun();
  expect(g.meant()).toBe(true);
});

it('what has just come takes none before it can be seen', () => {
  const g = guard();
  at(1000);
  g.changed();
  at(1699);
  g.begun();
  expect(g.meant()).toBe(false);
  at(1700);
  g.begun();
  expect(g.meant()).toBe(true);
});

it('a press that began before is none, however late it ends', () => {
  const g = guard();
  at(900);
  g.begun();
  at(1000);
  g.changed();
  at(5000);
  expect(g.meant()).toBe(false);
  // The next one is its own.
  g.begun();
  expect(g.meant()).toBe(true);
});

it('a press without a begin began now', () => {
  const g = guard();
  at(1000);
  g.changed();
  at(1500);
  expect(g.meant()).toBe(false);
  at(1800);
  expect(g.meant()).toBe(true);
});
