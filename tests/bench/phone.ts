/** A job's file of twelve hours verified by a phone: Chromium, each of its threads on a core four times slower. */
import { createReadStream, readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { chromiumPath, FLAGS } from '../e2e/app.ts';
import type { Row } from './measure.ts';
import type { PhoneCost } from './phone.worker.ts';
import { canSlowCores, slowCores } from './slow-cores.ts';
import { bundle } from './worker-page.ts';

const SLOWER = 4;
const CORES = 4;
/** Beside the one that verifies: as the app starts them there. */
const WORKERS = 3;
const FIRST_S = 3;
const WHOLE_S = 30;
const MOST_MB = 300;

/** Processor time and the largest resident set of the renderer that did the work: of all of them the busiest. */
function busiest(profile: string): { readonly cpuS: number; readonly peakMb: number } {
  let most = { cpuS: 0, peakMb: 0 };
  for (const pid of readdirSync('/proc').filter((n) => /^\d+$/.test(n))) {
    try {
      const line = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
      if (!line.includes('--type=renderer') || !line.includes(profile)) continue;
      const stat = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
      const cpuS = (Number(stat[11]) + Number(stat[12])) / 100;
      const peak = /VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'));
      if (cpuS > most.cpuS) most = { cpuS, peakMb: Number(peak?.[1] ?? 0) / 1000 };
    } catch {
      // ended in between
    }
  }
  return most;
}

interface Asked {
  readonly cost?: PhoneCost;
  readonly failed?: string;
}

/** @param file of a job, as benchJobFile leaves it */
export async function benchPhone(folder: string, file: string): Promise<Row[]> {
  if (!canSlowCores()) {
    console.log('not run: slow cores need root and the scheduler’s quotas (cgroup v1, cpu)');
    return [];
  }
  const scripts = new Map([
    ['/verify.js', await bundle(path.join(import.meta.dirname, 'phone.worker.ts'))],
    ['/piece.js', await bundle(path.join(import.meta.dirname, '../../src/evidence/pieces/piece.worker.ts'))],
  ]);
  const server = createServer((request, response) => {
    if (request.url === '/job.zip') return void createReadStream(file).pipe(response);
    const script = scripts.get(request.url ?? '');
    response.setHeader('content-type', script === undefined ? 'text/html' : 'text/javascript');
    response.end(script ?? '<!doctype html><title>phone</title>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const profile = path.join(folder, 'phone-profile');
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath(),
    headless: true,
    args: FLAGS,
  });
  const slow = slowCores(profile, SLOWER);
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(900_000);
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    const { cost, failed } = await page.evaluate(
      (workers) =>
        new Promise<Asked>((resolve) => {
          const worker = new Worker('/verify.js', { type: 'module' });
          worker.onmessage = ({ data }: MessageEvent<Asked>) => resolve(data);
          worker.onerror = (e) => resolve({ failed: e.message });
          worker.postMessage({ url: '/job.zip', workers });
        }),
      WORKERS,
    );
    const { cpuS, peakMb } = busiest(profile);
    if (cost === undefined) throw new Error(failed);
    if (cost.firstVerdict !== 'unknown-signer' || cost.wholeVerdict !== 'unknown-signer')
      throw new Error(`the file is ${cost.firstVerdict}, ${cost.wholeVerdict}`);
    const { firstS, wholeS, piecesS, isInPieces, told } = cost;
    return [
      {
        what: `signature, chain and heads of 12 h, Chromium, a core ${SLOWER} times slower`,
        value: `${firstS.toFixed(1)} s`,
        beside: `goal ≤ ${FIRST_S} s`,
        met: firstS <= FIRST_S,
      },
      {
        what: `all of it made again and judged again, ${CORES} such cores`,
        value: `${wholeS.toFixed(1)} s, ${peakMb.toFixed(0)} MB`,
        beside: `goal ≤ ${WHOLE_S} s, < ${MOST_MB} MB; pieces after ${piecesS.toFixed(1)} s, ${isInPieces ? 'nothing' : 'more'} was made beside them; ${slow.threads} threads slowed; progress told ${told} times; ${cpuS.toFixed(1)} s of processor time in all`,
        met: wholeS <= WHOLE_S && peakMb < MOST_MB,
      },
    ];
  } finally {
    await context.close();
    slow.stop();
    server.close();
  }
}
