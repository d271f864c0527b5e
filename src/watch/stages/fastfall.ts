import type { Condition } from '../alarms/machine.ts';
import type { WatchEvent } from '../events.ts';
import type { Levels } from '../signal/levels.ts';
import { levelMax } from '../signal/levels.ts';
import { FALL_BAR, FALL_SHARE, HELD_SHARE } from './loss.ts';

/**
 * A fast fall in a hold asks one question: let-down or loss? The answer belongs to the crew; without one it
 * is taken for a loss.
 */
export interface FastFall {
  asked: boolean;
  /** Occurrence of the alarm that was asked about last: one fall, one question. */
  occurrence: number;
  /** Level from which air is, or may be, lost through a hose or a burst, bar; null: no such loss is suspected. */
  lossBar: number | null;
}

export function createFastFall(): FastFall {
  return { asked: false, occurrence: 0, lossBar: null };
}

/** Over these seconds a fall of 0.08 bar or a twentieth is fast, about 1 bar/min. A leak is slower by far. */
const WITHIN_S = 5;

/**
 * After the valve is closed the line's pressure equalises with the packer's: that fall is the hose's, not a loss.
 * A hold that is entered at once must not be blamed for it.
 */
const EQUALISE_S = 3;

/** Half of the pressure gone within a second: no vent and no hose that equalises makes such a fall. */
function burstOff(l: Levels, medianBar: number): Condition {
  const top = levelMax(l, 1);
  return top !== null && top > 0.2 && medianBar < 0.5 * top ? 'on' : 'off';
}

/**
 * Pure condition. `ageS` is the age of the hold: the fall is looked for in what came after the line equalised. Where stages are read off the data a let-down cannot be announced beforehand, so only a fall
 * that no vent makes (half of the pressure within a second) is taken for a loss.
 */
export function fastFallCondition(
  l: Levels,
  medianBar: number | null,
  infer: boolean,
  ageS: number,
): Condition {
  if (medianBar === null) return 'between';
  const within = Math.min(WITHIN_S, ageS - EQUALISE_S);
  if (infer || within < 1) return burstOff(l, medianBar);
  const fall = Math.max(0, (levelMax(l, within) ?? medianBar) - medianBar);
  const top = medianBar + fall;
  const least = Math.max(FALL_BAR, FALL_SHARE * top);
  return fall >= least ? 'on' : fall > 0.5 * least ? 'between' : 'off';
}

/** The question is open, and the pressure is not back: the alarm of a fill stays until it is answered. */
export const isOpen = (f: FastFall, medianBar: number | null): boolean =>
  f.asked && (medianBar === null || medianBar <= HELD_SHARE * (f.lossBar ?? 0));

/**
 * Follows the pressure after a fall. When it stands near its old level again, since it has held or was brought back, no
 * loss is suspected any more, and a question that is still open is taken back.
 */
export function followFall(
  f: FastFall,
  medianBar: number | null,
  falling: boolean,
  tUs: number,
  emit: (event: WatchEvent) => void,
): void {
  if (f.lossBar === null || falling || medianBar === null || medianBar <= HELD_SHARE * f.lossBar) return;
  held(f, tUs, emit);
}

/** A dial gauge shows the packer as full as it was before: the fall was the sensor's own. */
export function gaugeHolds(f: FastFall, gaugeBar: number): boolean {
  return f.lossBar !== null && gaugeBar > HELD_SHARE * f.lossBar;
}

/** Nothing is lost: no loss is suspected any more, and a question that is open is taken back. */
export function held(f: FastFall, tUs: number, emit: (event: WatchEvent) => void): void {
  f.lossBar = null;
  if (!f.asked) return;
  f.asked = false;
  emit({ tUs, e: 'question', question: 'let-down-or-loss', answer: 'held' });
}

/**
 * Asks once for each occurrence of the alarm.
 * @param knownBar level at which the packer was known to be before, bar; null: none
 */
export function ask(
  f: FastFall,
  l: Levels,
  medianBar: number,
  knownBar: number | null,
  occurrence: number,
  tUs: number,
  emit: (event: WatchEvent) => void,
): void {
  if (f.occurrence === occurrence) return;
  f.occurrence = occurrence;
  f.asked = true;
  f.lossBar = Math.max(f.lossBar ?? 0, knownBar ?? 0, levelMax(l, WITHIN_S) ?? medianBar);
  emit({ tUs, e: 'question', question: 'let-down-or-loss', answer: null });
}

/** Takes the answer; false where nothing was asked. */
export function answer(
  f: FastFall,
  what: 'let-down' | 'loss',
  tUs: number,
  emit: (event: WatchEvent) => void,
): boolean {
  if (!f.asked) return false;
  f.asked = false;
  if (what === 'let-down') f.lossBar = null;
  emit({ tUs, e: 'question', question: 'let-down-or-loss', answer: what });
  return true;
}
