// Builds and runs the C tests. One line of summary; exit 77 where there is no compiler.

import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { buildTest, compiler, NO_COMPILER } from './build.mjs';

/** @returns {{passed: number, failed: number, output: string}} */
export function runC() {
  let passed = 0;
  let failed = 0;
  let output = '';
  const text = path.join(import.meta.dirname, 'vectors', 'vectors.txt');
  for (const [name, args] of [
    ['vectors', [text]],
    ['guard', []],
    ['device', []],
  ]) {
    const run = spawnSync(buildTest(name), args, { encoding: 'utf8', timeout: 60_000 });
    const counts = /^(\d+) passed, (\d+) failed$/m.exec(run.stdout ?? '');
    output += `${run.stdout ?? ''}${run.stderr ?? ''}`;
    passed += Number(counts?.[1] ?? 0);
    failed += Number(counts?.[2] ?? 0);
    // A runner that died or ran nothing is a failure, whatever it counted.
    if (counts === null || (run.status !== 0 && counts[2] === '0')) failed++;
  }
  return { passed, failed, output };
}

if (import.meta.url === `file://${process.argv[1]}`) {
  if (compiler() === null) {
    console.log(`not run: ${NO_COMPILER}`);
    process.exit(77);
  }
  const { passed, failed, output } = runC();
  if (failed > 0) process.stdout.write(output);
  console.log(`${passed} passed, ${failed} failed`);
  process.exit(failed > 0 ? 1 : 0);
}
