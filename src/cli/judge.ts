import { createRun, type Run, stepRun } from '../engine/core.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import type { WatchEvent } from '../watch/events.ts';
import { holdView } from '../watch/hold/hold.ts';
import { viewOf } from '../watch/step.ts';
import type { HoldView, WatchView } from '../watch/view.ts';

/** A hold as it stood when it ended, or at the end of the trace. Times on the run clock, µs. */
export interface JudgedHold {
  readonly fromUs: number;
  readonly toUs: number;
  readonly view: HoldView;
}

/** Everything that the result is made of. */
export interface Judged {
  readonly run: Run;
  readonly events: readonly WatchEvent[];
  readonly holds: readonly JudgedHold[];
  readonly view: WatchView;
  /** Arrival of the first and last judged sample, µs; null without one. */
  readonly firstUs: number | null;
  readonly lastUs: number | null;
  /** Pressure at each event that raises an alarm, bar, in the order of events; null without a reading. */
  readonly barAt: readonly (number | null)[];
}

/** Runs the engine's own core over the entries; the end of the trace ends the run if the trace does not. */
export function judge(head: LogHead, entries: Iterable<LogEntry>, infer: boolean): Judged {
  const run = createRun(head, { infer });
  const events: WatchEvent[] = [];
  const barAt: (number | null)[] = [];
  const holds: JudgedHold[] = [];
  let hold = run.watch.hold;
  const sink = {
    event(event: WatchEvent): void {
      events.push(event);
      barAt.push(run.watch.signal.median ?? run.watch.signal.bar);
    },
  };
  let ended = false;
  const closeHold = (): void => {
    // The state of a hold that ended is complete: its last figures were set when it was let go.
    if (hold !== null) holds.push({ fromUs: hold.sinceUs, toUs: run.nowUs, view: holdView(hold, run.nowUs) });
  };
  const take = (entry: LogEntry): void => {
    stepRun(run, entry, sink);
    if (entry.l === 'notice' && entry.notice.n === 'end') ended = true;
    if (run.watch.hold === hold) return;
    closeHold();
    hold = run.watch.hold;
  };
  for (const entry of entries) take(entry);
  if (!ended) take({ l: 'notice', tUs: run.nowUs, notice: { n: 'end' } });
  return {
    run,
    events,
    holds,
    view: viewOf(run.watch, run.nowUs),
    firstUs: run.firstUs,
    lastUs: run.lastUs,
    barAt,
  };
}
