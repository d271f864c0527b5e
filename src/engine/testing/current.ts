import type { Setup } from '../../job/setup.ts';
import { LIMITS } from '../../job/testing/givens.ts';
import { createManualTimers } from '../../link/testing/timers.ts';
import { createMemoryDocuments } from '../../record/stores/memory-documents.ts';
import { createLossyStore } from '../../record/stores/testing/memory.ts';
import { suggestChannels } from '../../sensing/suggest.ts';
import { channelSetup, HELLO, PRESS, sample } from '../../sensing/testing/device.ts';
import { createRun } from '../core.ts';
import { createCurrentRun } from '../current-run.ts';
import { createStoreHealth } from '../health.ts';
import { createLeftPackers } from '../left-packers.ts';
import type { FromEngine } from '../messages.ts';
import { createRunLeaves } from '../run-leaves.ts';
import { createRunList, fileOf } from '../run-list.ts';
import { createRunRecord, type RecordParts } from '../run-record.ts';
import { openSideFiles } from '../side-files.ts';
import { createWatched } from '../watched.ts';

/** A device of one pressure channel, 0-4 bar. */
export const GREETING = { hello: { ...HELLO, channels: 1 }, channels: [PRESS] } as const;

/** The current run alone, on a clock that only the test moves, with stores in memory. */
export function createCurrentBench() {
  const timers = createManualTimers();
  const files = createLossyStore();
  const documents = createMemoryDocuments();
  const posted: FromEngine[] = [];
  const deps = {
    timers,
    files,
    utcMs: () => 1_000_000 + timers.nowUs() / 1000,
    post: (message: FromEngine) => posted.push(message),
    software: 'test',
  };
  const runList = createRunList(documents, files, deps.utcMs);
  const leftPackers = createLeftPackers(
    documents,
    deps.utcMs,
    async () => false,
    (left) => posted.push({ m: 'left', left }),
  );
  let stirs = 0;
  const current = createCurrentRun(deps, timers, () => stirs++);
  const said: (string | null)[] = [];
  const health = createStoreHealth((ok, code) => said.push(ok ? null : code));
  let n = 0;

  return {
    timers,
    files,
    runList,
    posted,
    current,
    /** Codes of what the stores refused; null: all is kept again. */
    said,
    stirs: () => stirs,
    greet(deviceId: string = GREETING.hello.deviceId) {
      for (const frame of [{ ...GREETING.hello, deviceId }, ...GREETING.channels])
        current.entry({ l: 'frame', tUs: current.nowUs(), frame });
    },
    /** So many samples at 20 Hz of this pressure. */
    async stream(samples: number, bar: number) {
      for (let i = 0; i < samples; i++) {
        await timers.run(50);
        const frame = sample(n++, [Math.round(4000 + 4000 * bar)]);
        current.entry({ l: 'frame', tUs: current.nowUs(), frame });
      }
    },
    setup: (changes: Partial<Setup> = {}): Setup =>
      channelSetup(suggestChannels([PRESS]), { limits: LIMITS, ...changes }),
    /** A record that is ready to become the current run. */
    async record(runId: string, changes: Partial<RecordParts> = {}) {
      const head = { ...current.live.run.head, runId };
      const released: string[] = [];
      const side = await openSideFiles(files, runId);
      const record = createRunRecord({ ...deps }, runList, leftPackers, health, {
        title: { runId, jobId: null, title: 'A repair', practice: false, openedUtcMs: deps.utcMs() },
        head,
        file: await files.open(fileOf(runId)),
        side,
        run: createRun(head),
        watched: createWatched(side ?? undefined),
        leaves: createRunLeaves({ ...deps, documents }, (code) => health.set('log', code))({
          runId,
          practice: false,
        }),
        port: () => null,
        beside: () => null,
        release: () => released.push(runId),
        ...changes,
      });
      return { record, released };
    },
  };
}
