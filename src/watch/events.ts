import type { AirTestMethod } from '../job/air-test.ts';
import type { CheckSaid } from '../job/checklist.ts';
import type { Place } from '../job/setup.ts';
import type { DeviceEventCode } from '../link/frames.ts';
import type {
  AirTestReason,
  AirTestVerdict,
  AlarmCode,
  AlarmState,
  CupDoubt,
  CupVerdict,
  GapReason,
  LineEnd,
  LossCause,
  Priority,
  SampleDoubt,
  Stage,
  SupplyReason,
  SupplyVerdict,
} from './codes.ts';

/** A value with its 95 % interval. */
export interface Bounded {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export const LEAK_VERDICTS = ['leaking', 'tight', 'cannot-tell', 'cannot-be-seen'] as const;
export type LeakVerdict = (typeof LEAK_VERDICTS)[number];

/** Why the hold cannot tell yet, or cannot see. */
export type CannotTellReason =
  | 'tap' // supply or unknown: the reading is not the packer's
  | 'line' // supplied line
  | 'too-short'
  | 'temperature-trend' // the gas temperature's trend is not known well enough
  | 'sensor-warmth' // the transducer's own warmth may move its reading as much
  | 'not-gas' // water or steam in the packer
  | 'settling' // heat of the fill, rubber creep
  | 'no-pressure';

export interface LeakFigure {
  readonly verdict: LeakVerdict;
  /** mbar/min at the present pressure, positive = leaking out; null where nothing is claimed. */
  readonly mbarPerMin: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Pa·m³/s where the volume is known. */
  readonly paM3PerS: Bounded | null;
  readonly reason: CannotTellReason | null;
}

/** Numbers that an alarm's text may name, rounded when the event is made. Units in the names. */
export interface AlarmValues {
  readonly bar?: number;
  readonly ratedBar?: number;
  /** By how much the pressure is over its rated value. */
  readonly overBar?: number;
  /** Upper end of the sensor's span. */
  readonly spanBar?: number;
  readonly ceilingBar?: number;
  readonly floorBar?: number;
  /** Dial gauge's value beside the reading. */
  readonly gaugeBar?: number;
  /** By how much the sensor has jumped; negative: downwards. */
  readonly jumpBar?: number;
  /** The second pressure beside the reading. */
  readonly secondBar?: number;
  /** At which the supply was proved, or the regulator's outlet stood. */
  readonly lockUpBar?: number;
  readonly settleBar?: number;
  readonly settleLowBar?: number;
  readonly settleHighBar?: number;
  readonly inS?: number;
  readonly inLowS?: number;
  readonly inHighS?: number;
  readonly mbarPerMin?: number;
  readonly adviceLowBar?: number;
  readonly adviceHighBar?: number;
  readonly seconds?: number;
  /** How often a pressure is read now, and how often it was. */
  readonly perSecond?: number;
  readonly perSecondBefore?: number;
  /** A batch's time against the resin's usual one. */
  readonly times?: number;
  readonly c?: number;
  readonly place?: Place;
  readonly cause?: LossCause | string;
  readonly kind?: 'settle' | 'left-band' | 'hand-time' | 'opened';
}

/** Why a zero was taken or not. */
export type ZeroReason = 'ok' | 'too-far' | 'noisy' | 'in-run' | 'no-reading';

/** The second pressure is asked only where the first was taken. */
export type SecondZeroReason = Exclude<ZeroReason, 'in-run'>;

/** All events carry tUs on the run clock. Codes and numbers only: words are made when they are shown. */
export type WatchEvent = { readonly tUs: number } & (
  | {
      readonly e: 'stage';
      readonly stage: Stage;
      readonly attempt: number;
      readonly by: 'operator' | 'data';
      /** Read off the data: when the stage seems to have begun, a few seconds before tUs. */
      readonly fromUs?: number;
    }
  | {
      readonly e: 'alarm';
      readonly alarm: AlarmCode;
      readonly priority: Priority;
      /** Counts the occurrences of this alarm in the run, from 1. */
      readonly occurrence: number;
      readonly to: AlarmState;
      readonly why:
        | 'condition'
        | 'returned'
        | 'acknowledged'
        | 'shelved'
        | 'unshelved'
        | 'parent'
        | 'stage'
        | 'escalated'
        /** Acknowledged, and still there or worse: it asks again in the same occurrence. */
        | 're-annunciated';
      readonly values: AlarmValues;
    }
  /** An acknowledgement of an occurrence that is not the one at hand: it silences nothing. */
  | {
      readonly e: 'acknowledge-refused';
      readonly alarm: AlarmCode;
      readonly occurrence: number;
      /** The occurrence at hand; 0: there was none yet. */
      readonly now: number;
    }
  | { readonly e: 'cue'; readonly closeInS: number }
  /** Advice: at this slope a hand at the valve is late by so much over the ceiling; in time up to `mostBarPerS`. */
  | {
      readonly e: 'too-fast';
      readonly lateBar: number;
      readonly rateBarPerS: number;
      readonly mostBarPerS: number;
    }
  | {
      readonly e: 'gap';
      readonly reason: GapReason;
      readonly fromUs: number;
      readonly toUs: number;
      readonly lost: number;
    }
  | {
      readonly e: 'limits';
      readonly setup: number;
      readonly ceilingBar: number | null;
      readonly workingBar: number | null;
      readonly floorBar: number | null;
    }
  | { readonly e: 'setup-refused'; readonly setup: number; readonly reason: 'ceiling-raised' | 'not-newer' }
  | {
      readonly e: 'zero';
      readonly taken: boolean;
      readonly offsetBar: number;
      readonly reason: ZeroReason;
      /** What the second pressure read by its own scale, and whether that was taken as well; left out where there is none. */
      readonly second?: {
        readonly taken: boolean;
        readonly offsetBar: number;
        readonly reason: SecondZeroReason;
      };
    }
  | {
      readonly e: 'gauge';
      readonly gaugeBar: number;
      readonly readingBar: number | null;
      readonly agrees: boolean | null;
    }
  | {
      readonly e: 'warm-check';
      readonly place: Place;
      readonly thermometerC: number;
      readonly readingC: number | null;
      readonly agrees: boolean | null;
    }
  | {
      readonly e: 'segment';
      readonly what: 'opened' | 'closed';
      readonly why: 'still' | 'top-up' | 'flow' | 'gap' | 'stage' | 'end';
    }
  | { readonly e: 'leak'; readonly leak: LeakFigure }
  /** Summary of one hold, told when it is left; tUs is its end. */
  | {
      readonly e: 'hold';
      readonly fromUs: number;
      readonly minutesInBand: number;
      readonly minBar: number | null;
      readonly maxBar: number | null;
      readonly leak: LeakFigure;
    }
  | { readonly e: 'knee'; readonly freeInflationBar: number; readonly low: number; readonly high: number }
  | {
      readonly e: 'lift';
      readonly peakBar: Bounded;
      readonly ceilingInS: Bounded | null;
      readonly adviceHighBar: number | null;
      readonly adviceLowBar: number | null;
    }
  | {
      readonly e: 'cure-start';
      readonly from: 'seat' | 'inflate' | 'hold';
      /** What is counted from between mixing and here, min, and the coldest that it may have been, °C; none: nothing is. */
      readonly before?: { readonly minutes: number; readonly coldestC: number };
    }
  | { readonly e: 'cure-met'; readonly progressLow: number; readonly equivalentAgeMin: number }
  | {
      readonly e: 'question';
      readonly question: 'let-down-or-loss';
      /** null: asked now. 'held': taken back, the fall has ended and the pressure has held. */
      readonly answer: 'let-down' | 'loss' | 'held' | null;
    }
  | {
      readonly e: 'rebound';
      readonly what: 'started' | 'stayed' | 'came-back' | 'broken-off';
      readonly bar: number | null;
      readonly seconds: number;
    }
  /** Proof of the supply behind a closed end, before the packer is on the hose. */
  | {
      readonly e: 'supply';
      /** 'locked': a first level, the creep not known yet. 'vented': the line is empty again, the proof is over. */
      readonly what:
        | 'begun'
        | 'refused'
        | 'asked'
        | 'locked'
        | 'proved'
        | 'broken-off'
        | 'vented'
        | 'void'
        /** A fill stands still under what was proved. */
        | 'elsewhere';
      readonly reason: SupplyReason | null;
      readonly end: LineEnd | null;
      readonly verdict: SupplyVerdict | null;
      readonly lockUpBar: Bounded | null;
      readonly creepMbarPerMin: Bounded | null;
      readonly ceilingInS: Bounded | null;
      /** How long the line took to rise, s. */
      readonly riseS: number | null;
      readonly bar: number | null;
    }
  /** Air test of the finished repair, attempt by attempt. */
  | {
      readonly e: 'air-test';
      /** 'timed': the time of the drop begins. 'vented': the pipe is empty again. */
      readonly what: 'begun' | 'refused' | 'stabilised' | 'timed' | 'judged' | 'broken-off' | 'vented';
      /** Attempts begun so far, this one among them. */
      readonly attempt: number;
      readonly reason: AirTestReason | null;
      readonly verdict: AirTestVerdict | null;
      readonly method: AirTestMethod | null;
      /** Where the time began. */
      readonly startMbar: number | null;
      /** At constant temperature of the air where that was measured; positive: fallen. */
      readonly dropMbar: number | null;
      readonly allowedMbar: number | null;
      /** Expanded uncertainty (k = 2) of the drop. */
      readonly uMbar: number | null;
      /** By how much the air grew warmer, K; null: no probe was in it. */
      readonly warmedK: number | null;
      /** Stabilised, to be timed, or timed, s. */
      readonly seconds: number | null;
    }
  /** The regulator's outlet stands, at this pressure, before air is let in; told again where it stands elsewhere. */
  | { readonly e: 'outlet-stood'; readonly bar: number }
  /** What the witness cup says of its batch, each time it is another thing. */
  | {
      readonly e: 'cup';
      readonly verdict: CupVerdict;
      readonly doubt: CupDoubt | null;
      /** Times the usual time of this resin; null: that is not known. */
      readonly times: {
        readonly least: number;
        readonly value: number | null;
        readonly most: number | null;
      } | null;
      /** The sheet's time at the cup's temperature at the greatest heat (1 = all of it): the batch's mark; null: it has not passed. */
      readonly heatAge: number | null;
      readonly riseK: number;
    }
  | { readonly e: 'mixed' }
  | { readonly e: 'witness'; readonly hard: boolean; readonly atPipeTemperature: boolean }
  /** The sample that was just felt contradicts the count: progress by the data sheet, its middle. */
  | { readonly e: 'sample'; readonly doubt: SampleDoubt; readonly age: number }
  | { readonly e: 'override'; readonly what: string; readonly reason: string }
  /** An item of the checklist was answered, gone on without, or its answer was taken back. */
  | {
      readonly e: 'check';
      readonly item: string;
      /** Its words as they were asked; empty: the language's own for that item of the built-in list. */
      readonly said: string;
      readonly safety: boolean;
      readonly how: CheckSaid;
      readonly text: string;
      readonly by: string;
    }
  /** Whoever sits at the computer from here on; empty: nobody is named. */
  | { readonly e: 'operator'; readonly by: string }
  | { readonly e: 'note'; readonly text: string }
  | {
      readonly e: 'device';
      /** How it answered, or what it tells of itself, but for its start, which the hello tells as well. */
      readonly what: 'greeted' | 'reset' | 'other' | 'rescaled' | 'taken' | Exclude<DeviceEventCode, 'boot'>;
      readonly value: number | null;
    }
  /** The second adapter, whose temperatures stand beside the pressure. */
  | {
      readonly e: 'beside';
      /** 'port': it went away. 'closed': by hand. 'silent': nothing comes of it. 'other' and 'rescaled': not the Setup's. */
      readonly what: 'greeted' | 'other' | 'rescaled' | 'port' | 'closed' | 'silent' | 'back';
      /** Since its last sample; null: nothing of that is meant. */
      readonly seconds: number | null;
    }
  | { readonly e: 'store'; readonly ok: boolean; readonly code: string }
  | { readonly e: 'end' }
);
