import { readFileSync, truncateSync } from 'node:fs';
import path from 'node:path';
import { advanceRun, createRun, stepRun } from '../../src/engine/core.ts';
import { createHost } from '../../src/engine/host.ts';
import type { FromEngine, Request } from '../../src/engine/messages.ts';
import { createTestLocks, practiceSetup } from '../../src/engine/testing/bench.ts';
import type { LogHead } from '../../src/record/log.ts';
import { runFileNames } from '../../src/record/recovery.ts';
import { createMemoryDocuments } from '../../src/record/stores/memory-documents.ts';
import { createNodeStore } from '../../src/record/stores/testing/node-files.ts';
import { makeLongRun } from './longrun.ts';
import { cpuMs, type Row } from './measure.ts';

const RUN = 'bench-guard';
const HOURS = 3;
const RATE_HZ = 50;
/** The guard's ticks are this far apart, ms. */
const TICK_MS = 100;
const HEAD: LogHead = {
  format: 1,
  engine: 1,
  runId: 'bench',
  jobId: null,
  practice: true,
  utcMs: 0,
  software: 'bench',
};

/** CPU time of the longest stretch in which nothing else has its turn while the work goes on, ms. */
async function longestBlock(work: () => Promise<unknown>): Promise<number> {
  let going = true;
  let longest = 0;
  const turns = (async () => {
    let since = cpuMs();
    while (going) {
      await new Promise((resolve) => setTimeout(resolve, 1));
      const now = cpuMs();
      longest = Math.max(longest, now - since);
      since = now;
    }
  })();
  await work();
  going = false;
  await turns;
  return longest;
}

/** What the page may ask of the guard's own worker, and what that does by itself, over a run of hours. */
export async function benchGuardLoop(folder: string): Promise<Row[]> {
  await makeLongRun(folder, RUN, HOURS, RATE_HZ);
  const pages = path.join(folder, runFileNames(RUN).pages);
  const size = readFileSync(pages).length;
  // A torn end: the run is one that a crash left open.
  truncateSync(pages, size - 8);
  const posted: FromEngine[] = [];
  const host = createHost({
    timers: {
      nowUs: () => performance.now() * 1000,
      after(ms, call) {
        const id = setTimeout(call, ms);
        return () => clearTimeout(id);
      },
    },
    utcMs: () => Date.now(),
    newId: () => 'bench-new',
    random16: () => 1,
    files: createNodeStore(folder),
    documents: createMemoryDocuments(),
    storeFaults: { files: null, documents: null },
    locks: createTestLocks(),
    openPort: () => Promise.reject(new Error('no port')),
    post: (message) => posted.push(message),
    software: 'bench',
  });
  let id = 0;
  const ask = async (request: Request): Promise<unknown> => {
    const mine = ++id;
    host.receive({ id: mine, request });
    for (;;) {
      const answer = posted.find((m) => m.m === 'answer' && m.id === mine);
      posted.length = 0;
      if (answer?.m === 'answer') {
        if (answer.ok) return answer.value;
        throw new Error(answer.detail);
      }
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
  };
  const rows: Row[] = [];
  const row = async (what: string, work: () => Promise<unknown>): Promise<void> => {
    const ms = await longestBlock(work);
    rows.push({
      what,
      value: `${ms.toFixed(0)} ms`,
      beside: `goal ≤ ${TICK_MS} ms, a tick`,
      met: ms <= TICK_MS,
    });
  };
  const mb = (size / 1e6).toFixed(0);
  await row(`start, a run of ${HOURS} h (${mb} MB) without its line in the list`, () =>
    ask({ q: 'start-engine' }),
  );
  await row('the same run taken up again', () => ask({ q: 'resume-run', runId: RUN }));
  await row('all its pages given to the page', async () => {
    for (let from = 0; ; ) {
      const { bytes } = (await ask({ q: 'run-pages', runId: RUN, from })) as { bytes: Uint8Array };
      if (bytes.length === 0) return;
      from += bytes.length;
    }
  });
  await row('a piece of its picture', () =>
    ask({ q: 'live-window', runId: RUN, fromS: 0, toS: (HOURS * 3600) / 16, points: 1250 }),
  );
  await row('its end', () => ask({ q: 'end-run' }));
  await row('8 h slept through on a clock that counts them', async () => {
    const run = createRun(HEAD);
    const sink = { event: () => undefined };
    stepRun(run, { l: 'setup', tUs: 0, setup: practiceSetup() }, sink);
    stepRun(run, { l: 'command', tUs: 0, command: { c: 'stage', to: 'hold' } }, sink);
    const [fromUs, toUs] = [0, 8 * 3600e6];
    stepRun(
      run,
      { l: 'notice', tUs: toUs, notice: { n: 'gap', reason: 'clock', fromUs, toUs, lost: 0 } },
      sink,
    );
    advanceRun(run, toUs + 1e6, sink);
  });
  return rows;
}
