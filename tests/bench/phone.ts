/** A job's file of twelve hours verified by a phone: Chromium, its page's processor made four times slower. */
import { createReadStream, readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { chromiumPath, FLAGS } from '../e2e/app.ts';
import type { Row } from './measure.ts';
import type { PhoneCost } from './phone.page.ts';
import { bundle } from './worker-page.ts';

const SLOWER = 4;
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

/** @param file of a job, as benchJobFile leaves it */
export async function benchPhone(folder: string, file: string): Promise<Row[]> {
  const script = await bundle(path.join(import.meta.dirname, 'phone.page.ts'));
  const server = createServer((request, response) => {
    if (request.url === '/job.zip') return void createReadStream(file).pipe(response);
    const isScript = request.url === '/page.js';
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(isScript ? script : '<!doctype html><script type="module" src="/page.js"></script>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const profile = path.join(folder, 'phone-profile');
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath(),
    headless: true,
    args: FLAGS,
  });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(600_000);
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    await page.waitForFunction('"measure" in globalThis');
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    const cost = await page.evaluate(() =>
      (globalThis as unknown as { measure(url: string): Promise<PhoneCost> }).measure('/job.zip'),
    );
    const { cpuS, peakMb } = busiest(profile);
    if (cost.firstVerdict !== 'unknown-signer' || cost.madeVerdict !== 'unknown-signer')
      throw new Error(`the file is ${cost.firstVerdict}, ${cost.madeVerdict}`);
    // Two workers on two cores.
    const wholeS = Math.max(cost.madeS, cost.judgedS);
    const one = cost.madeS + cost.judgedS;
    return [
      {
        what: `signature, chain and heads of 12 h, Chromium ${SLOWER} times slower`,
        value: `${cost.firstS.toFixed(1)} s`,
        beside: `goal ≤ ${FIRST_S} s`,
        met: cost.firstS <= FIRST_S,
      },
      {
        what: 'all of it made again and judged again',
        value: `${wholeS.toFixed(1)} s, ${peakMb.toFixed(0)} MB`,
        beside: `goal ≤ ${WHOLE_S} s, < ${MOST_MB} MB; made again ${cost.madeS.toFixed(1)} s, judged ${cost.judgedS.toFixed(1)} s, one after the other ${one.toFixed(1)} s; progress told ${cost.told} times; ${cpuS.toFixed(1)} s of processor time in all`,
        met: wholeS <= WHOLE_S && peakMb < MOST_MB,
      },
    ];
  } finally {
    await context.close();
    server.close();
  }
}
