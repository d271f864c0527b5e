import type { Priority } from '../watch/codes.ts';

/**
 * What each priority sounds like. The number of pulses follows the idea of IEC 60601-1-8 as secondary pages give
 * it (high 10 pulses as 3 + 2 twice, medium 3, low 2; pitch 150-1000 Hz with at least four harmonics between 300
 * and 4000 Hz); pitches and rhythm are our own.
 */

export interface Pulse {
  /** Seconds from the start of the pattern. */
  readonly atS: number;
  readonly durS: number;
  /** Fundamental, Hz. */
  readonly hz: number;
}

export interface Pattern {
  readonly pulses: readonly Pulse[];
  /** The pattern starts again after this, s; null: once. */
  readonly everyS: number | null;
  /** Share of full volume. */
  readonly gain: number;
}

/** Beside the alarms: the tick of a fill's cue, and the call that the cure time is met. */
export type Sound = Priority | 'cue' | 'met';

/** Amplitudes of the fundamental and its harmonics. */
export const HARMONICS = [1, 0.8, 0.6, 0.5, 0.35, 0.2] as const;

function run(hz: readonly number[], startS: number, durS: number, stepS: number): Pulse[] {
  return hz.map((f, i) => ({ atS: startS + i * stepS, durS, hz: f }));
}

function burst(startS: number): Pulse[] {
  return [...run([620, 620, 780], startS, 0.14, 0.2), ...run([780, 930], startS + 0.8, 0.14, 0.2)];
}

export const PATTERNS: Record<Sound, Pattern> = {
  urgent: { pulses: [...burst(0), ...burst(1.35)], everyS: 3.2, gain: 1 },
  high: { pulses: run([520, 440, 520], 0, 0.22, 0.36), everyS: 9, gain: 0.8 },
  low: { pulses: run([390, 330], 0, 0.26, 0.42), everyS: 25, gain: 0.55 },
  cue: { pulses: [{ atS: 0, durS: 0.07, hz: 880 }], everyS: null, gain: 0.5 },
  // Long and rising, so that it is no alarm and no tick.
  met: { pulses: run([392, 494, 587, 784], 0, 0.5, 0.6), everyS: null, gain: 0.8 },
};
