// npm test: everything, in order of speed, with one closing line `N passed, N failed`.
// node tests/run.mjs [part …]   parts: check unit c campaign boards build browser e2e face engines; none = all.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { APART } from './tools/apart.mjs';
import {
  beginInstall,
  isRoot,
  missingCross,
  missingEngines,
  onPath,
  provideChromium,
  provideCompiler,
  provideFirefox,
  provideTools,
  provideWebKit,
} from './tools/needs.mjs';

const strict = process.env.STEADYBAR_CI === '1' || process.env.CI === 'true';
const asked = process.argv.slice(2);
const wants = (part) => asked.length === 0 || asked.includes(part);
const tally = { passed: 0, failed: 0, notRun: [] };
const started = process.hrtime.bigint();
const seconds = () => Number((process.hrtime.bigint() - started) / 1_000_000n) / 1000;

// A test that never ends is a failure with a line of its own, not a run without an end.
const PART_MINUTES = 20;

/** End to end without a device on a line. */
const SCREENS = [
  'live-face.test.ts',
  'live-keys.test.ts',
  'pair.test.ts',
  'pages.test.ts',
  'practice.test.ts',
  'start.test.ts',
  'walls.test.ts',
];

const BROWSER_PARTS = {
  e2e: 'end to end',
  face: 'looks and access',
  engines: 'other engines (Firefox, WebKit)',
};

mkdirSync('.cache', { recursive: true });

function headline(text) {
  console.log(`\n── ${text} (${seconds().toFixed(0)} s) ${'─'.repeat(Math.max(3, 70 - text.length))}`);
}

function single(name, command, args, env = {}) {
  const { status } = spawnSync(command, args, { stdio: 'inherit', env: { ...process.env, ...env } });
  if (status === 0) tally.passed++;
  else {
    tally.failed++;
    console.log(`failed: ${name}`);
  }
  return status === 0;
}

/** How vitest is run over projects, and where it leaves its own JSON report. */
function vitestRun(projects, { prefix = [], env = {}, name = projects.join('+'), files = [] }) {
  const report = `.cache/vitest-${name}.json`;
  rmSync(report, { force: true });
  const args = [
    'node_modules/vitest/vitest.mjs',
    'run',
    ...projects.flatMap((p) => ['--project', p]),
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...files,
  ];
  const [program, ...rest] = [...prefix, process.execPath, ...args];
  return { name, report, program, args: rest, env: { ...process.env, ...env } };
}

/** Adds up a report; a run that leaves none is a failure. */
function count({ name, report }, { status, late }) {
  if (!existsSync(report)) {
    tally.failed++;
    const why = late ? `did not end in ${PART_MINUTES} min` : `left no report (exit ${status})`;
    console.log(`failed: ${name} ${why}`);
    return;
  }
  const result = JSON.parse(readFileSync(report, 'utf8'));
  tally.passed += result.numPassedTests;
  tally.failed += result.numFailedTests;
  // A file that cannot be loaded has no failed test of its own.
  if (status !== 0 && result.numFailedTests === 0) {
    tally.failed++;
    console.log(`failed: ${name} exit ${status}`);
  }
  if (result.numPassedTests + result.numFailedTests === 0) {
    tally.failed++;
    console.log(`failed: ${name} found no test`);
  }
  for (const file of result.testResults)
    for (const test of file.assertionResults)
      if (test.status !== 'passed' && test.status !== 'failed') tally.notRun.push(`${test.fullName}`);
}

function vitest(projects, options = {}) {
  const run = vitestRun(projects, options);
  const { status, error } = spawnSync(run.program, run.args, {
    stdio: 'inherit',
    env: run.env,
    timeout: PART_MINUTES * 60_000,
  });
  count(run, { status, late: error?.code === 'ETIMEDOUT' });
}

/** What a run says is kept where it is not to be seen at once. */
function vitestChild(run, quiet) {
  return new Promise((resolve) => {
    const stdio = quiet ? ['ignore', 'pipe', 'pipe'] : 'inherit';
    const child = spawn(run.program, run.args, { stdio, env: run.env });
    const said = [];
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (bytes) => said.push(bytes));
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      child.kill('SIGKILL');
    }, PART_MINUTES * 60_000);
    child.on('error', () => resolve({ status: null, late, said }));
    child.on('close', (status) => {
      clearTimeout(timer);
      resolve({ status, late, said });
    });
  });
}

/**
 * Rows of runs side by side, each of which waits most of its time; in a row one follows the other. What the first row says
 * is seen at once, the others' when all have ended.
 */
async function vitestBeside(...rows) {
  const ends = await Promise.all(
    rows.map(async (runs, row) => {
      const ended = [];
      for (const run of runs) ended.push({ run, end: await vitestChild(run, row > 0) });
      return ended;
    }),
  );
  for (const { run, end } of ends.flat()) {
    process.stdout.write(Buffer.concat(end.said));
    count(run, end);
  }
}

const compiler = provideCompiler();
const chromium = provideChromium();
provideTools({
  unshare: 'util-linux',
  ip: 'iproute2',
  openssl: 'openssl',
  sha256sum: 'coreutils',
  pdftoppm: 'poppler-utils',
});
const installed = beginInstall([
  ...(wants('boards') || wants('e2e') ? missingCross() : []),
  ...(wants('engines') ? missingEngines() : []),
]);
const browserEnv = chromium ? { CHROMIUM_PATH: chromium } : {};

if (wants('check')) {
  headline('types, lint, import table');
  single('types', process.execPath, ['node_modules/typescript/bin/tsc', '--noEmit']);
  single('lint', 'npx', ['biome', 'check', '--diagnostic-level=error', '.']);
  single('import table', process.execPath, ['tests/tools/imports.mjs']);
  single('no markup', process.execPath, ['tests/tools/markup.mjs']);
}
if (wants('unit')) {
  headline('unit and component tests');
  vitest(['unit', 'dom', 'dom-words']);
}
if (wants('c')) {
  headline('C reference of the device protocol');
  if (compiler === null) tally.notRun.push('C reference: no C compiler');
  else {
    const run = spawnSync(process.execPath, ['firmware-protocol/run-c.mjs'], { encoding: 'utf8' });
    process.stdout.write(run.stdout + run.stderr);
    const line = /^(\d+) passed, (\d+) failed$/m.exec(run.stdout);
    tally.passed += Number(line?.[1] ?? 0);
    tally.failed += line ? Number(line[2]) : 1;
    if (line && run.status !== 0 && Number(line[2]) === 0) tally.failed++;
  }
}
const NODE_PARTS = {
  campaign: 'campaigns, small fixed slices',
  boards: 'firmware for bare controllers, in simulators',
};
const nodeParts = Object.keys(NODE_PARTS).filter(wants);
if (nodeParts.length > 0) {
  headline(nodeParts.map((part) => NODE_PARTS[part]).join('; '));
  if (wants('boards')) {
    await installed();
    if (missingCross().length > 0) console.log(`not found: install ${missingCross().join(' ')}`);
  }
  vitest(nodeParts);
}
let built = existsSync('dist/index.html');
if (wants('build')) {
  headline('build');
  built = single('build', process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn']);
}
if (wants('browser')) {
  if (chromium === null) tally.notRun.push('browser tests: no Chromium');
  else {
    headline('in Chromium: storage, WebCrypto');
    vitest(['browser'], { env: browserEnv });
  }
}

/** The run in other engines, once they are there; null without any. */
async function enginesRun() {
  await installed();
  const firefox = provideFirefox();
  const webKit = provideWebKit();
  if (firefox === null && webKit === null) {
    tally.notRun.push('tests in other engines: no Firefox, no WebKit');
    return null;
  }
  return vitestRun(['engines'], {
    env: {
      ...(firefox ? { FIREFOX_PATH: firefox } : {}),
      ...(webKit ? { MINIBROWSER_PATH: webKit } : {}),
    },
  });
}

const browserParts = Object.keys(BROWSER_PARTS).filter(wants);
if (browserParts.length > 0) {
  headline(`in browsers: ${browserParts.map((part) => BROWSER_PARTS[part]).join(', ')}`);
  if (!built) {
    tally.failed++;
    console.log(`failed: ${browserParts.join(', ')} needs a build`);
  } else {
    // By itself: the hand-made plug messages of the emulated device reach this run's browser alone.
    const apart = isRoot() && onPath('unshare') && onPath('ip');
    const prefix = apart ? APART : [];
    const env = { ...browserEnv, ...(apart ? { STEADYBAR_APART: '1' } : {}) };
    const lines = [];
    const looks = [];
    if (chromium === null)
      for (const part of browserParts.filter((p) => p !== 'engines'))
        tally.notRun.push(`${BROWSER_PARTS[part]}: no Chromium`);
    else {
      if (wants('e2e')) await installed();
      // Walls of their own let the screens be tried beside the plugs and the kills.
      const files = readdirSync('tests/e2e').filter((name) => name.endsWith('.test.ts'));
      const run = (screens) =>
        vitestRun(['e2e'], {
          prefix,
          env,
          name: screens ? 'e2e-screens' : 'e2e',
          files: files
            .filter((name) => SCREENS.includes(name) === screens)
            .map((name) => `tests/e2e/${name}`),
        });
      if (wants('e2e')) {
        lines.push(run(false));
        looks.push(run(true));
      }
      if (wants('face')) looks.push(vitestRun(['face'], { prefix, env }));
    }
    const other = wants('engines') ? await enginesRun() : null;
    if (other !== null) looks.push(other);
    // Without walls they share the app's port: one after the other.
    if (apart) await vitestBeside(...[lines, looks].filter((row) => row.length > 0));
    else await vitestBeside([...lines, ...looks]);
  }
}

headline('result');
for (const name of tally.notRun) console.log(`not run: ${name}`);
if (strict && tally.notRun.length > 0) {
  console.log(`under CI a test that was not run is a failure: ${tally.notRun.length}`);
  tally.failed += tally.notRun.length;
}
console.log(`${seconds().toFixed(0)} s`);
console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed === 0 ? 0 : 1);
