import type { LinkState } from '../../link/status.ts';
import { isAway, isClosed } from '../../link/status.ts';
import type { WatchEvent } from '../events.ts';
import { s1 } from '../round.ts';

type Emit = (event: WatchEvent) => void;

/** What is known of the way in which the second adapter's temperatures come. Plain data. */
export interface BesideSignal {
  /** Arrival of its newest sample, µs; null: none has come. */
  lastUs: number | null;
  /** Longest time between two of them lately, µs. */
  spacingUs: number;
  /** It was said that nothing comes of it any more. */
  lost: boolean;
}

export const createBesideSignal = (): BesideSignal => ({ lastUs: null, spacingUs: 0, lost: false });

/** Silent for so long it is lost, µs: as long as a probe stands without a new value. A slow one has three of its periods. */
const SILENT_US = 5e6;
const PERIODS = 3;
/** A pause is no period. */
const LONGEST_US = 20e6;
/** Each sample weighs as much: one long wait is forgotten within some dozens. */
const FORGET = 0.97;

const silentUs = (b: BesideSignal): number => Math.max(SILENT_US, PERIODS * b.spacingUs);

/** A sample of it was read. */
export function besideSample(b: BesideSignal, tUs: number, emit: Emit): void {
  const waited = b.lastUs === null ? 0 : tUs - b.lastUs;
  if (b.lost) emit({ tUs, e: 'beside', what: 'back', seconds: s1(waited / 1e6) });
  else b.spacingUs = Math.max(FORGET * b.spacingUs, Math.min(waited, LONGEST_US));
  b.lost = false;
  b.lastUs = tUs;
}

function tellLost(b: BesideSignal, what: 'port' | 'silent' | 'closed', tUs: number, emit: Emit): void {
  if (b.lost || b.lastUs === null) return;
  b.lost = true;
  emit({ tUs, e: 'beside', what, seconds: s1((tUs - b.lastUs) / 1e6) });
}

/** Its link said of itself how it stands. */
export function besideLink(b: BesideSignal, state: LinkState, tUs: number, emit: Emit): void {
  if (isAway(state)) tellLost(b, 'port', tUs, emit);
  else if (isClosed(state)) tellLost(b, 'closed', tUs, emit);
}

/** Time passes. */
export function besideTick(b: BesideSignal, tUs: number, emit: Emit): void {
  if (b.lastUs !== null && tUs - b.lastUs > silentUs(b)) tellLost(b, 'silent', tUs, emit);
}
