import { mkdtempSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import path from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { createHostBench, practiceSetup } from '../../src/engine/testing/bench.ts';
import type { AppendFile, FileStore } from '../../src/record/stores/store.ts';
import { createNodeStore } from '../../src/record/stores/testing/node-files.ts';
import type { NodeSoak } from './figures.ts';

const RATE_HZ = 50;
/** Simulated time between two looks at what the engine posted, ms. */
const STRETCH_MS = 10_000;
/** The crew looks at the tablet so often, s. */
const CREW_S = 600;

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Real files, which nobody asks the disk to keep: a day's flushes would measure the disk. */
function unflushed(store: FileStore): FileStore {
  const plain = (file: AppendFile): AppendFile => ({
    get size() {
      return file.size;
    },
    append: (bytes) => file.append(bytes),
    flush: () => undefined,
    truncate: (size) => file.truncate(size),
    read: (offset, length) => file.read(offset, length),
    close: () => file.close(),
  });
  return {
    open: async (name) => plain(await store.open(name)),
    list: () => store.list(),
    readAll: (name) => store.readAll(name),
    source: (name) => store.source(name),
    remove: (name) => store.remove(name),
    room: () => store.room(),
    persisted: () => store.persisted(),
  };
}

/**
 * The whole engine with the simulated practice rig, on a clock that only this moves: a fill, then a hold for the rest of
 * the time, its alarms acknowledged every ten minutes.
 * @param tell called at each measured hour
 */
export async function soakInNode(
  hours: number,
  tell: (hour: number, bytes: number) => void,
): Promise<NodeSoak> {
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-soak-'));
  const started = performance.now();
  try {
    const b = createHostBench({ files: unflushed(createNodeStore(folder)) });
    await b.connectRig('practice', 7);
    await b.run(2000);
    const setup = practiceSetup({ rateHz: RATE_HZ }, b.moment().link.channels);
    await b.ask({ q: 'open-run', jobId: 'job-1', title: 'A day', practice: true, setup });
    await b.run(3000);
    await b.ask({ q: 'command', command: { c: 'zero' } });
    await b.ask({ q: 'command', command: { c: 'mixed' } });
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await b.ask({ q: 'rig-hand', hand: { hand: 'valve', open: 1 } });
    await b.run(60_000);
    await b.ask({ q: 'rig-hand', hand: { hand: 'valve', open: 0 } });
    await b.run(2000);
    await b.ask({ q: 'command', command: { c: 'stage', to: 'hold' } });

    const marks = [1, 2, 4, 8, 12, 16, 20, 24].filter((h) => h < hours).concat(hours);
    const heap: { hour: number; bytes: number }[] = [];
    let crewS = CREW_S;
    for (const hour of marks) {
      while (b.timers.nowUs() / 1e6 < hour * 3600) {
        await b.run(Math.min(STRETCH_MS, Math.max(20, hour * 3_600_000 - b.timers.nowUs() / 1000)));
        // What the page would have taken; the newest moment is what the crew looks at.
        const last = b.posted.findLast((m) => m.m === 'moment');
        b.posted.length = 0;
        if (last !== undefined) b.posted.push(last);
        if (b.timers.nowUs() / 1e6 < crewS) continue;
        crewS += CREW_S;
        await b.acknowledge();
      }
      collect();
      const { heapUsed, external } = process.memoryUsage();
      heap.push({ hour, bytes: heapUsed + external });
      tell(hour, heapUsed + external);
    }
    const { link, run } = b.moment();
    const figures = {
      hours,
      rateHz: RATE_HZ,
      readings: link.frames,
      recordBytes: run?.bytes ?? 0,
      heap,
      load: Math.round(loadavg()[0]! * 10) / 10,
    };
    await b.ask({ q: 'end-run' }, 600_000);
    return { ...figures, wallS: Math.round((performance.now() - started) / 1000) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
