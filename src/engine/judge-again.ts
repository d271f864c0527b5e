import type { LogHead } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import type { PageDamage } from '../record/types.ts';
import type { WatchEvent } from '../watch/events.ts';
import { createRun, stepRun } from './core.ts';

/** A record's own events beside those that this engine gives for the same input log. */
export interface JudgedAgain {
  /** null where the first page is not readable: then nothing was judged. */
  readonly head: LogHead | null;
  readonly damage: readonly PageDamage[];
  readonly recorded: readonly WatchEvent[];
  readonly again: readonly WatchEvent[];
  /** Index of the first event that differs; null where all are the same. */
  readonly firstDifference: number | null;
}

/** Judges a run's file again from its input log. Pure and deterministic, in Node and in a browser alike. */
export function judgeAgain(file: Uint8Array): JudgedAgain {
  const recorded: WatchEvent[] = [];
  const again: WatchEvent[] = [];
  const sink = { event: (event: WatchEvent) => again.push(event) };
  const head = scanRun(file, {}, { chain: false }).head;
  const run = head === null ? null : createRun(head);
  const { damage } = scanRun(file, {
    entry(entry) {
      if (run !== null) stepRun(run, entry, sink);
    },
    event: (event) => recorded.push(event),
  });
  return { head, damage, recorded, again, firstDifference: differenceOf(recorded, again) };
}

function differenceOf(a: readonly WatchEvent[], b: readonly WatchEvent[]): number | null {
  const n = Math.max(a.length, b.length);
  for (let i = 0; i < n; i++) if (JSON.stringify(a[i]) !== JSON.stringify(b[i])) return i;
  return null;
}
