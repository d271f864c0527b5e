import type { CDPSession } from 'playwright-core';

/** What the browser tells of its work while it is traced; times in µs. */
interface TraceEvent {
  readonly name: string;
  readonly cat: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  /** CPU time of the thread in this event. */
  readonly tdur?: number;
}

/** A page calls performance.mark with this and a number where a step begins, and once more at the end. */
export const STEP = 'bench-step-';

/**
 * CPU time that the page's main thread spent in each step: scripts, styles, layout and painting, canvas included. CPU
 * time, because on a busy machine the clock counts what others do.
 * @param run makes the page work and set its marks
 * @returns ms a step
 */
export async function stepWork(cdp: CDPSession, run: () => Promise<unknown>): Promise<number[]> {
  const events: TraceEvent[] = [];
  const collect = (batch: { value: unknown[] }) => {
    events.push(...(batch.value as TraceEvent[]));
  };
  cdp.on('Tracing.dataCollected', collect);
  await cdp.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['disabled-by-default-devtools.timeline', 'blink.user_timing'] },
  });
  await run();
  const complete = new Promise((resolve) => cdp.once('Tracing.tracingComplete', resolve));
  await cdp.send('Tracing.end');
  await complete;
  cdp.off('Tracing.dataCollected', collect);

  const marks = events.filter((e) => e.name.startsWith(STEP)).sort((a, b) => a.ts - b.ts);
  const first = marks[0];
  if (first === undefined) throw new Error('the page set no marks');
  const tasks = events.filter(
    (e) => e.name === 'RunTask' && e.ph === 'X' && e.pid === first.pid && e.tid === first.tid,
  );
  if (tasks.length === 0) throw new Error('the browser told of no task');
  return marks.slice(0, -1).map((mark, i) => {
    const end = marks[i + 1]!.ts;
    const mine = tasks.filter((t) => t.ts >= mark.ts && t.ts < end);
    return mine.reduce((sum, t) => sum + (t.tdur ?? Number.NaN), 0) / 1000;
  });
}
