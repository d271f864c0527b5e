// Samples small faults put into the core, one at a time, and runs the tests against each: `npm run mutants -- [options] [room…]`.
// A fault that no test sees is printed with its place. It works on a copy; nothing here is changed.
//
//   --count 60   how many, drawn without repetition over all places of the rooms (watch, link, sensing)
//   --seed 1     the same seed draws the same places of the same code
//   --from 0     goes on in a list that was begun
//   --near       only the tests beside the file and the golden logs: quick, but what lives may be seen by others

import { execFileSync, spawn } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { faultsIn, sample } from './mutations.mjs';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    count: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
    from: { type: 'string', default: '0' },
    near: { type: 'boolean', default: false },
  },
});
const rooms = positionals.length > 0 ? positionals : ['watch', 'link', 'sensing'];
/** A fault that makes a loop endless is seen, too: by the clock. */
const LIMIT_MS = 1_800_000;

/** One process for all files: most of a short test is its start. */
const QUICK = ['--project', 'unit', '--bail', '1', '--pool', 'threads', '--no-isolate'];
const GOLDEN = [
  'src/watch/golden.test.ts',
  'src/watch/guard/golden-fills.test.ts',
  'src/engine/golden.test.ts',
];

const copy = mkdtempSync(path.join(tmpdir(), 'steadybar-mutants-'));
process.on('exit', () => rmSync(copy, { recursive: true, force: true }));
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(1));
const tracked = execFileSync('git', ['ls-files', '-z'], { encoding: 'utf8', maxBuffer: 1 << 26 });
for (const file of tracked.split('\0').filter((name) => name !== '')) {
  mkdirSync(path.join(copy, path.dirname(file)), { recursive: true });
  copyFileSync(file, path.join(copy, file));
}
symlinkSync(path.resolve('node_modules'), path.join(copy, 'node_modules'));

/** @returns {Promise<'passed' | 'failed' | 'endless'>} */
function run(...args) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, ['node_modules/vitest/vitest.mjs', ...args], {
      cwd: copy,
      stdio: 'ignore',
      detached: true,
    });
    let endless = false;
    const timer = setTimeout(() => {
      endless = true;
      process.kill(-child.pid, 'SIGKILL');
    }, LIMIT_MS);
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve(endless ? 'endless' : code === 0 ? 'passed' : 'failed');
    });
  });
}

const files = tracked
  .split('\0')
  .filter((file) => rooms.some((room) => file.startsWith(`src/${room}/`)))
  .filter((file) => /\.ts$/.test(file) && !/\.test\.ts$|\/testing\//.test(file));
const places = files.flatMap((file) =>
  faultsIn(readFileSync(file, 'utf8')).map((fault) => ({ file, ...fault })),
);
const drawn = sample(places, Number(values.count), Number(values.seed));
console.log(
  `${places.length} places in ${files.length} files; ${drawn.length} drawn with seed ${values.seed}`,
);

if ((await run('run', ...QUICK, ...GOLDEN)) !== 'passed') {
  console.error('The tests fail without a fault. Mend that first.');
  process.exit(1);
}

let alive = 0;
for (const [i, { file, line, was, is, text }] of drawn.entries()) {
  if (i < Number(values.from)) continue;
  const target = path.join(copy, file);
  const own = readFileSync(target, 'utf8');
  writeFileSync(target, text);
  // First the tests beside the file, which are quick; then whatever reaches it.
  const beside = `${path.dirname(file)}/`;
  let end = await run('run', ...QUICK, beside, ...GOLDEN);
  if (end === 'passed' && !values.near) end = await run('related', '--run', ...QUICK, file);
  writeFileSync(target, own);
  if (end === 'passed') alive++;
  const told = { passed: 'ALIVE', failed: 'seen', endless: 'seen, endless' }[end];
  console.log(`${String(i).padStart(3)} ${told} ${file}:${line}  ${was}  ->  ${is}`);
}
console.log(`${alive} of ${drawn.length - Number(values.from)} not seen`);
