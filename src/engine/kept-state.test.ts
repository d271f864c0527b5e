import { expect, it } from 'vitest';
import { HEAD } from '../record/testing/arbitrary.ts';
import { createRun } from './core.ts';
import { isLike, keptState, STATE_FORM, takeUp } from './kept-state.ts';

it('is like what was kept up to the last digits, and in whole numbers, names and lengths to the letter', () => {
  const kept = { a: 3, b: [0.1, 1e-15, null], c: 'x', d: { e: true } };
  expect(isLike({ d: { e: true }, c: 'x', b: [0.1 + 1e-12, 0, null], a: 3, gone: undefined }, kept)).toBe(
    true,
  );
  // One of two engines may come out whole.
  expect(isLike({ a: 3 + 4e-15 }, { a: 3 })).toBe(true);
  for (const other of [
    { ...kept, a: 4 },
    { ...kept, b: [0.100001, 0, null] },
    { ...kept, b: [0.1, 0] },
    { ...kept, b: { 0: 0.1, 1: 0, 2: null } },
    { ...kept, c: 'y' },
    { ...kept, d: {} },
    { ...kept, more: 1 },
    JSON.parse('{"__proto__": {"a": 3}}'),
    null,
  ])
    expect(isLike(other, kept)).toBe(false);
});

it('is gone on from at its own time and in its own run alone', () => {
  const run = { ...createRun(HEAD), nowUs: 250_000, nextTick: 3 };
  const state = JSON.parse(JSON.stringify(keptState(run, 16_000)));
  expect(takeUp(state, 250_000, HEAD.runId)).toMatchObject({ nowUs: 250_000 });
  expect(takeUp(state, 260_000, HEAD.runId)).toBeNull();
  expect(takeUp(state, 250_000, 'other')).toBeNull();
  expect(takeUp({ ...state, form: STATE_FORM + 1 }, 250_000, HEAD.runId)).toBeNull();
  // Ticks without end.
  expect(takeUp({ ...state, run: { ...state.run, nextTick: -1e15 } }, 250_000, HEAD.runId)).toBeNull();
  expect(takeUp({ ...state, run: {} }, 250_000, HEAD.runId)).toBeNull();
});
