import { sha256 } from '@noble/hashes/sha2.js';
import { canonicalBytes } from '../record/canonical.ts';
import { toHex } from '../record/hex.ts';
import { type KeptState, type LogEntry, type LogHead, STATE_STEP, TICK_US } from '../record/log.ts';
import type { Page } from '../record/page.ts';
import type { StateApart } from '../record/types.ts';
import type { Run } from './core.ts';

/** Of the members of a run's state. Raised with any change of them: a state of another form is left aside. */
export const STATE_FORM = 2;

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

  /** @returns of a state of this form: whether it follows from what came before it; null for any other entry. @param run has taken the entry */
  entry(run: Run, entry: LogEntry, page: Page): boolean | null {
    if (entry.l === 'frame' && entry.frame.t === 'S') this.samples++;
    if (entry.l !== 'state') return null;
    const { form, samples, run: kept } = entry.state;
    // What one of another form would hold of this run is not known.
    if (form !== STATE_FORM) return null;
    // One stands where it has to, once: whoever writes them by the thousand makes no work by it.
    const due = samples === this.samples && samples % STATE_STEP === 0 && samples > this.lastAt;
    this.lastAt = Math.max(this.lastAt, this.samples);
    const follows = due && isLike(run, kept);
    if (!follows) this.apart.push({ page: page.header.index, tUs: entry.tUs });
    return follows;
  }
}

/** Far below what a sensor resolves, far above what the last digits of another JavaScript engine's functions come to in a day. */
const RELATIVE = 1e-6;
const ABSOLUTE = 1e-12;

/**
 * Whether what was kept is what the run has come to: whole numbers are the same, others up to the last digits, which another
 * engine's logarithms and powers may have otherwise.
 */
export function isLike(mine: unknown, kept: unknown): boolean {
  if (typeof mine === 'number' && typeof kept === 'number') {
    if (mine === kept) return true;
    if (Number.isInteger(mine) && Number.isInteger(kept)) return false;
    return Math.abs(mine - kept) <= ABSOLUTE + RELATIVE * Math.max(Math.abs(mine), Math.abs(kept));
  }
  if (typeof mine !== 'object' || typeof kept !== 'object' || mine === null || kept === null)
    return mine === kept;
  if (Array.isArray(mine) || Array.isArray(kept))
    return (
      Array.isArray(mine) &&
      Array.isArray(kept) &&
      mine.length === kept.length &&
      mine.every((v, i) => isLike(v, kept[i]))
    );
  const [a, b] = [mine as Record<string, unknown>, kept as Record<string, unknown>];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) =>
    isLike(own(a, key), own(b, key)),
  );
}

/** What is not defined is not written either. */
const own = (of: Record<string, unknown>, key: string): unknown =>
  Object.hasOwn(of, key) ? of[key] : undefined;
