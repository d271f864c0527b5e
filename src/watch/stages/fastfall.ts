import type { Condition } from '../alarms/machine.ts';
import type { WatchEvent } from '../events.ts';
import type { Levels } from '../signal/levels.ts';
import { levelMax } from '../signal/levels.ts';

/**
 * A fast fall in a hold asks one question: let-down or loss? The answer belongs to the crew; without one it
 * is taken for a loss.
 */
export interface FastFall {
  asked: boolean;
  /** Occurrence of the alarm that was asked about last: one fall, one question. */
  occurrence: number;
  /** Level before the fall, bar. */
  beforeBar: number;
  /** Pressure when it was asked, bar. */
  atBar: number;
}

export function createFastFall(): FastFall {
  return { asked: false, occurrence: 0, beforeBar: 0, atBar: 0 };
}

/** Over these seconds a fall is fast. */
const WITHIN_S = 5;
/** Least fall within them: 0.08 bar or a twentieth, about 1 bar/min. A leak is slower by far. */
export const FALL_BAR = 0.08;
export const FALL_SHARE = 0.05;

/** How far the median has fallen under the highest mean of the last seconds, bar. */
export function fallOf(l: Levels, medianBar: number): number {
  const top = levelMax(l, WITHIN_S);
  return top === null ? 0 : top - medianBar;
}

/**
 * Pure condition. Where stages are read off the data a let-down cannot be announced beforehand, so only a fall
 * that no vent makes (half of the pressure within a second) is taken for a loss.
 */
export function fastFallCondition(l: Levels, medianBar: number | null, infer: boolean): Condition {
  if (medianBar === null) return 'between';
  if (infer) {
    const top = levelMax(l, 1);
    return top !== null && top > 0.2 && medianBar < 0.5 * top ? 'on' : 'off';
  }
  const fall = fallOf(l, medianBar);
  const top = medianBar + fall;
  const least = Math.max(FALL_BAR, FALL_SHARE * top);
  return fall >= least ? 'on' : fall > 0.5 * least ? 'between' : 'off';
}

/** Asks once for each occurrence of the alarm. */
export function ask(
  f: FastFall,
  l: Levels,
  medianBar: number,
  occurrence: number,
  tUs: number,
  emit: (event: WatchEvent) => void,
): void {
  if (f.occurrence === occurrence) return;
  f.occurrence = occurrence;
  f.asked = true;
  f.beforeBar = levelMax(l, WITHIN_S) ?? medianBar;
  f.atBar = medianBar;
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
  emit({ tUs, e: 'question', question: 'let-down-or-loss', answer: what });
  return true;
}
