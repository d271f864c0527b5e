import type { SoundCode } from '../words/sound.ts';

/**
 * What each priority sounds like, in words of our own: urgent is three hard bursts that rise, and again after half a
 * second without end; a lost reading is the same falling; high is two level notes; low is one soft one. Pitch (150-1000
 * Hz with at least four harmonics between 300 and 4000 Hz) follows IEC 60601-1-8 as secondary pages give it. No two
 * sounds share a pitch: one note is enough to tell them apart.
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

export type Sound = SoundCode;
/** Those that an alarm holds until it is acknowledged. */
export type AlarmTone = Extract<Sound, 'urgent' | 'lost' | 'high' | 'low'>;

/** Amplitudes of the fundamental and its harmonics. */
export const HARMONICS = [1, 0.8, 0.6, 0.5, 0.35, 0.2] as const;

const notes = (hz: readonly number[], startS: number, durS: number, stepS: number): Pulse[] =>
  hz.map((f, i) => ({ atS: startS + i * stepS, durS, hz: f }));

const RISING_HZ = [560, 720, 930] as const;
const FALLING_HZ = [900, 690, 540] as const;
const BURSTS_S = [0, 0.6, 1.2] as const;
const PAUSE_S = 0.5;
const bursts = (hz: readonly number[]): Pulse[] => BURSTS_S.flatMap((s) => notes(hz, s, 0.13, 0.16));

/** When the last note of a pattern has ended, s. */
export const endOf = ({ pulses }: Pick<Pattern, 'pulses'>): number =>
  Math.max(...pulses.map((p) => p.atS + p.durS));

const urgent = bursts(RISING_HZ);
const urgentEveryS = endOf({ pulses: urgent }) + PAUSE_S;

export const PATTERNS: Record<Sound, Pattern> = {
  urgent: { pulses: urgent, everyS: urgentEveryS, gain: 1 },
  lost: { pulses: bursts(FALLING_HZ), everyS: urgentEveryS, gain: 1 },
  high: { pulses: notes([520, 520], 0, 0.26, 0.4), everyS: 5, gain: 0.8 },
  low: { pulses: notes([390], 0, 0.4, 0), everyS: null, gain: 0.5 },
  cue: { pulses: notes([330, 330], 0, 0.18, 0.3), everyS: null, gain: 0.5 },
  tick: { pulses: notes([660], 0, 0.06, 0), everyS: null, gain: 0.5 },
  now: { pulses: notes([600], 0, 0.9, 0), everyS: null, gain: 0.7 },
  // Low and long, so that it is no alarm and no tick.
  reached: { pulses: notes([220], 0, 1.4, 0), everyS: null, gain: 0.7 },
  well: { pulses: notes([490], 0, 0.14, 0), everyS: null, gain: 0.5 },
};
