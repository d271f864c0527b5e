import type { GuardFrame, ReplyResult } from '../link/frames.ts';
import { type FindingOf, found } from './findings.ts';
import { GUARD_LATE_BAR, GUARD_SILENT_S } from './limits.ts';

/** The device's own guard, armed low and pumped over: what it answered and did. */
export interface GuardTry {
  /** What it answered to 'limit'; null: nothing. */
  readonly result: ReplyResult | null;
  readonly limitBar: number;
  readonly limitCounts: number;
  /** It said itself that it guards by this limit. */
  kept: boolean;
  /** Lines in which it said that it guards by none, or by another. */
  others: number;
  /** Reading at the trip; null: not yet. */
  tripBar: number | null;
  /** It said that its sounder sounds. */
  sounds: boolean;
  /** Highest reading before the trip, bar. */
  topBar: number | null;
  /** Since when the reading stands well over the limit without a trip, s. */
  overFromS: number | null;
  /** Stood there for too long. */
  silent: boolean;
  heard: boolean | null;
}

/** One may have been under way when it was asked; it says one a second. */
const NOT_KEPT_LINES = 3;

export const createGuardTry = (
  result: ReplyResult | null,
  limitBar: number,
  limitCounts: number,
): GuardTry => ({
  result,
  limitBar,
  limitCounts,
  kept: false,
  others: 0,
  tripBar: null,
  sounds: false,
  topBar: null,
  overFromS: null,
  silent: false,
  heard: null,
});

export const isArmed = (g: GuardTry | null): g is GuardTry =>
  g !== null && g.result === 'ok' && g.kept && g.tripBar === null && !g.silent;

/** @param bar the newest reading */
export function takeGuard(g: GuardTry, frame: GuardFrame, bar: number | null): void {
  if (g.result !== 'ok') return;
  if (frame.state === 'unarmed' || frame.limitCounts !== g.limitCounts) {
    if (!g.kept) g.others++;
    return;
  }
  g.kept = true;
  if (frame.state === 'tripped' && g.tripBar === null) g.tripBar = bar;
  if (frame.sounder === 1) g.sounds = true;
}

/** @param tripped the sample's own word for it */
export function takeGuardSample(g: GuardTry, tS: number, bar: number | null, tripped: boolean): void {
  if (!isArmed(g)) return;
  if (tripped) {
    g.tripBar = bar;
    return;
  }
  if (bar === null) return;
  g.topBar = Math.max(g.topBar ?? bar, bar);
  if (bar < g.limitBar + GUARD_LATE_BAR) g.overFromS = null;
  else {
    g.overFromS ??= tS;
    if (tS - g.overFromS >= GUARD_SILENT_S) g.silent = true;
  }
}

function reasonOf(g: GuardTry): FindingOf<'guard'>['reason'] {
  switch (g.result) {
    case null:
      return 'no-answer';
    case 'unknown':
      return 'absent';
    case 'refused':
    case 'busy':
      return 'refused';
    case 'range':
    case 'clamped':
      return 'not-kept';
    case 'ok':
      break;
    default:
      return g.result satisfies never;
  }
  if (g.silent) return 'silent';
  if (g.tripBar === null) return g.others >= NOT_KEPT_LINES && !g.kept ? 'not-kept' : 'armed';
  if (!g.sounds) return 'mute';
  if (g.heard === null) return 'not-asked';
  if (!g.heard) return 'not-heard';
  return g.tripBar > g.limitBar + GUARD_LATE_BAR ? 'late' : 'heard';
}

export function judgeGuard(g: GuardTry | null, channel: number | null): FindingOf<'guard'> {
  if (g === null) return found('guard', 'not-armed', null, null, null, channel);
  return found('guard', reasonOf(g), g.tripBar, g.limitBar, g.topBar, channel);
}
