import { expect, it } from 'vitest';
import { notRun } from '../tests/unit/not-run.ts';
import { compiler, NO_COMPILER } from './build.mjs';
import { runC } from './run-c.mjs';

it('the C reference passes the same vectors and its own guard tests', (context) => {
  if (compiler() === null) notRun(context, NO_COMPILER);
  const { passed, failed, output } = runC();
  expect(failed, output).toBe(0);
  expect(passed).toBeGreaterThan(250);
});
