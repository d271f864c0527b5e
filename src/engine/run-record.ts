import { pause } from '../link/timers.ts';
import type { LogHead } from '../record/log.ts';
import { type AppendFile, StoreError } from '../record/stores/store.ts';
import type { PortIds } from '../record/types.ts';
import type { WriterStart } from '../record/writer.ts';
import type { Run } from './core.ts';
import type { HostDeps } from './deps.ts';
import type { StoreHealth } from './health.ts';
import { keptState } from './kept-state.ts';
import type { LeftPackers } from './left-packers.ts';
import type { RunView } from './messages.ts';
import { saveOutline } from './outline.ts';
import { createRecorder, type Recorder } from './recorder.ts';
import type { RunLeaves } from './run-leaves.ts';
import type { RunList } from './run-list.ts';
import { closeSide, type OpenSideFiles, syncSide } from './side-files.ts';
import { removeSnapshot, saveSnapshot, snapshotText } from './snapshot.ts';
import { type RunTitle, summarise } from './tally.ts';
import type { Watched } from './watched.ts';

/**
 * Everything of an open run that is put to rest while it goes on: its pages, the side files of its trace, its line
 * in the list, a snapshot once a minute. What a store refuses is told to the store's health and tried again.
 */
export interface RunRecord {
  readonly title: RunTitle;
  readonly run: Run;
  readonly watched: Watched;
  readonly recorder: Recorder;
  /** First pages and line in the list, once the run is the current one. */
  begin(): void;
  /** Makes the last half second durable, and whatever else is due. */
  flush(): void;
  /**
   * A piece from a byte on of everything that is at rest, and behind it of what waits to be written. Empty at the end.
   * From the start on, what has come so far is put into pages first.
   */
  pages(from: number): Uint8Array;
  /** Settles when nothing waits any more. @throws StoreError while the store refuses: nothing is lost, the run goes on */
  writeOut(): Promise<void>;
  /** Writes the end and closes the files. @param givenUp what waits to be written is left out */
  end(givenUp?: boolean): RunEnding;
  view(): RunView;
}

export interface RunEnding {
  /** Else the file is an open run until its end mark is written; given up it stays one, found at the next start. */
  readonly whole: boolean;
  /** What is left to be done beside the files, when another run is the current one; waits for a disk that refuses. */
  settle(): Promise<void>;
}

export interface RecordParts {
  readonly title: RunTitle;
  readonly head: LogHead;
  readonly file: AppendFile;
  /** null: the trace is only kept in memory. */
  readonly side: OpenSideFiles | null;
  readonly run: Run;
  readonly watched: Watched;
  /** The serial port that is read now; null: none. */
  port(): PortIds | null;
  /** The same of the second adapter. */
  beside(): PortIds | null;
  /** Where a resumed run's pages go on. */
  readonly start?: WriterStart;
  /** Where it is noted in the witness log. */
  readonly leaves: RunLeaves;
  /** Gives back the names that the run holds. */
  release(): void;
}

/** The list's line of an open run is renewed this often, so that a crash leaves nearly true figures. */
const LEDGER_US = 30_000_000;
const SNAPSHOT_US = 60_000_000;
/** The head of the chain goes into the witness log this often. */
const HEAD_US = 300_000_000;
/** A disk that was full at the end of the run is tried again this often, ms. */
const AGAIN_MS = 500;
/** Bytes of the pages that are given out at a time: read while the guard waits. */
const PIECE = 1 << 20;
/** Derived values can be made anew, so the disk is asked for them less often than for the pages. */
const SIDE_US = 5_000_000;

export function createRunRecord(
  deps: Pick<HostDeps, 'timers' | 'utcMs' | 'files' | 'software'>,
  runList: RunList,
  leftPackers: LeftPackers,
  health: StoreHealth,
  parts: RecordParts,
): RunRecord {
  const { title, head, file, side, run, watched, start, leaves } = parts;
  const recorder = createRecorder(file, head, {
    ...(start === undefined ? {} : { start }),
    fault: (code) => health.set(ended ? 'end' : 'pages', code),
    state: (samples) => keptState(run, samples),
  });
  let listedUs = deps.timers.nowUs();
  let sideUs = listedUs;
  let snapshotUs = listedUs;
  let headUs = listedUs;
  let snapshotting = false;
  let ended = false;

  function keepTrace(work: () => void): void {
    try {
      work();
      health.set('trace', null);
    } catch (cause) {
      health.set('trace', runList.codeOf(cause));
    }
  }

  async function saveLine(endedUtcMs: number | null): Promise<void> {
    const state = endedUtcMs === null ? 'open' : 'ended';
    const port = state === 'open' ? parts.port() : null;
    const beside = state === 'open' ? parts.beside() : null;
    const summary = {
      ...summarise(title, watched.tally, state, endedUtcMs, recorder.bytes),
      ...(port === null ? {} : { port }),
      ...(beside === null ? {} : { beside }),
    };
    try {
      await runList.save(summary);
      health.set('list', null);
    } catch (cause) {
      health.set('list', runList.codeOf(cause));
    }
  }

  /** What hangs on the line outlives whatever stops the run. */
  function keepLeft(stops = false): void {
    leftPackers.follow(title, watched.tally, run.nowUs, stops)?.then(
      () => health.set('left', null),
      (cause: unknown) => health.set('left', runList.codeOf(cause)),
    );
  }

  /** Right after a flush, when the state and the pages say the same. */
  function keepSnapshot(): void {
    const at = recorder.position();
    if (at === null || snapshotting) return;
    snapshotting = true;
    const { tally, trace } = watched;
    const text = snapshotText({ ...at, rows: trace.rows, tally, run }, deps.software);
    saveSnapshot(deps.files, title.runId, text)
      .then(() => health.set('snapshot', null))
      .catch((cause: unknown) => health.set('snapshot', runList.codeOf(cause)))
      .finally(() => {
        snapshotting = false;
        if (ended) void removeSnapshot(deps.files, title.runId);
      });
  }

  return {
    title,
    run,
    watched,
    recorder,
    begin() {
      recorder.flush(deps.utcMs());
      if (start === undefined) leaves.opened();
      else leaves.head('resumed', start);
      void saveLine(null);
    },
    flush() {
      recorder.flush(deps.utcMs());
      keepLeft();
      const nowUs = deps.timers.nowUs();
      keepTrace(() => {
        watched.trace.flush();
        if (nowUs - sideUs < SIDE_US) return;
        sideUs = nowUs;
        syncSide(side);
      });
      if (nowUs - snapshotUs >= SNAPSHOT_US) {
        snapshotUs = nowUs;
        keepSnapshot();
      }
      const at = nowUs - headUs < HEAD_US ? null : recorder.position();
      if (at !== null) {
        headUs = nowUs;
        leaves.head('head', at);
      }
      if (nowUs - listedUs < LEDGER_US) return;
      listedUs = nowUs;
      leaves.again();
      void saveLine(null);
    },
    pages(from) {
      if (from === 0) recorder.flush(deps.utcMs());
      return recorder.read(from, PIECE);
    },
    async writeOut() {
      while (!recorder.flush(deps.utcMs())) {
        const { refusing, fault, waitingBytes } = recorder;
        if (refusing) throw new StoreError(fault ?? 'failed', `${waitingBytes} bytes wait to be written`);
        await pause(deps.timers, 0);
      }
    },
    end(givenUp = false) {
      ended = true;
      keepLeft(true);
      if (givenUp) recorder.abandon();
      const whole = !givenUp && recorder.end(deps.utcMs(), 'ended');
      if (whole) leaves.head('ended', recorder.position());
      const outline = watched.outline(run);
      keepTrace(() => {
        watched.trace.finish();
        syncSide(side);
        closeSide(side);
      });
      const saved = saveLine(whole ? deps.utcMs() : null);
      return {
        whole,
        async settle() {
          await saved;
          // Its file alone says whose it is: the job may go on in another run.
          if (!whole) parts.release();
          if (givenUp) return;
          if (!whole) {
            while (!recorder.flush(deps.utcMs())) await pause(deps.timers, AGAIN_MS);
            leaves.head('ended', recorder.position());
            await saveLine(deps.utcMs());
          }
          await removeSnapshot(deps.files, title.runId);
          if (outline !== null) await saveOutline(deps.files, title.runId, outline);
          if (whole) parts.release();
        },
      };
    },
    view: () => ({
      runId: title.runId,
      jobId: title.jobId,
      practice: title.practice,
      resumed: start !== undefined,
      savedUs: recorder.savedUs,
      bytes: recorder.bytes,
      storeFault: recorder.fault,
    }),
  };
}
