import { isDocumentKind, parseDocument } from '../job/documents.ts';
import type { Setup } from '../job/setup.ts';
import { parseSetup } from '../job/setup-schema.ts';
import { pause } from '../link/timers.ts';
import { sweepImports } from '../record/stores/imports.ts';
import type { StoredDocument } from '../record/stores/store.ts';
import { ENGINE } from '../watch/codes.ts';
import { createArchive } from './archive.ts';
import { checkCommand } from './command-limits.ts';
import type { HostDeps } from './deps.ts';
import { armLimit } from './device-limit.ts';
import { EngineError, engineCode } from './errors.ts';
import { createFeed } from './feed.ts';
import { createLedger } from './ledger.ts';
import type { EngineContract, RunSummary, ToEngine } from './messages.ts';
import { createMoments } from './moments.ts';
import { recoverRestore } from './restore-journal.ts';
import { runLocks } from './run-locks.ts';
import { createRuns } from './runs.ts';
import { checkSpeed } from './speed.ts';
import { createWatched } from './watched.ts';
import { createAnswers, type Handlers } from './worker/answers.ts';

/** The engine behind the worker's shell: answers requests, keeps time, shows moments. */
export interface Host {
  /** Answers by deps.post; never throws, whatever the message. */
  receive(message: ToEngine): void;
  /** Starts the timers: ticks, moments, flushes, beats. */
  start(): void;
}

const PULSE_MS = 50;
/** The list of runs waits this long for the start to settle the stores, then shows what there is. */
const SETTLE_MS = 3000;
const FLUSH_US = 500_000;
const BEAT_US = 500_000;
/** The wall clock and the monotonic one differ by more than this from what they did: sleep, or a set clock. */
const JUMP_MS = 2000;
/** Slower than this share they only drift apart: a day's hold must not end in a jump that never was. */
const DRIFT = 1e-3;

export function createHost(deps: HostDeps): Host {
  const { timers } = deps;
  let watched = createWatched();
  const ledger = createLedger(deps.documents, deps.files, deps.utcMs);

  const sink = {
    event: (event: Parameters<typeof watched.event>[0]) => watched.event(event),
    reading: (reading: Parameters<typeof watched.reading>[0]) => watched.reading(reading),
    unjudged: (tUs: number) => watched.unjudged(tUs),
    setup: (setup: Setup) => watched.setup(setup),
    tell: (event: Parameters<typeof watched.event>[0]) => deps.post({ m: 'event', event }),
    stirred: () => moments.stirred(),
    switched: () => {
      watched = createWatched();
    },
  };
  const feed = createFeed(deps, sink);
  const runs = createRuns({
    deps,
    feed,
    ledger,
    sink,
    watched: () => watched,
    watch: (next) => {
      watched = next;
    },
  });
  const archive = createArchive({
    files: deps.files,
    ledger,
    timers,
    openBytes: (runId) => runs.openBytes(runId),
  });
  const moments = createMoments(
    deps,
    () => feed,
    () => watched.trace,
    () => runs.view(),
  );

  function setupOf(input: unknown): Setup {
    const parsed = parseSetup(input);
    if (parsed.ok) return parsed.value;
    const [issue] = parsed.issues;
    throw new EngineError('bad-request', `setup ${issue?.path ?? ''}: ${issue?.code ?? 'not one'}`);
  }

  /** What the job's rooms know how to check is checked here too: a bad document never comes to rest. */
  function documentOf(document: StoredDocument): StoredDocument {
    if (!isDocumentKind(document.kind)) return document;
    const parsed = parseDocument(document.kind, document.body);
    if (parsed.ok) return { ...document, body: parsed.value };
    const [issue] = parsed.issues;
    throw new EngineError(
      'bad-request',
      `${document.kind} ${issue?.path ?? ''}: ${issue?.code ?? 'not one'}`,
    );
  }

  function rig() {
    if (feed.rig === null) throw new EngineError('not-a-rig', 'no simulated rig is connected');
    return feed.rig;
  }

  // The list of runs waits for it: a run whose list entry was lost must not be missing from the first look.
  let settled: Promise<void> = Promise.resolve();

  /** Bytes of an import that died. Where the disk refuses, they are tried again at the next start. */
  async function sweep(): Promise<void> {
    await sweepImports(deps.files, deps.documents, deps.locks.acquire).catch(() => undefined);
  }

  /** What a process that died left half done in the stores: finished, taken back, or given its list entry. */
  async function settle(): Promise<void> {
    // Files of a restore that does not count yet are no orphans, neither runs nor imports.
    const restored = await recoverRestore(deps, sweep).catch(() => null);
    if (restored !== null) await ledger.adoptOrphans();
  }

  /** The list of runs, after the start has settled the stores; a start that failed says so by its own answer. */
  async function listed(): Promise<readonly RunSummary[]> {
    await Promise.race([settled.catch(() => undefined), pause(timers, SETTLE_MS)]);
    return ledger.list();
  }

  /** Runs left open by a crash, and not held by another tab. */
  async function leftOpen(): Promise<readonly RunSummary[]> {
    settled = settle();
    await settled;
    const open: RunSummary[] = [];
    for (const summary of await ledger.list()) {
      if (summary.state !== 'open' || summary.runId === runs.view()?.runId) continue;
      const release = await deps.locks.acquire(runLocks(summary)[0]!);
      if (release === null) continue;
      release();
      open.push(summary);
    }
    return open;
  }

  const handlers: Handlers<EngineContract> = {
    'start-engine': async () => ({ engine: ENGINE, open: await leftOpen() }),
    connect: async ({ port }) => ({ state: await feed.connect(port) }),
    disconnect: async () => {
      await feed.disconnect();
      return null;
    },
    'open-run': async (request) => ({ runId: await runs.open(request) }),
    'resume-run': async ({ runId }) => ({ runId: await runs.resume(runId) }),
    'close-interrupted': async ({ runId }) => {
      await runs.closeInterrupted(runId);
      return null;
    },
    'end-run': async () => ({ runId: await runs.end() }),
    setup: ({ setup }) => {
      feed.setup(setupOf(setup));
      return null;
    },
    command: ({ command }) => {
      feed.command(checkCommand(command));
      return null;
    },
    'device-limit': async ({ mbar }) => {
      const { setup, sensing } = feed.live.run;
      if (setup === null) throw new EngineError('refused', 'no setup names the pressure channel');
      const { kept, mbar: now } = await armLimit(feed.session(), sensing, mbar);
      return { kept, mbar: now };
    },
    'device-silence': async () => {
      await feed.session().ask({ verb: 'silence' });
      return null;
    },
    'rig-hand': ({ hand }) => {
      rig().hand(hand);
      return null;
    },
    'rig-fault': ({ fault }) => {
      rig().fault(fault);
      return null;
    },
    'rig-speed': ({ speed }) => {
      rig();
      feed.timers.setSpeed(checkSpeed(speed), true);
      return null;
    },
    'live-window': ({ fromS, toS, points }) => watched.trace.window(fromS, toS, points),
    runs: () => listed(),
    run: ({ runId, check }) => archive.detail(runId, check ?? false),
    window: ({ runId, fromS, toS, points }) =>
      runId === runs.view()?.runId
        ? watched.trace.window(fromS, toS, points)
        : archive.window(runId, fromS, toS, points),
    'run-capture': ({ runId }) => archive.capture(runId),
    'remove-run': async ({ runId }) => {
      await archive.remove(runId);
      return null;
    },
    documents: ({ kind }) => deps.documents.list(kind),
    document: ({ kind, id }) => deps.documents.get(kind, id),
    'put-document': ({ document }) => deps.documents.put(documentOf(document)),
    'remove-document': async ({ kind, id }) => {
      await deps.documents.remove(kind, id);
      return null;
    },
    storage: async () => ({
      persisted: await deps.files.persisted(),
      roomBytes: await deps.files.room(),
      runs: (await listed()).length,
    }),
  };

  const answer = createAnswers<EngineContract>({
    handlers,
    codeOf: engineCode,
    post: (message) => deps.post(message),
    pause: () => pause(timers, 0),
  });

  let flushedUs = 0;
  let beatUs = 0;
  let wallLeadMs = 0;
  let pulsedUs = 0;

  const wallLead = (): number => deps.utcMs() - timers.nowUs() / 1000;

  function pulse(): void {
    const now = timers.nowUs();
    const jumpMs = wallLead() - wallLeadMs;
    if (Math.abs(jumpMs) > JUMP_MS) {
      wallLeadMs += jumpMs;
      feed.notice({ n: 'clock-jump', seconds: Math.round(jumpMs / 100) / 10 });
    } else {
      const most = (DRIFT * (now - pulsedUs)) / 1000;
      wallLeadMs += Math.max(-most, Math.min(most, jumpMs));
    }
    pulsedUs = now;
    feed.live.advance(feed.nowUs());
    moments.due();
    if (now - flushedUs >= FLUSH_US) {
      flushedUs = now;
      runs.flush();
    }
    if (now - beatUs >= BEAT_US) {
      beatUs = now;
      deps.post({ m: 'beat', utcMs: deps.utcMs() });
    }
  }

  function loop(): void {
    timers.after(PULSE_MS, () => {
      // Armed first: a fault in one pulse must not end the ticks.
      loop();
      pulse();
    });
  }

  return {
    receive(message) {
      void answer(message).then(() => moments.stirred());
    },
    start() {
      wallLeadMs = wallLead();
      pulsedUs = timers.nowUs();
      loop();
    },
  };
}
