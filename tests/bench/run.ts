// npm run bench: the measured speeds, each beside a baseline or goal of the same run.
// npm run bench -- [part …]   parts: decode cure reading modbus record file phone fleet size latency bus paint archive frame browser; none = all.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { isRoot, onPath, provideChromium, provideCompiler } from '../tools/needs.mjs';
import { benchCure } from './cure.ts';
import { benchDecode } from './decode.ts';
import { benchFleet } from './fleet.ts';
import { benchGuardLoop } from './guard-loop.ts';
import { benchJobFile, jobFileIn } from './job-file.ts';
import { makeLongRun } from './longrun.ts';
import { print, type Row } from './measure.ts';
import { benchModbus } from './modbus.ts';
import { benchRecord } from './record.ts';
import { benchSize } from './size.ts';

const asked = process.argv.slice(2);
const wants = (part: string) => asked.length === 0 || asked.includes(part);

// As in the tests: a network namespace of its own, so that hand-made plug messages reach this browser alone.
if (isRoot() && process.env.STEADYBAR_APART !== '1' && onPath('unshare') && onPath('ip')) {
  const again = [
    '-n',
    'sh',
    '-c',
    'ip link set lo up; exec "$@"',
    'sh',
    process.execPath,
    '--import',
    'tsx',
    import.meta.filename,
    ...asked,
  ];
  const chromium = provideChromium();
  provideCompiler();
  const env = { ...process.env, STEADYBAR_APART: '1', ...(chromium ? { CHROMIUM_PATH: chromium } : {}) };
  process.exit(spawnSync('unshare', again, { stdio: 'inherit', env }).status ?? 1);
}

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-bench-'));
try {
  if (wants('decode')) print('Decoding', benchDecode());
  if (wants('cure')) print('Cure', benchCure());
  const RUN = 'bench-12h';
  if (wants('reading') || wants('browser')) {
    console.log('\nmaking a run of 12 h at 50 Hz …');
    // A short run first, so that both minutes are measured on compiled code.
    await makeLongRun(folder, `${RUN}-warm`, 0.2, 50);
    const cost = await makeLongRun(folder, RUN, 12, 50);
    const rows: Row[] = [];
    // Sparse readings carry a block of the guard each, and the bank with it: there a reading costs most.
    for (const { rateHz, goalUs } of [
      { rateHz: 10, goalUs: 10 },
      { rateHz: 20, goalUs: 20 },
    ]) {
      let fillUs = Number.POSITIVE_INFINITY;
      // A fill has too few of them to be compiled in one run: the least of several is that of warm code.
      for (let round = 0; round < 8; round++)
        fillUs = Math.min(fillUs, (await makeLongRun(folder, `${RUN}-${rateHz}`, 0.06, rateHz)).fillUs);
      rows.push({
        what: `sensing and watch, CPU time a reading, in a fill at ${rateHz} Hz`,
        value: `${fillUs.toFixed(1)} µs`,
        beside: `goal ≤ ${goalUs} µs`,
        met: fillUs <= goalUs,
      });
    }
    rows.push(
      {
        what: 'the same at 50 Hz',
        value: `${cost.fillUs.toFixed(1)} µs`,
        beside: 'goal ≤ 20 µs',
        met: cost.fillUs <= 20,
      },
      {
        what: 'the same at 50 Hz in the last minute of 12 h',
        value: `${cost.lastMinuteUs.toFixed(1)} µs`,
        beside: `${cost.readings} readings, ${cost.wholeUs.toFixed(1)} µs over all, recording included; flat: ratio ${(cost.lastMinuteUs / cost.fillUs).toFixed(2)}`,
        met: cost.lastMinuteUs <= 20 && cost.lastMinuteUs <= 2 * cost.fillUs,
      },
    );
    print('Readings', rows);
  }
  if (wants('fleet')) print('Questions over 100,000 jobs', await benchFleet(folder));
  if (wants('guard')) print('Longest block of the guard’s worker, CPU time', await benchGuardLoop(folder));
  if (wants('modbus')) print('Bus', await benchModbus());
  if (wants('record')) print('Record', await benchRecord());
  if (wants('file') || wants('phone')) {
    // Whole jobs are sealed; practice never is.
    await makeLongRun(folder, `${RUN}-job`, 12, 50, { practice: false });
    print('Job file', await benchJobFile(folder, `${RUN}-job`));
    if (wants('phone'))
      print('On a phone', await (await import('./phone.ts')).benchPhone(folder, jobFileIn(folder)));
  }
  if (['size', 'browser', 'latency', 'bus', 'paint', 'archive', 'frame'].some(wants)) {
    if (!existsSync('dist/index.html') || asked.length === 0)
      spawnSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'error'], {
        stdio: 'inherit',
      });
  }
  if (wants('size')) print('Size', benchSize());
  if (wants('latency')) {
    if (process.env.STEADYBAR_APART === '1')
      print('Latency over Web Serial', await (await import('./latency.ts')).benchLatency(folder));
    else console.log('not run: latency needs root and unshare for the plug');
  }
  if (wants('bus')) {
    if (process.env.STEADYBAR_APART === '1')
      print('Bus over Web Serial', await (await import('./bus.ts')).benchBus());
    else console.log('not run: bus needs root and unshare for the plug');
  }
  if (wants('paint')) print('First paint', [await (await import('./paint.ts')).benchPaint(folder)]);
  if (wants('archive')) print('Archive', await (await import('./archive.ts')).benchArchive());
  if (wants('frame')) print('Work a frame', await (await import('./live-frame.ts')).benchLiveFrame());
  if (wants('browser')) print('In Chromium', await (await import('./browser.ts')).benchBrowser(folder, RUN));
} finally {
  rmSync(folder, { recursive: true, force: true });
}
