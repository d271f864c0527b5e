import type { LogHead } from '../record/log.ts';
import { EntryCursor, type Page } from '../record/page.ts';
import { scanRun } from '../record/reader.ts';
import type { PageDamage, StateApart } from '../record/types.ts';
import type { WatchEvent } from '../watch/events.ts';
import { createRun, type Run, stepRun } from './core.ts';
import { StateCheck } from './kept-state.ts';

/** A run that is judged again from its pages, handed over in order. Nothing is judged before a page with its head. */
export interface Judging {
  page(page: Page): void;
  /** What was judged so far. */
  readonly events: readonly WatchEvent[];
  /** States kept in the pages that do not follow from what stands before them. */
  readonly apart: readonly StateApart[];
}

export function judging(): Judging {
  const events: WatchEvent[] = [];
  const sink = { event: (event: WatchEvent) => void events.push(event) };
  const states = new StateCheck(0);
  let run: Run | null = null;
  return {
    events,
    apart: states.apart,
    page(page) {
      if (page.head !== null) run ??= createRun(page.head);
      if (run === null) return;
      const entries = new EntryCursor(page);
      for (let entry = entries.next(); entry !== null; entry = entries.next()) {
        stepRun(run, entry, sink);
        states.entry(run, entry, page);
      }
    },
  };
}

/** A record's own events beside those that this engine gives for the same input log. */
export interface JudgedAgain {
  /** null where the first page is not readable: then nothing was judged. */
  readonly head: LogHead | null;
  readonly damage: readonly PageDamage[];
  readonly recorded: readonly WatchEvent[];
  readonly again: readonly WatchEvent[];
}

/** Judges a run's file again from its input log. Pure and deterministic, in Node and in a browser alike. */
export function judgeAgain(file: Uint8Array): JudgedAgain {
  const recorded: WatchEvent[] = [];
  const { page, events } = judging();
  const { head, damage } = scanRun(file, { page, event: (event) => recorded.push(event) });
  return { head, damage, recorded, again: events };
}
