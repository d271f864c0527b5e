import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';
import { notRun } from '../../tests/unit/not-run.ts';
import { buildFuzzSlice, compiler, NO_COMPILER } from '../build.mjs';
import { seeds, TARGETS } from './seeds.mjs';

// A slice of the campaign (run.mjs), under the compiler's sanitizers and by a driver that needs no fuzzer.

const INPUTS = { parser: 150_000, encoder: 50_000, device: 75_000 };

it.for(TARGETS)('%s: nothing undefined, nothing lost, nothing said in two ways', (target, context) => {
  if (compiler() === null) notRun(context, NO_COMPILER);
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-fuzz-'));
  try {
    const files = seeds(target).map((bytes, n) => {
      const file = path.join(folder, `seed-${n}`);
      writeFileSync(file, bytes);
      return file;
    });
    expect(files.length).toBeGreaterThan(4);
    const run = spawnSync(buildFuzzSlice(target), [String(INPUTS[target]), '7', ...files], {
      encoding: 'utf8',
    });
    expect([run.stderr, run.status]).toEqual(['', 0]);
    expect(run.stdout).toBe(`${INPUTS[target] + files.length} inputs\n`);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
