import { readFileSync } from 'node:fs';
import type { CDPSession } from 'playwright-core';
import { scanRun } from '../../src/record/reader.ts';
import { captureOf } from '../../src/record/testing/capture.ts';
import { sleep } from '../e2e/stage.ts';
import { loadNow } from '../faults/cell.ts';
import { compareBytes } from '../faults/lost-bytes.ts';
import type { Site } from '../faults/site.ts';
import { calm, finishRun, startRun, walkTo } from '../faults/walk.ts';
import type { PageSoak } from './figures.ts';

/** Commands to a worker of the page, by way of the page's own session. */
async function workerSession(cdp: CDPSession, url: RegExp) {
  const found = new Promise<string>((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error('the engine’s worker is not found')), 10_000);
    cdp.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => {
      if (!url.test(targetInfo.url)) return;
      clearTimeout(timer);
      resolve(sessionId);
    });
  });
  await cdp.send('Target.setAutoAttach', {
    autoAttach: true,
    waitForDebuggerOnStart: false,
    flatten: false,
  });
  const sessionId = await found;
  let id = 0;
  return async (method: string): Promise<Record<string, number>> => {
    const mine = ++id;
    const answer = new Promise<Record<string, number>>((resolve) => {
      const onMessage = (m: { sessionId: string; message: string }) => {
        const { id: of, result } = JSON.parse(m.message);
        if (m.sessionId !== sessionId || of !== mine) return;
        cdp.off('Target.receivedMessageFromTarget', onMessage);
        resolve(result ?? {});
      };
      cdp.on('Target.receivedMessageFromTarget', onMessage);
    });
    await cdp.send('Target.sendMessageToTarget', {
      sessionId,
      message: JSON.stringify({ id: mine, method }),
    });
    return answer;
  };
}

/** Resident memory of the browser's largest renderer: the page's. */
function rendererBytes(pids: readonly number[]): number {
  let most = 0;
  for (const pid of pids) {
    try {
      if (!readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes('--type=renderer')) continue;
      const kb = /^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
      most = Math.max(most, 1024 * Number(kb ?? 0));
    } catch {
      // ended in between
    }
  }
  return most;
}

/** A hold in real time, the live page in sight. */
export async function soakInPage(site: Site, minutes: number): Promise<PageSoak> {
  await startRun(site);
  await walkTo(site, 'hold');
  const cdp = await site.cdp();
  await cdp.send('HeapProfiler.enable');
  const toWorker = await workerSession(cdp, /engine\.worker/);
  await toWorker('HeapProfiler.enable');
  const samples: PageSoak['samples'][number][] = [];
  const loads: number[] = [];
  const sample = async (minute: number) => {
    await cdp.send('HeapProfiler.collectGarbage');
    await toWorker('HeapProfiler.collectGarbage');
    const page = await cdp.send('Runtime.getHeapUsage');
    const worker = await toWorker('Runtime.getHeapUsage');
    samples.push({
      minute,
      pageBytes: page.usedSize,
      workerBytes: worker.usedSize ?? Number.NaN,
      rendererBytes: rendererBytes(site.browserPids()),
    });
    loads.push(loadNow());
  };
  const marks = [1, 5, 10, 15, 20, 25, 30].filter((m) => m < minutes).concat(minutes);
  const from = performance.now();
  for (const minute of marks) {
    while (performance.now() - from < minute * 60_000) {
      await sleep(Math.min(5000, minute * 60_000 - (performance.now() - from)));
      await calm(site, 0);
    }
    await sample(minute);
  }
  await cdp.detach();
  const until = site.taken();
  await sleep(500);
  const file = await finishRun(site);
  const { losses, to } = compareBytes(site.tap(), Buffer.from(await captureOf(file)));
  let readings = 0;
  const alarms = new Set<string>();
  scanRun(file, {
    entry: (e) => {
      if (e.l === 'frame' && e.frame.t === 'S') readings++;
    },
    event: (e) => {
      if (e.e === 'alarm' && e.to === 'unacknowledged') alarms.add(e.alarm);
    },
  });
  return {
    minutes,
    readings,
    samples,
    lostBytes: losses.reduce((sum, l) => sum + l.bytes, Math.max(0, until - to)),
    alarms: [...alarms],
    loads,
  };
}
