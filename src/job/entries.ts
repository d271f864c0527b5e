import type { NumberBounds } from './fields.ts';

/** What a crew types during a run: the field on the screen and the check before it is logged follow this. */
export const ENTRIES = {
  /** Dial gauge beside the transducer, bar gauge: up to the highest rating that a packer may have. */
  gaugeBar: { lo: 0, hi: 20, kind: 'pressure' },
  /** Thermometer beside a probe in the hand, °C. */
  thermometerC: { lo: -20, hi: 60, kind: 'temperature' },
  /** How long an alarm is put aside, s: nothing is shelved for longer than an hour. */
  shelvedS: { lo: 1, hi: 3600, unit: 's' },
} as const satisfies Readonly<Record<string, NumberBounds>>;

/** Highest pressure that a limit may be, bar: more is a mistake of units. */
export const MOST_BAR = 30;

/** Longest text that an operator may put into a record, UTF-16 units. */
export const MOST_TEXT = 2000;
