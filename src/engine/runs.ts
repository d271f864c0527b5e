import type { Setup } from '../job/setup.ts';
import { fileSource } from '../record/byte-source.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import type { RunScan } from '../record/reader.ts';
import { closeInterrupted, startAfter, wallClockAtResume } from '../record/recovery.ts';
import type { AppendFile } from '../record/stores/store.ts';
import { ENGINE } from '../watch/codes.ts';
import { viewOf } from '../watch/step.ts';
import type { WatchView } from '../watch/view.ts';
import { checkSetup } from './check-input.ts';
import { createRun } from './core.ts';
import type { CurrentRun } from './current-run.ts';
import type { HostDeps } from './deps.ts';
import { moved, ownEntries } from './early.ts';
import { EngineError } from './errors.ts';
import type { Feed } from './feed.ts';
import { createStoreHealth } from './health.ts';
import { lastSeen } from './last-seen.ts';
import type { LeftPackers } from './left-packers.ts';
import type { Live } from './live.ts';
import type { Request } from './messages.ts';
import { openLeft, revive } from './resume.ts';
import { clockOnResume, deviceClockNow } from './resume-clock.ts';
import { sayRig } from './rig-said.ts';
import { createRunLeaves } from './run-leaves.ts';
import { fileOf, type RunList } from './run-list.ts';
import { lockAll, runLocks } from './run-locks.ts';
import { createRunRecord, type RecordParts, type RunRecord } from './run-record.ts';
import { closeSide, type OpenSideFiles, openSideFiles } from './side-files.ts';
import { removeSnapshot } from './snapshot.ts';
import { type RunTitle, type Tally, tallyAfter, tallySaidEmpty } from './tally.ts';
import { createWatched } from './watched.ts';

type OpenRequest = Extract<Request, { q: 'open-run' }>;

/** Opens, resumes and ends runs: the current run becomes a recorded one, and an early one again. */
export interface Runs {
  open(request: OpenRequest): Promise<string>;
  resume(runId: string): Promise<string>;
  /** Closes a run that a crash left open, without taking it up again. */
  closeInterrupted(runId: string): Promise<void>;
  /**
   * @param givenUp ends though pages wait to be written, and leaves these out: they were saved elsewhere
   * @throws StoreError while the store refuses pages that wait: the run goes on, and nothing of it is lost
   */
  end(givenUp: boolean): Promise<string>;
  /** Keeps how the packer of a run that has ended stands now, as long as its line is read and no other run begins. */
  followEnded(): void;
  /** Somebody has seen that the packer of that run is empty. */
  sayEmpty(runId: string, title: string): Promise<void>;
}

/** Stores answer in far less, ms. */
const PATIENCE_MS = 300;
/** The line reads this or less when it is called empty, bar. */
const EMPTY_BAR = 0.05;

/** Was the packer let down by the crew's own word, with the line at zero now? A line at zero alone says too little. */
function seenEmpty({ stage, bar, overBar, stale }: WatchView): boolean {
  // An air test is made when the packer is out.
  const isSaid = stage === 'done' || stage === 'air-test';
  return isSaid && bar !== null && overBar === null && !stale && bar <= EMPTY_BAR;
}

export function createRuns(
  deps: HostDeps,
  current: CurrentRun,
  feed: Feed,
  runList: RunList,
  leftPackers: LeftPackers,
): Runs {
  const health = createStoreHealth((ok, code) => current.notice({ n: 'store', ok, code }));
  let busy = false;
  /** A run that ended here, and what is fed since on the line that it was on; null: none did. */
  let ended: { readonly title: RunTitle; readonly live: Live } | null = null;

  /** One opening, resuming or ending at a time. */
  async function alone<T>(work: () => Promise<T>): Promise<T> {
    if (busy) throw new EngineError('run-open', 'a run is open');
    busy = true;
    try {
      return await work();
    } finally {
      busy = false;
    }
  }

  /** While nothing is recorded. */
  function unrecorded<T>(work: () => Promise<T>): Promise<T> {
    return alone(async () => {
      if (current.live.record !== null) throw new EngineError('run-open', 'a run is open');
      return work();
    });
  }

  const leavesOf = createRunLeaves(deps, (code) => health.set('log', code));
  const recordOf = (parts: Omit<RecordParts, 'leaves' | 'port' | 'beside'>): RunRecord =>
    createRunRecord(deps, runList, leftPackers, health, {
      ...parts,
      leaves: leavesOf(parts.title),
      port: feed.port,
      beside: feed.besidePort,
    });

  /**
   * The early run's clock, and what it heard: from its oldest entry on, without limits that were only tried.
   * @param own for a new run, which begins with readings of its own: nothing from before the device was last gone,
   * or of the line of a run that ended
   */
  function heardEarly(own = false) {
    const nowUs = current.nowUs();
    const heard = current.live.early?.entries() ?? [];
    const { hello, channels, map, beside } = current.live.run;
    const second = beside.hello === null ? null : { ...beside, hello: beside.hello };
    const after = ended?.live === current.live ? nowUs : null;
    const first = hello === null ? null : { hello, channels, map };
    const entries = own ? ownEntries(heard, first, after, second) : heard;
    const fromUs = entries[0]?.tUs ?? nowUs;
    return {
      spanUs: nowUs - fromUs,
      /** On another run's clock, whose time at the oldest entry is `startUs`. */
      on: (startUs: number): LogEntry[] =>
        entries.filter((e) => e.l !== 'setup').map((e) => moved(e, startUs - fromUs)),
    };
  }

  /** The word is no entry of the record: the figures of the run hear it apart. */
  const said = (tally: Tally, nowUs: number): void => tallySaidEmpty(tally, nowUs, tally.last?.bar ?? null);

  function begun(record: RunRecord): void {
    // A resumed run, and one whose first opening was refused, bring a fault along that may be over.
    const { store } = record.run.watch;
    health.begin(store.ok ? null : store.code);
    record.begin();
  }

  function begin(
    file: AppendFile,
    side: OpenSideFiles | null,
    title: RunTitle,
    setup: Setup,
    seen: string | null,
    release: () => void,
  ): void {
    const early = heardEarly(true);
    const head: LogHead = {
      format: 1,
      engine: ENGINE,
      runId: title.runId,
      jobId: title.jobId,
      practice: title.practice,
      utcMs: Math.round(title.openedUtcMs - early.spanUs / 1000),
      software: deps.software,
      ...(seen === null ? {} : { seen }),
    };
    const before = early.on(0);
    // What came before the opening is read with the job's channels but was guarded by no limit: say it so.
    if (before.length > 0 && setup.number > 0)
      before.unshift({ l: 'setup', tUs: 0, setup: { ...setup, number: setup.number - 1, limits: null } });
    const watched = createWatched(side ?? undefined);
    const record = recordOf({ title, head, file, side, run: createRun(head), watched, release });
    current.startRecorded(record, before, early.spanUs);
    feed.setup(setup);
    begun(record);
  }

  /** The judged run goes on where it broke off, with the gap marked and what the early guard heard since. */
  function goOn(record: RunRecord, scan: RunScan): void {
    const { run, watched } = record;
    if (leftPackers.isSaidEmpty(record.title.runId)) said(watched.tally, run.nowUs);
    const early = heardEarly();
    const deviceUs = deviceClockNow(run, {
      run: current.live.run,
      entries: current.live.early?.entries() ?? [],
      nowUs: current.nowUs(),
    });
    const awayUs = clockOnResume(deviceUs, wallClockAtResume(scan, deps.utcMs()), scan.lastUs);
    const nowUs = Math.max(Math.round(awayUs), run.nowUs + 1 + early.spanUs);
    const startUs = nowUs - early.spanUs;
    const resumed = {
      n: 'gap',
      reason: 'resumed',
      fromUs: run.lastUs ?? run.nowUs,
      toUs: startUs,
      lost: 0,
    } as const;
    current.startRecorded(
      record,
      [{ l: 'notice', tUs: startUs, notice: resumed }, ...early.on(startUs)],
      nowUs,
    );
    begun(record);
  }

  return {
    open: (request) =>
      unrecorded(async () => {
        // Whatever the page asks for: what is recorded off the simulated site is practice, and never sealed.
        const practice = request.practice || feed.rig !== null;
        const asked = checkSetup(request.setup);
        const setup = practice ? { ...asked, practice } : asked;
        const title: RunTitle = {
          runId: deps.newId(),
          jobId: request.jobId,
          title: request.title,
          practice,
          openedUtcMs: deps.utcMs(),
        };
        // The guard has its limits whatever the stores say, and however long they take to say it.
        const waited = deps.timers.after(PATIENCE_MS, () => feed.setup(setup));
        let release = (): void => undefined;
        try {
          const asked = lastSeen(deps);
          release = await lockAll(deps, runLocks(title));
          const seen = await asked;
          const file = await deps.files.open(fileOf(title.runId));
          const side = await openSideFiles(deps.files, title.runId);
          waited();
          begin(file, side, title, setup, seen, release);
          if (feed.rig !== null) sayRig(current, feed.rig, request.trainee ?? '');
        } catch (cause) {
          waited();
          release();
          if (cause instanceof EngineError) throw cause;
          // Without a record there is no run, but the guard gets its limits all the same.
          feed.setup(setup);
          current.notice({ n: 'store', ok: false, code: runList.codeOf(cause) });
          throw cause;
        }
        return title.runId;
      }),

    resume: (runId) =>
      unrecorded(async () => {
        const title = await runList.find(runId);
        const release = await lockAll(deps, runLocks(title));
        let file: AppendFile | null = null;
        let side: OpenSideFiles | null = null;
        try {
          const found = await openLeft(deps, runId);
          const { scan, head } = found;
          file = found.file;
          const { kind } = feed.link();
          if (kind !== null && (kind === 'rig') !== title.practice)
            throw new EngineError('other-device', 'practice and real lines do not stand in for each other');
          if (head.engine !== ENGINE)
            throw new EngineError('refused', `the run was judged by engine ${head.engine}`);
          side = await openSideFiles(deps.files, runId);
          const { run, watched } = await revive(deps, fileSource(file), scan, side);
          const start = startAfter(scan);
          if (start === null) throw new EngineError('corrupt', 'no page of the run stands');
          goOn(recordOf({ title, head, file, side, run, watched, start, release }), scan);
          if (feed.rig !== null) sayRig(current, feed.rig, '');
        } catch (cause) {
          file?.close();
          closeSide(side);
          release();
          throw cause;
        }
        return runId;
      }),

    async closeInterrupted(runId) {
      const title = await runList.find(runId);
      const release = await lockAll(deps, runLocks(title));
      try {
        const { file, scan } = await openLeft(deps, runId);
        try {
          leavesOf(title).head('ended', closeInterrupted(file, scan, deps.utcMs()));
          const seconds = scan.firstUs === null ? 0 : (scan.lastUs - scan.firstUs) / 1e6;
          await runList.save({
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

    end: (givenUp) =>
      alone(async () => {
        const { record } = current.live;
        if (record === null) throw new EngineError('no-run', 'no run is open');
        if (!givenUp) await record.writeOut();
        current.notice({ n: 'end' });
        const endedEmpty = seenEmpty(viewOf(record.run.watch, current.nowUs()));
        const ending = record.end(givenUp);
        const { setup } = record.run;
        const endUs = current.nowUs();
        feed.startEarly();
        ended = { title: record.title, live: current.live };
        // Its packer hangs on the line as before, and air may come into it.
        Object.assign(current.live.watched.tally, tallyAfter(record.watched.tally, endUs));
        // The packer may still be under pressure: the limit stays in force until another job sets its own. Where it
        // was seen to end empty, the limit of one packer is nothing to the next.
        if (setup !== null && !endedEmpty) feed.setup(setup);
        if (ending.whole || givenUp) await ending.settle();
        else {
          // Its disk filled up at the very end: the mark is written when there is room, whatever goes on meanwhile.
          current.notice({ n: 'store', ok: false, code: record.recorder.fault ?? 'failed' });
          void ending.settle();
        }
        return record.title.runId;
      }),

    followEnded() {
      if (ended === null || ended.live !== current.live) return;
      leftPackers.follow(ended.title, current.live.watched.tally, current.nowUs())?.then(
        () => health.set('left', null),
        (cause: unknown) => health.set('left', runList.codeOf(cause)),
      );
    },

    sayEmpty(runId, title) {
      const { record, watched } = current.live;
      const onLine = record?.title.runId ?? (ended?.live === current.live ? ended.title.runId : null);
      if (onLine === runId) said(watched.tally, current.nowUs());
      return leftPackers.sayEmpty(runId, title);
    },
  };
}
