import { sha256 } from '@noble/hashes/sha2.js';
import { canonicalBytes } from '../record/canonical.ts';
import { toHex } from '../record/hex.ts';
import { type KeptState, type LogEntry, type LogHead, STATE_STEP, TICK_US } from '../record/log.ts';
import type { Page } from '../record/page.ts';
import type { StateApart } from '../record/types.ts';
import type { Run } from './core.ts';

/** Of the members of a run's state. Raised with any change of them: a state of another form is left aside. */
export const STATE_FORM = 1;

/** The run as its pages keep it, for whoever judges them again to begin with in the middle. */
export const keptState = (run: Run, samples: number): KeptState => ({
  form: STATE_FORM,
  samples,
  // Good until the run goes on: the page makes its text at once.
  run: run as unknown as KeptState['run'],
});

/** What a state is told from another by: SHA-256 of its canonical form, hex. @throws RangeError where it is no JSON */
export const stateHash = (run: unknown): string => toHex(sha256(canonicalBytes(run)));

/**
 * The run to go on with, from pages that may be anybody's. That it is what came of the pages before is for whoever judged these to
 * say; here only that it stands at its own time and in this run, so that no state makes ticks without end.
 * @param tUs of the entry
 */
export function takeUp({ form, run }: KeptState, tUs: number, runId: string): Run | null {
  if (form !== STATE_FORM) return null;
  const { nowUs, nextTick, head } = run as Partial<Run>;
  if (nowUs !== tUs || nextTick !== Math.floor(tUs / TICK_US) + 1) return null;
  return (head as Partial<LogHead> | undefined)?.runId === runId ? (run as unknown as Run) : null;
}

/** Holds the states that go by against the run that is judged. */
export class StateCheck {
  readonly apart: StateApart[] = [];
  private lastAt = 0;

  /** @param samples of the run that came before the first entry */
  constructor(public samples: number) {}

  /** @returns of a state: whether it follows from what came before it; null for any other entry. @param run has taken the entry */
  entry(run: Run, entry: LogEntry, page: Page): boolean | null {
    if (entry.l === 'frame' && entry.frame.t === 'S') this.samples++;
    if (entry.l !== 'state') return null;
    const { form, samples, run: kept } = entry.state;
    // One stands where it has to, once: whoever writes them by the thousand makes no work by it.
    const due = samples === this.samples && samples % STATE_STEP === 0 && samples > this.lastAt;
    this.lastAt = Math.max(this.lastAt, this.samples);
    // What another form would hold of this run is not known: it is no reason to call it wrong.
    const follows = due && (form !== STATE_FORM || sameState(run, kept));
    if (!follows) this.apart.push({ page: page.header.index, tUs: entry.tUs });
    return follows;
  }
}

function sameState(run: Run, kept: KeptState['run']): boolean {
  try {
    return stateHash(run) === stateHash(kept);
  } catch {
    // Text that is no sound Unicode, or nests too deep: no run of ours.
    return false;
  }
}
