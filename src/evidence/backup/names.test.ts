import { expect, it } from 'vitest';
import { namesRun, otherName } from './names.ts';

it('a run is kept under its id, or beside another of its id, and under no other name', () => {
  const long = 'r'.repeat(64);
  for (const id of ['run-1', long]) {
    const beside = otherName(id, 'ab'.repeat(32));
    expect(beside.length).toBeLessThanOrEqual(64);
    expect([namesRun(id, id), namesRun(beside, id)]).toEqual([true, true]);
    // Restored from a backup of the tablet where it was kept beside, it keeps to one mark.
    expect(otherName(beside, 'ab'.repeat(32))).toBe(beside);
  }
  expect(namesRun('run-2', 'run-1')).toBe(false);
  expect(namesRun('run-1', `run-1-b${'a'.repeat(10)}`)).toBe(false);
  expect(namesRun(`run-2-b${'a'.repeat(10)}`, 'run-1')).toBe(false);
});
