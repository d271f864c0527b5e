import { type Greeting, type Identity, isSameScale } from '../link/greeting.ts';
import type { LinkState } from '../link/status.ts';
import type { Timers } from '../link/timers.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import { ENGINE } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Notice } from '../watch/inputs.ts';
import type { HostDeps } from './deps.ts';
import { besideEntries, greetingEntries } from './early.ts';
import { createEarlyLive, createRecordedLive, type Live } from './live.ts';
import type { RunRecord } from './run-record.ts';

/**
 * The run that is going on, with its clock and its device: there is always one. Before a run is opened it is an
 * early one, so the guard runs from the first valid reading. All of it changes in one step.
 */
export interface CurrentRun {
  readonly live: Live;
  /** The device that the record began with; null: none yet, or nothing is recorded. */
  readonly device: Identity | null;
  /** µs on the run clock, never before the newest entry. */
  nowUs(): number;
  /** A time of the timers' clock on the run clock, never before the newest entry. */
  runUs(monoUs: number): number;
  entry(entry: LogEntry): void;
  notice(notice: Notice): void;
  /** The whole worker stood still until now, and the clock did not. */
  slept(): void;
  /** Ticks up to now. */
  advance(): void;
  /** Makes the last half second of what is recorded durable. */
  flush(): void;
  /** A record that began without a device has met its own. */
  bindDevice(device: Identity): void;
  /**
   * From now on everything goes to this run, whose clock shows nowUs at this moment.
   * @param before judged and kept in it first, and not told to the page: it was heard before
   */
  startRecorded(record: RunRecord, before: readonly LogEntry[], nowUs: number): void;
  /** A fresh early run, on the connection there is. */
  startEarly(connection: Connection): void;
  /** Calls after each switch, when all of the new run is in place. */
  onSwitch(listener: () => void): void;
}

export interface Connection {
  readonly greeting: Greeting | null;
  readonly state: LinkState | null;
  /** What the second adapter said of itself; null: there is none. */
  readonly beside?: Greeting | null;
}

/**
 * @param timers those that the entries' times come from
 * @param stirred the page should see the moment soon
 */
export function createCurrentRun(
  deps: Pick<HostDeps, 'utcMs' | 'post' | 'software'>,
  timers: Timers,
  stirred: () => void,
): CurrentRun {
  const listeners: (() => void)[] = [];
  let originUs = timers.nowUs();
  let live = createEarly();
  let device: Identity | null = null;

  function tell(event: WatchEvent): void {
    deps.post({ m: 'event', event });
  }

  function createEarly(): Live {
    const head: LogHead = {
      format: 1,
      engine: ENGINE,
      runId: 'early',
      jobId: null,
      practice: false,
      utcMs: deps.utcMs(),
      software: deps.software,
    };
    return createEarlyLive(head, tell);
  }

  const runUs = (monoUs: number): number => Math.max(live.run.nowUs, Math.round(monoUs - originUs));
  const nowUs = (): number => runUs(timers.nowUs());

  function entry(e: LogEntry): void {
    live.entry(e);
    stirred();
  }

  function switchTo(next: Live, us: number): void {
    originUs = timers.nowUs() - us;
    live = next;
    const { hello, channels } = next.run;
    device = next.record === null || hello === null ? null : { deviceId: hello.deviceId, channels };
    for (const listener of listeners) listener();
  }

  return {
    get live() {
      return live;
    },
    get device() {
      return device;
    },
    nowUs,
    runUs,
    entry,
    notice(notice) {
      entry({ l: 'notice', tUs: nowUs(), notice });
    },
    slept() {
      const toUs = nowUs();
      const notice = { n: 'gap', reason: 'clock', fromUs: live.run.nowUs, toUs, lost: 0 } as const;
      entry({ l: 'notice', tUs: toUs, notice });
    },
    advance() {
      live.advance(nowUs());
    },
    flush() {
      live.record?.flush();
    },
    bindDevice(identity) {
      device = identity;
    },
    startRecorded(record, before, us) {
      const next = createRecordedLive(record, tell);
      next.takeOver(before);
      switchTo(next, us);
    },
    startEarly({ greeting, state, beside = null }) {
      const { sensing, channels } = live.run;
      const { zero, secondZero } = sensing;
      const next = createEarly();
      // After a run its limit stays in force, and with it the zero that its uncertainty counts on.
      const same =
        zero?.deviceId === greeting?.hello.deviceId && isSameScale(channels, greeting?.channels ?? []);
      if (same) Object.assign(next.run.sensing, { zero, secondZero });
      switchTo(next, 0);
      if (greeting !== null) {
        // The device says hello once; an early run that begins later needs it to understand the counts.
        for (const said of greetingEntries(greeting, 0)) entry(said);
      }
      for (const said of besideEntries(beside, 0)) entry(said);
      if (state !== null) entry({ l: 'notice', tUs: 0, notice: { n: 'link', state } });
    },
    onSwitch(listener) {
      listeners.push(listener);
    },
  };
}
