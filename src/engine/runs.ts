import type { Setup } from '../job/setup.ts';
import { parseSetup } from '../job/setup-schema.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import type { RunScan } from '../record/reader.ts';
import { clockAtResume, closeInterrupted, startAfter } from '../record/recovery.ts';
import type { AppendFile } from '../record/stores/store.ts';
import { ENGINE } from '../watch/codes.ts';
import { createRun, type Run } from './core.ts';
import type { HostDeps } from './deps.ts';
import { moved } from './early.ts';
import { EngineError } from './errors.ts';
import type { Feed } from './feed.ts';
import { createStoreHealth } from './health.ts';
import { fileOf, type Ledger } from './ledger.ts';
import { createRecordedLive, type LiveSink } from './live.ts';
import type { Request, RunView } from './messages.ts';
import { saveOutline } from './outline.ts';
import { createRecorder, type Recorder, type RecorderOptions } from './recorder.ts';
import { openLeft, revive } from './resume.ts';
import { lockAll, runLocks } from './run-locks.ts';
import { closeSide, type OpenSideFiles, openSideFiles, syncSide } from './side-files.ts';
import { removeSnapshot, saveSnapshot, snapshotText } from './snapshot.ts';
import { type RunTitle, summarise } from './tally.ts';
import { createWatched, type Watched } from './watched.ts';

type OpenRequest = Extract<Request, { q: 'open-run' }>;

/** Opens, resumes and ends runs: moves the feed between the early guard and a recorded run. */
export interface Runs {
  open(request: OpenRequest): Promise<string>;
  resume(runId: string): Promise<string>;
  /** Closes a run that a crash left open, without taking it up again. */
  closeInterrupted(runId: string): Promise<void>;
  end(): Promise<string>;
  /** Makes the last half second durable. */
  flush(): void;
  view(): RunView | null;
  /** Everything that the open run has at rest, if it is this one. */
  openBytes(runId: string): Uint8Array | null;
}

export interface RunsSite {
  readonly deps: HostDeps;
  readonly feed: Feed;
  readonly ledger: Ledger;
  readonly sink: LiveSink;
  watched(): Watched;
  /** Another run is watched from here on. */
  watch(next: Watched): void;
}

interface Active {
  readonly file: AppendFile;
  readonly title: RunTitle;
  readonly recorder: Recorder;
  readonly release: () => void;
  readonly resumed: boolean;
  readonly side: OpenSideFiles | null;
  ledgerUs: number;
  sideUs: number;
  snapshotUs: number;
  snapshotting: boolean;
}

/** The list's line of an open run is renewed this often, so that a crash leaves nearly true figures. */
const LEDGER_US = 30_000_000;
const SNAPSHOT_US = 60_000_000;
/** Derived values can be made anew, so the disk is asked for them less often than for the pages. */
const SIDE_US = 5_000_000;

export function createRuns(site: RunsSite): Runs {
  const { deps, feed, ledger } = site;
  let active: Active | null = null;
  let busy = false;

  /** One opening, resuming or ending at a time. */
  async function alone<T>(open: boolean, work: () => Promise<T>): Promise<T> {
    if (busy || (active !== null) !== open)
      throw open && !busy
        ? new EngineError('no-run', 'no run is open')
        : new EngineError('run-open', 'a run is open');
    busy = true;
    try {
      return await work();
    } finally {
      busy = false;
    }
  }

  const health = createStoreHealth((ok, code) => feed.notice({ n: 'store', ok, code }));
  function keepTrace(work: () => void): void {
    try {
      work();
      health.set('trace', null);
    } catch (cause) {
      health.set('trace', ledger.codeOf(cause));
    }
  }

  const recorderOptions: RecorderOptions = { fault: (code) => health.set('pages', code) };

  async function saveLedger(now: Active, endedUtcMs: number | null): Promise<void> {
    const state = endedUtcMs === null ? 'open' : 'ended';
    const summary = summarise(now.title, site.watched().tally, state, endedUtcMs, now.recorder.bytes);
    try {
      await ledger.save(summary);
      health.set('list', null);
    } catch (cause) {
      health.set('list', ledger.codeOf(cause));
    }
  }

  /** What the early guard heard, on the run's own clock, without limits that were only tried. */
  function earlyEntries(byUs: number): LogEntry[] {
    const entries = feed.live.early?.entries() ?? [];
    return entries.filter((e) => e.l !== 'setup').map((e) => moved(e, byUs));
  }

  function activate(now: Omit<Active, 'ledgerUs' | 'sideUs' | 'snapshotUs' | 'snapshotting'>): void {
    // A resumed run, and one whose first opening was refused, bring a fault along that may be over.
    const { store } = feed.live.run.watch;
    health.begin(store.ok ? null : store.code);
    const startUs = deps.timers.nowUs();
    active = { ...now, ledgerUs: startUs, sideUs: startUs, snapshotUs: startUs, snapshotting: false };
    now.recorder.flush(deps.utcMs());
    void saveLedger(active, null);
  }

  function begin(
    file: AppendFile,
    side: OpenSideFiles | null,
    title: RunTitle,
    setup: Setup,
    release: () => void,
  ): void {
    const nowUs = feed.nowUs();
    const fromUs = feed.live.early?.entries()[0]?.tUs ?? nowUs;
    const head: LogHead = {
      format: 1,
      engine: ENGINE,
      runId: title.runId,
      jobId: title.jobId,
      practice: title.practice,
      utcMs: Math.round(title.openedUtcMs - (nowUs - fromUs) / 1000),
      software: deps.software,
    };
    const early = earlyEntries(-fromUs);
    // What came before the opening is read with the job's channels but was guarded by no limit: say it so.
    if (early.length > 0 && setup.number > 0)
      early.unshift({ l: 'setup', tUs: 0, setup: { ...setup, number: setup.number - 1, limits: null } });
    const recorder = createRecorder(file, head, recorderOptions);
    const live = createRecordedLive(createRun(head), recorder, site.sink);
    site.watch(createWatched(side ?? undefined));
    live.takeOver(early);
    feed.switchTo(live, nowUs - fromUs);
    feed.expectDevice(live.run.hello?.deviceId ?? null);
    feed.setup(setup);
    activate({ file, title, recorder, release, side, resumed: false });
  }

  /** Once a minute, right after a flush, when the state and the pages say the same. */
  function keepSnapshot(now: Active): void {
    const at = now.recorder.position();
    if (at === null || now.snapshotting) return;
    now.snapshotting = true;
    const { tally, trace } = site.watched();
    const text = snapshotText({ ...at, rows: trace.rows, tally, run: feed.live.run }, deps.software);
    saveSnapshot(deps.files, now.title.runId, text)
      .then(() => health.set('snapshot', null))
      .catch((cause: unknown) => health.set('snapshot', ledger.codeOf(cause)))
      .finally(() => {
        now.snapshotting = false;
        if (active !== now) void removeSnapshot(deps.files, now.title.runId);
      });
  }

  /** The judged run goes on where it broke off, with the gap marked and what the early guard heard since. */
  function goOn(run: Run, scan: RunScan, recorder: Recorder, watched: Watched): void {
    const earlyNow = feed.nowUs();
    const fromUs = feed.live.early?.entries()[0]?.tUs ?? earlyNow;
    const byClock = clockAtResume(scan, deps.utcMs());
    const nowUs = Math.max(byClock, run.nowUs + 1 + (earlyNow - fromUs));
    const startUs = nowUs - (earlyNow - fromUs);
    const live = createRecordedLive(run, recorder, site.sink);
    const resumed = {
      n: 'gap',
      reason: 'resumed',
      fromUs: run.lastUs ?? run.nowUs,
      toUs: startUs,
      lost: 0,
    } as const;
    const early = earlyEntries(startUs - fromUs);
    site.watch(watched);
    live.takeOver([{ l: 'notice', tUs: startUs, notice: resumed }, ...early]);
    feed.switchTo(live, nowUs);
    feed.expectDevice(run.hello?.deviceId ?? null);
  }

  return {
    open: (request) =>
      alone(false, async () => {
        const setup = parseSetup(request.setup);
        if (!setup.ok) {
          const [issue] = setup.issues;
          throw new EngineError('bad-request', `setup ${issue?.path ?? ''}: ${issue?.code ?? ''}`);
        }
        const title: RunTitle = {
          runId: deps.newId(),
          jobId: request.jobId,
          title: request.title,
          practice: request.practice,
          openedUtcMs: deps.utcMs(),
        };
        const release = await lockAll(deps, runLocks(title));
        try {
          const file = await deps.files.open(fileOf(title.runId));
          begin(file, await openSideFiles(deps.files, title.runId), title, setup.value, release);
        } catch (cause) {
          release();
          // Without a record there is no run, but the guard gets its limits all the same.
          feed.setup(setup.value);
          feed.notice({ n: 'store', ok: false, code: ledger.codeOf(cause) });
          throw cause;
        }
        return title.runId;
      }),

    resume: (runId) =>
      alone(false, async () => {
        const title = await ledger.find(runId);
        const release = await lockAll(deps, runLocks(title));
        let file: AppendFile | null = null;
        let side: OpenSideFiles | null = null;
        try {
          const found = await openLeft(deps.files, runId);
          const { scan, head } = found;
          file = found.file;
          if (head.engine !== ENGINE)
            throw new EngineError('refused', `the run was judged by engine ${head.engine}`);
          side = await openSideFiles(deps.files, runId);
          const { run, watched } = await revive(deps, file.read(0, file.size), scan, side);
          const here = feed.link().hello?.deviceId;
          const there = run.hello?.deviceId;
          if (here !== undefined && there !== undefined && here !== there)
            throw new EngineError('other-device', `the run began with ${there}`);
          const start = startAfter(scan);
          if (start === null) throw new EngineError('corrupt', 'no page of the run stands');
          const recorder = createRecorder(file, head, { ...recorderOptions, start });
          goOn(run, scan, recorder, watched);
          activate({ file, title, recorder, release, side, resumed: true });
        } catch (cause) {
          file?.close();
          closeSide(side);
          release();
          throw cause;
        }
        return runId;
      }),

    async closeInterrupted(runId) {
      const title = await ledger.find(runId);
      const release = await lockAll(deps, runLocks(title));
      try {
        const { file, scan } = await openLeft(deps.files, runId);
        try {
          closeInterrupted(file, scan, deps.utcMs());
          const seconds = scan.firstUs === null ? 0 : (scan.lastUs - scan.firstUs) / 1e6;
          await ledger.save({
            ...title,
            state: 'interrupted',
            endedUtcMs: scan.lastUtcMs,
            seconds,
            readings: scan.samples,
            bytes: file.size,
          });
          await removeSnapshot(deps.files, runId);
        } finally {
          file.close();
        }
      } finally {
        release();
      }
    },

    end: () =>
      alone(true, async () => {
        const was = active!;
        feed.notice({ n: 'end' });
        const whole = was.recorder.end(deps.utcMs(), 'ended');
        const outline = whole ? site.watched().outline(feed.live.run) : null;
        keepTrace(() => {
          site.watched().trace.finish();
          syncSide(was.side);
          closeSide(was.side);
        });
        // Without its end mark the file stays an open run: found at the next start, and said so.
        const saved = saveLedger(was, whole ? deps.utcMs() : null);
        active = null;
        feed.expectDevice(null);
        const { setup } = feed.live.run;
        feed.startEarly();
        // The packer may still be under pressure: the limit stays in force until another job sets its own.
        if (setup !== null) feed.setup(setup);
        if (!whole) feed.notice({ n: 'store', ok: false, code: was.recorder.fault ?? 'failed' });
        await saved;
        if (whole) await removeSnapshot(deps.files, was.title.runId);
        if (outline !== null) await saveOutline(deps.files, was.title.runId, outline);
        was.release();
        return was.title.runId;
      }),

    flush() {
      const now = active;
      if (now === null) return;
      now.recorder.flush(deps.utcMs());
      keepTrace(() => {
        site.watched().trace.flush();
        if (deps.timers.nowUs() - now.sideUs < SIDE_US) return;
        now.sideUs = deps.timers.nowUs();
        syncSide(now.side);
      });
      if (deps.timers.nowUs() - now.snapshotUs >= SNAPSHOT_US) {
        now.snapshotUs = deps.timers.nowUs();
        keepSnapshot(now);
      }
      if (deps.timers.nowUs() - now.ledgerUs < LEDGER_US) return;
      now.ledgerUs = deps.timers.nowUs();
      void saveLedger(now, null);
    },

    openBytes(runId) {
      const now = active;
      if (now === null || now.title.runId !== runId) return null;
      now.recorder.flush(deps.utcMs());
      return now.file.read(0, now.file.size);
    },

    view() {
      if (active === null) return null;
      const { title, recorder, resumed } = active;
      return {
        runId: title.runId,
        jobId: title.jobId,
        practice: title.practice,
        resumed,
        savedUs: recorder.savedUs,
        bytes: recorder.bytes,
        storeFault: recorder.fault,
      };
    },
  };
}
