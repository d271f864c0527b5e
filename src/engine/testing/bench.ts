import type { Setup } from '../../job/setup.ts';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import type { ChannelFrame } from '../../link/frames.ts';
import { createManualTimers, type ManualTimers } from '../../link/testing/timers.ts';
import type { Timers } from '../../link/timers.ts';
import { createMemoryDocuments } from '../../record/stores/memory-documents.ts';
import type { DocumentStore, FileStore } from '../../record/stores/store.ts';
import { createMemoryStore } from '../../record/stores/testing/memory.ts';
import { suggestChannels } from '../../sensing/suggest.ts';
import type { HostDeps, OpenedPort, RunLocks } from '../deps.ts';
import { createHost } from '../host.ts';
import type { Answers, FromEngine, PortChoice, Request } from '../messages.ts';
import { openRig, practiceRig } from '../rig-feed.ts';

/** Two hosts with one of these are two tabs. */
export function createTestLocks(): RunLocks {
  const held = new Map<string, (() => void)[]>();
  return {
    async acquire(name) {
      if (held.has(name)) return null;
      held.set(name, []);
      return () => {
        const waiting = held.get(name) ?? [];
        held.delete(name);
        for (const tell of waiting) tell();
      };
    },
    released: (name) =>
      new Promise((resolve) => {
        const waiting = held.get(name);
        if (waiting === undefined) resolve();
        else waiting.push(resolve);
      }),
  };
}

export interface BenchOptions {
  readonly timers?: ManualTimers;
  readonly files?: FileStore;
  readonly documents?: DocumentStore;
  readonly locks?: RunLocks;
  readonly openPort?: (choice: PortChoice, timers: Timers) => Promise<OpenedPort>;
  /** Wall clock at the start of the timers, ms. */
  readonly wallMs?: number;
  readonly software?: string;
}

/** The whole engine in Node, on a clock that only the test moves and stores in memory. */
export function createHostBench(options: BenchOptions = {}) {
  const timers = options.timers ?? createManualTimers();
  const files = options.files ?? createMemoryStore();
  const documents = options.documents ?? createMemoryDocuments();
  const locks = options.locks ?? createTestLocks();
  const posted: FromEngine[] = [];
  const wall = { ms: options.wallMs ?? Date.UTC(2026, 3, 14, 8) };
  let ids = 0;
  const deps: HostDeps = {
    timers,
    utcMs: () => wall.ms + timers.nowUs() / 1000,
    newId: () => `run-${wall.ms}-${++ids}`,
    random16: () => 4711,
    files,
    documents,
    storeFaults: { files: null, documents: null },
    locks,
    openPort:
      options.openPort ??
      (async (choice, on) => (choice.kind === 'rig' ? openRig(choice.options, on) : never())),
    post: (message) => posted.push(message),
    software: options.software ?? 'test',
  };
  const host = createHost(deps);
  host.start();
  let id = 0;
  const bench = {
    deps,
    timers,
    files,
    documents,
    locks,
    posted,
    wall,
    run: (ms: number) => timers.run(ms),
    /** Pages of the open run, put together as the page does. */
    async pages(): Promise<Uint8Array> {
      const pieces: Uint8Array[] = [];
      const runId = (await bench.ask({ q: 'runs' })).find((r) => r.state === 'open')!.runId;
      for (let from = 0; ; from += pieces.at(-1)!.length) {
        const { bytes } = await bench.ask({ q: 'run-pages', runId, from });
        if (bytes.length === 0) return new Uint8Array(Buffer.concat(pieces));
        pieces.push(bytes);
      }
    },
    /** Asks and lets up to `ms` pass until the answer is there. */
    async ask<R extends Request>(request: R, ms = 6000): Promise<Answers[R['q']]> {
      const mine = ++id;
      host.receive({ id: mine, request });
      for (let waited = 0; waited <= ms; waited += 20) {
        const answer = posted.find((m) => m.m === 'answer' && m.id === mine);
        if (answer?.m === 'answer') {
          if (answer.ok) return answer.value as Answers[R['q']];
          throw Object.assign(new Error(answer.detail), { code: answer.code });
        }
        await timers.run(20);
      }
      throw new Error(`no answer to ${request.q}`);
    },
    moments: () => posted.filter((m) => m.m === 'moment'),
    moment() {
      const last = posted.filter((m) => m.m === 'moment').at(-1);
      if (last === undefined) throw new Error('no moment yet');
      return last;
    },
    events: () => posted.flatMap((m) => (m.m === 'event' ? [m.event] : [])),
    /** Presses 'acknowledge' at everything that is shown. */
    async acknowledge() {
      for (const { alarm, occurrence } of bench.moment().view.alarms)
        await bench.ask({ q: 'command', command: { c: 'acknowledge', alarm, occurrence } });
    },
    connectRig: (scenario = 'practice', seed = 1) =>
      bench.ask({ q: 'connect', port: { kind: 'rig', options: { seed, speed: 1, scenario } } }),
  };
  return bench;
}

function never(): never {
  throw new Error('only the rig is here');
}

/** A setup for the practice rig: the channels as the device suggests them, a packer rated at 1.8 bar. */
export function practiceSetup(
  changes: Partial<Setup> = {},
  channels: readonly ChannelFrame[] = practiceRig().channels.frames,
): Setup {
  return setupOf({
    practice: true,
    jobId: 'job-1',
    limits: {
      ...LIMITS,
      ratedBar: 1.8,
      uBar: 0.03,
      ceilingBar: 1.77,
      workingBar: 1.5,
      floorBar: 0.9,
      headBar: 0.12,
      freeInflationBar: 0.45,
      seatingMarginBar: 0.2,
    },
    tap: 'hose',
    channels: suggestChannels(channels),
    air: { bar: 1.013, uBar: 0.002, source: 'typed' },
    ground: { c: 10, uC: 2 },
    volume: { litres: 22, uLitres: 2 },
    pipe: { innerMm: 150, wallMm: 18, material: 'clay', sleeveMm: 3 },
    rateHz: 50,
    ...changes,
  });
}
