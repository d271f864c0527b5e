// npm run check: types, lint, import table, no text that becomes markup. Each runs even when one before it failed.
import { spawnSync } from 'node:child_process';

const steps = [
  ['types', 'npx', ['tsc', '--noEmit']],
  ['lint', 'npx', ['biome', 'check', '--diagnostic-level=error', '.']],
  ['imports', process.execPath, ['tests/tools/imports.mjs']],
  ['markup', process.execPath, ['tests/tools/markup.mjs']],
];
let failed = 0;
for (const [name, command, args] of steps) {
  const { status } = spawnSync(command, args, { stdio: 'inherit' });
  if (status !== 0) {
    failed++;
    console.error(`check: ${name} failed`);
  }
}
process.exit(failed === 0 ? 0 : 1);
