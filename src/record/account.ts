import type { SupplyReason } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';

/** The facts of a record that a reviewer is told first: codes and numbers, words are made when they are shown. */

/** What a reviewer still has to look at or to ask for. */
export const OPEN_POINTS = [
  'no-limit',
  'no-hold',
  'not-held',
  'zero-none',
  'supply-went-on',
  'supply-moved',
  'supply-over',
  'sensors-differ',
  'gauge-none',
  'gauge-differs',
  'batch-slow',
  'cup-doubted',
  'witness-none',
  'witness-soft',
  'witness-warm',
  'rebound-none',
  'rebound-back',
  'checks-passed',
  'air-test-failed',
  'air-test-unsaid',
  'air-test-none',
] as const;
export type OpenPoint = (typeof OPEN_POINTS)[number];

/** A run as the facts that a reviewer is told first. */
export interface Account {
  /** By how much the peak passed rated, bar, and how long the watch saw it there, s; null: it did not. */
  readonly overRated: { readonly byBar: number; readonly forS: number | null } | null;
  /** The reading was at the ceiling or over it; null: there was none. */
  readonly atCeiling: boolean | null;
  readonly cure:
    | { readonly state: 'met'; readonly afterS: number | null }
    | { readonly state: 'not-met'; readonly countedS: number }
    | { readonly state: 'not-started' | 'not-followed' | 'not-judged' };
  /** Dial gauge and sensor, compared at the seat where that was done. */
  readonly gauge: {
    readonly gaugeBar: number;
    readonly readingBar: number | null;
    readonly agrees: boolean | null;
  } | null;
  /** The supply as it was proved last before the packer was on the hose, and why that held no longer; null: it was not proved. */
  readonly supply: {
    readonly proved: Pick<
      Extract<WatchEvent, { e: 'supply' }>,
      'verdict' | 'lockUpBar' | 'creepMbarPerMin' | 'ceilingInS'
    >;
    readonly voidBy: SupplyReason | null;
  } | null;
  readonly witness: {
    readonly hard: boolean;
    readonly atPipeTemperature: boolean;
    /** Seconds from the first sample. */
    readonly atS: number;
  } | null;
  /** The hold's times under its floor, as the watch told them; null: none, or there was no floor to be under. */
  readonly underFloor: {
    /** Seconds from the first sample, in order. */
    readonly spans: readonly { readonly fromS: number; readonly toS: number }[];
    /** Of the cure time when the first began; null: none was followed. */
    readonly when: 'before-cure' | 'after-cure' | null;
  } | null;
  /** Time of all holds outside the band, s. */
  readonly outsideS: number;
  readonly open: readonly OpenPoint[];
}
