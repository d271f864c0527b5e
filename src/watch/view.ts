import type { AirTestSpec } from '../job/air-test.ts';
import type { SecondPressure } from '../job/codes.ts';
import type { Limits, Line, Place, Tap } from '../job/setup.ts';
import type { AirTestPhase } from './airtest/types.ts';
import type {
  AirTestReason,
  AirTestVerdict,
  AlarmCode,
  AlarmState,
  PairPath,
  Priority,
  Stage,
  Standing,
  SupplyVerdict,
} from './codes.ts';
import type { CupSaid } from './cure/cup-judge.ts';
import type { AlarmValues, Bounded, LeakFigure } from './events.ts';
import type { ProofPhase } from './supply/types.ts';

/** The air test: where it is, what it asks for, and what came of the last attempt. Pressures in bar. */
export interface AirTestView {
  readonly phase: AirTestPhase;
  /** Attempts begun so far. */
  readonly attempt: number;
  readonly spec: AirTestSpec;
  /** As near to the test pressure as is asked for. */
  readonly band: { readonly low: number; readonly high: number };
  /** Of a phase that counts by itself, s. */
  readonly leftS: number | null;
  /** The level at which the time began. */
  readonly fromBar: number | null;
  /** So far, or of the last attempt. */
  readonly dropBar: number | null;
  readonly uBar: number | null;
  readonly verdict: AirTestVerdict | null;
  readonly reason: AirTestReason | null;
}

/** What the guard believes of the fill. null where it is not sure: an unsure forecast is not shown. */
export interface GuardView {
  /** Pressure at rest behind the last valve, bar. */
  readonly restBar: Bounded | null;
  readonly rateBarPerS: number | null;
  /** Where the line will settle. */
  readonly settleBar: Bounded | null;
  /** Seconds until the ceiling. */
  readonly ceilingInS: Bounded | null;
  /** Cue: seconds until the valve should be closed to stop at working pressure. */
  readonly closeInS: Bounded | null;
  /** Advice to throttle, before the working pressure is reached. */
  readonly tooFast: TooFast | null;
}

/** At this slope a hand is late: by how much over the ceiling it would stop, and the slope at which it is in time. */
export interface TooFast {
  readonly lateBar: number;
  readonly rateBarPerS: number;
  readonly mostBarPerS: number;
}

export interface HoldView {
  readonly sinceS: number;
  readonly minutesInBand: number;
  readonly minBar: number | null;
  readonly maxBar: number | null;
  readonly still: boolean;
  readonly leak: LeakFigure;
  readonly bandExit: { readonly direction: 'down' | 'up'; readonly inS: Bounded } | null;
  readonly lift: {
    readonly peakBar: Bounded;
    readonly ceilingInS: Bounded | null;
    readonly adviceLowBar: number | null;
    readonly adviceHighBar: number | null;
  } | null;
  /** Lower edge of the band and what it is made of; null: no limits. A part that is null is not known. */
  readonly floor?: {
    readonly bar: number | null;
    readonly headBar: number | null;
    readonly freeInflationBar: number | null;
    readonly freeInflationFrom: 'typed' | 'seen' | 'unknown';
    readonly marginBar: number;
  } | null;
}

export interface CureView {
  readonly sinceS: number;
  /** 0…1 and beyond. */
  readonly progress: number;
  readonly low: number;
  readonly high: number;
  readonly equivalentAgeMin: number;
  /** Coldest credible temperature now, °C. */
  readonly coldest: Bounded | null;
  readonly source: 'sleeve' | 'air-model' | 'pipe' | 'ground' | 'none';
  /** Seconds from now until 'cure time met' (lower bound of progress reaches 1); null: cannot say. */
  readonly metInS: Bounded | null;
  readonly metAtS: number | null;
  readonly exotherm: { readonly peakInS: Bounded; readonly peakC: Bounded } | null;
}

export interface AlarmView {
  readonly alarm: AlarmCode;
  readonly priority: Priority;
  readonly state: AlarmState;
  readonly occurrence: number;
  /** Since when it is in this state, and when its occurrence began, run clock, µs. */
  readonly sinceUs: number;
  readonly begunUs: number;
  /** False for those that nobody may put aside. */
  readonly shelvable: boolean;
  /** When it is raised again if it still holds, run clock, µs; null or left out: it is not put aside. */
  readonly shelvedUntilUs?: number | null;
  readonly values: AlarmValues;
}

/** Proof of the supply: the one under way, and what was proved. */
export interface SupplyView {
  readonly phase: ProofPhase | null;
  /** Seconds until the next word, where they are known. */
  readonly leftS: number | null;
  /** The rise was too slow for a hose: is the packer on it? */
  readonly asked: boolean;
  /** Of the proof under way, else of the one that holds. */
  readonly lockUpBar: Bounded | null;
  readonly verdict: SupplyVerdict | null;
  readonly creepMbarPerMin: Bounded | null;
  readonly ceilingInS: Bounded | null;
  /** A proof holds. */
  readonly proved: boolean;
}

/** A second pressure on the line: a mark beside the first, never a second number as large. */
export interface SecondView {
  readonly role: SecondPressure;
  /** null: it tells none now. */
  readonly bar: number | null;
  readonly lost: boolean;
  /** Its zero was taken. */
  readonly zeroed: boolean;
  /** Where the regulator's outlet stood before air was let in, bar; null: it was not seen to stand. */
  readonly stoodBar: number | null;
  /** What lies between regulator and packer in a fill, as the two show it; null: nothing is known. */
  readonly path: PairPath | null;
}

/** The witness cup of the batch that was mixed last. */
export interface CupView extends CupSaid {
  /** °C; null: it is not read. */
  readonly c: number | null;
}

/** All that a screen shows of the moment; plain data, made at most 30 times a second. */
export interface WatchView {
  readonly tUs: number;
  readonly firstUs: number | null;
  readonly bar: number | null;
  /** Age of the last usable pressure, s. */
  readonly ageS: number | null;
  /** The reading is over this, the end of the sensor's span, bar: it is no number; null: it is not. */
  readonly overBar: number | null;
  /** The number is stale: grey it (0.5 s or two sample periods). */
  readonly stale: boolean;
  readonly uBar: number | null;
  readonly flags: number;
  readonly temps: readonly {
    readonly channel: number;
    readonly place: Place | null;
    readonly c: number | null;
    readonly uC: number;
    readonly flags: number;
  }[];
  readonly setup: number | null;
  readonly limits: Limits | null;
  readonly tap: Tap;
  readonly line: Line;
  readonly standing: readonly Standing[];
  readonly stage: Stage;
  readonly attempt: number;
  readonly stageSinceUs: number;
  readonly guard: GuardView;
  readonly hold: HoldView | null;
  readonly cure: CureView | null;
  /** Every alarm that is not normal, most urgent first. */
  readonly alarms: readonly AlarmView[];
  /** Why nobody is to put air in, whatever the pressure says; null: nothing speaks against it. */
  readonly airNotWanted: 'reading-jump' | 'fast-fall' | null;
  /** A hand is to let air in, and for a while the pressure has not moved. */
  readonly fillStands: boolean;
  /** The vent was said open. */
  readonly ventOpen: boolean;
  readonly question: 'let-down-or-loss' | null;
  readonly rebound: { readonly sinceUs: number; readonly needS: number; readonly startBar: number } | null;
  /** null: nobody has proved the supply, nor does now. */
  readonly supply: SupplyView | null;
  /** null: the line has one pressure. */
  readonly second: SecondView | null;
  /** null: none is planned, or an input of it is missing. */
  readonly airTest: AirTestView | null;
  /** What the witness cup says of its batch; null: there is none. */
  readonly cup: CupView | null;
  readonly mixedUs: number | null;
  readonly potLifeLeftS: number | null;
  readonly peakBar: number | null;
}
