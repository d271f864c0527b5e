import type { AlarmCode, Priority, Stage } from '../codes.ts';
import { ALARMS, STAGES } from '../codes.ts';

/** What an alarm means if nobody acts. Texts are in the catalogue and in docs/alarms.md. */
export type Consequence =
  | 'burst'
  | 'plug-thrown'
  | 'unseen-pressure'
  | 'sleeve-loosens'
  | 'uncured'
  | 'pulled-while-full'
  | 'guard-weakened'
  | 'wrong-number'
  | 'record-incomplete';

/** What the crew does about it. */
export type Action =
  | 'stop-air-and-vent'
  | 'turn-supply-down'
  | 'keep-clear-and-reconnect'
  | 'say-let-down-or-loss'
  | 'top-up-and-find-leak'
  | 'let-out-to-advice'
  | 'arm-device'
  | 'check-supply'
  | 'check-device'
  | 'check-sensor'
  | 'correct-job-sheet'
  | 'vent-again-and-wait'
  | 'check-probe'
  | 'wait-or-warm'
  | 'seat-or-discard'
  | 'feel-sample'
  | 'free-storage'
  | 'check-cable'
  | 'keep-screen-awake';

/** Re-alarming (IEC 62682): the acknowledgement of what stays, or grows, does not last for ever. */
export interface Again {
  /** After this long, while it is urgent, s; null: never by time. */
  readonly afterS: number | null;
  /** Each time its quantity has gone further past its limit by this share of it; null: never by such a share. */
  readonly share: number | null;
  /**
   * Each time its quantity has gone further past its limit by this, bar: where the limit is next to zero. Such an alarm
   * asks by time too, urgent or not, as long as the quantity is past its limit, and such a step ends its shelf.
   */
  readonly stepBar?: number;
  /** When its rate has surely doubled since it was acknowledged or put aside. */
  readonly doubles?: true;
}

/** One row of the alarm table (IEC 62682, rationalisation). docs/alarms.md is checked against it. */
export interface AlarmRow {
  readonly alarm: AlarmCode;
  readonly priority: Priority;
  /** While one of these is raised, this alarm says nothing new and is suppressed by design. */
  readonly parents: readonly AlarmCode[];
  /** Stages in which it is annunciated; in others it is suppressed by design. */
  readonly stages: readonly Stage[];
  /** The condition must hold for the whole time before the alarm is raised, s. */
  readonly onDelayS: number;
  /** The condition must be gone for the whole time before it returns to normal, s. */
  readonly offDelayS: number;
  /** Cleared only beyond limit − deadband, in the quantity's own unit (bar or K); 0: none. */
  readonly deadband: number;
  /** When it asks again after an acknowledgement, in the same occurrence. */
  readonly again: Again;
  /** May be shelved while it is not urgent. */
  readonly shelvable: boolean;
  readonly consequence: Consequence;
  readonly action: Action;
  /** Time in which the action still helps, s. */
  readonly actS: number;
}

/** Longest time for which an alarm may be shelved, s. */
export const LONGEST_SHELF_S = 1800;

const NEVER: Again = { afterS: null, share: null };
/** As the device's own sounder does (firmware-protocol/SPEC.md, part 7; common practice, no source). */
const STILL_THERE: Again = { afterS: 120, share: null };

/** So much more air in a packer that was said to be empty is news (common practice, no source). */
const FILLS_ON: Again = { ...STILL_THERE, stepBar: 0.15 };
/** And so much less in one that is held up, however well its leak is known (common practice, no source). */
const EMPTIES_ON: Again = { ...NEVER, stepBar: 0.15 };
/** Two at the packer that go further apart by this are another matter than the one that was acknowledged (common practice, no source). */
const DIFFERS_MORE: Again = { ...NEVER, stepBar: 0.2 };
/** A leak of twice the rate is another one. */
const LEAKS_ON: Again = { ...EMPTIES_ON, doubles: true };

const UP: readonly Stage[] = ['seat', 'inflate', 'hold'];
const HOLD: readonly Stage[] = ['hold'];

type Properties = Omit<AlarmRow, 'alarm'>;

/** Short form of a row: what is not said is the common case. */
function row(
  priority: Priority,
  consequence: Consequence,
  action: Action,
  actS: number,
  more: Partial<Properties> = {},
): Properties {
  return {
    priority,
    parents: [],
    stages: STAGES,
    onDelayS: 0,
    offDelayS: 0,
    deadband: 0,
    again: NEVER,
    shelvable: true,
    consequence,
    action,
    actS,
    ...more,
  };
}

const LOST: readonly AlarmCode[] = ['pressure-lost'];

const ROWS: { readonly [A in AlarmCode]: Properties } = {
  // Without on-delay: the median of three has cost its one sample already.
  'over-range': row('urgent', 'burst', 'stop-air-and-vent', 3, {
    offDelayS: 1,
    again: STILL_THERE,
    shelvable: false,
  }),
  'over-rated': row('urgent', 'burst', 'stop-air-and-vent', 3, {
    parents: ['over-range'],
    offDelayS: 1,
    // Less than U, so that under the rated pressure the ceiling speaks again.
    deadband: 0.01,
    again: { ...STILL_THERE, share: 0.1 },
    shelvable: false,
  }),
  // What plugs hold is known to nobody here: the test's own most is what counts.
  'over-test': row('urgent', 'plug-thrown', 'stop-air-and-vent', 3, {
    parents: ['over-range', 'over-rated'],
    offDelayS: 1,
    deadband: 0.001,
    again: { ...STILL_THERE, share: 0.1 },
    shelvable: false,
  }),
  ceiling: row('urgent', 'burst', 'stop-air-and-vent', 3, {
    parents: ['over-range', 'over-rated'],
    offDelayS: 1,
    deadband: 0.02,
    again: STILL_THERE,
    shelvable: false,
  }),
  rising: row('urgent', 'burst', 'stop-air-and-vent', 3, {
    parents: ['over-range', 'ceiling'],
    offDelayS: 1,
    again: STILL_THERE,
    shelvable: false,
  }),
  // Its delay in calm stages is the mean that it goes by.
  'supply-over': row('high', 'burst', 'turn-supply-down', 10, {
    parents: ['over-range', 'over-rated', 'ceiling', 'rising'],
    stages: ['prepare', ...UP],
    offDelayS: 2,
    deadband: 0.02,
    again: { ...STILL_THERE, share: 0.25 },
  }),
  'supply-moved': row('high', 'burst', 'stop-air-and-vent', 10, {
    parents: ['over-range', 'over-rated', 'ceiling', 'rising', 'supply-over', 'pressure-lost'],
    stages: UP,
    offDelayS: 2,
    deadband: 0.01,
    again: STILL_THERE,
  }),
  // Its on-delays hang on stage and sample period and are part of its condition (signal/loss.ts). The off-delay
  // gives slow channels time to come back before their own alarms would speak up.
  'pressure-lost': row('urgent', 'unseen-pressure', 'keep-clear-and-reconnect', 10, {
    offDelayS: 2,
    again: STILL_THERE,
    shelvable: false,
  }),
  'device-trip': row('urgent', 'burst', 'stop-air-and-vent', 3, {
    parents: ['over-range', 'ceiling'],
    offDelayS: 1,
    again: STILL_THERE,
    shelvable: false,
  }),
  'fast-fall': row('high', 'sleeve-loosens', 'say-let-down-or-loss', 30, {
    parents: LOST,
    stages: UP,
    onDelayS: 0.3,
    offDelayS: 2,
  }),
  'below-floor': row('high', 'sleeve-loosens', 'top-up-and-find-leak', 120, {
    parents: ['pressure-lost', 'fast-fall', 'reading-jump'],
    stages: HOLD,
    onDelayS: 5,
    offDelayS: 5,
    deadband: 0.02,
    again: EMPTIES_ON,
  }),
  leaking: row('high', 'sleeve-loosens', 'top-up-and-find-leak', 600, {
    parents: ['pressure-lost', 'fast-fall', 'reading-jump', 'below-floor'],
    stages: HOLD,
    offDelayS: 60,
    again: LEAKS_ON,
  }),
  'band-exit': row('low', 'sleeve-loosens', 'top-up-and-find-leak', 600, {
    parents: ['pressure-lost', 'fast-fall', 'reading-jump', 'below-floor', 'leaking'],
    stages: HOLD,
    onDelayS: 10,
    offDelayS: 60,
  }),
  lift: row('high', 'burst', 'let-out-to-advice', 300, {
    parents: ['over-range', 'ceiling', 'rising', 'pressure-lost'],
    stages: HOLD,
    offDelayS: 60,
  }),
  'device-unarmed': row('high', 'guard-weakened', 'arm-device', 60, {
    parents: LOST,
    stages: UP,
    onDelayS: 3,
  }),
  'device-deaf': row('high', 'guard-weakened', 'check-cable', 60, { parents: LOST, offDelayS: 2 }),
  'device-fault': row('low', 'guard-weakened', 'check-device', 60),
  'device-reset': row('low', 'guard-weakened', 'check-supply', 60, { parents: LOST }),
  'supply-low': row('low', 'wrong-number', 'check-supply', 300, { parents: LOST, onDelayS: 1, offDelayS: 5 }),
  'slow-readings': row('low', 'guard-weakened', 'check-cable', 60, {
    parents: LOST,
    stages: ['prepare', ...UP],
    onDelayS: 2,
    offDelayS: 2,
  }),
  stuck: row('high', 'unseen-pressure', 'check-sensor', 60, {
    parents: ['over-range', 'pressure-lost'],
    offDelayS: 1,
    again: STILL_THERE,
  }),
  'reading-jump': row('high', 'wrong-number', 'check-sensor', 60, {
    parents: ['over-range', 'pressure-lost'],
    stages: [...UP, 'let-down'],
    again: STILL_THERE,
  }),
  'line-contradicted': row('low', 'wrong-number', 'correct-job-sheet', 600, {
    parents: LOST,
    stages: HOLD,
    offDelayS: 10,
  }),
  'sensors-differ': row('high', 'wrong-number', 'check-sensor', 60, {
    parents: ['over-range', 'pressure-lost'],
    stages: ['prepare', ...UP, 'let-down'],
    offDelayS: 2,
    again: DIFFERS_MORE,
  }),
  'second-lost': row('low', 'guard-weakened', 'check-cable', 60, {
    parents: LOST,
    stages: ['prepare', ...UP],
    onDelayS: 1,
    offDelayS: 2,
  }),
  'gauge-differs': row('high', 'burst', 'check-sensor', 60, {
    again: STILL_THERE,
  }),
  rebound: row('high', 'pulled-while-full', 'vent-again-and-wait', 30, {
    stages: ['prepare', 'let-down', 'done', 'abandoned'],
    again: FILLS_ON,
  }),
  'temperature-lost': row('low', 'uncured', 'check-probe', 600, {
    parents: LOST,
    stages: UP,
    onDelayS: 5,
    offDelayS: 2,
  }),
  cold: row('low', 'uncured', 'wait-or-warm', 1800, {
    stages: UP,
    onDelayS: 60,
    offDelayS: 60,
    deadband: 0.5,
  }),
  'pot-life': row('low', 'sleeve-loosens', 'seat-or-discard', 300, { stages: ['prepare', 'seat'] }),
  'batch-slow': row('low', 'uncured', 'feel-sample', 1800, { stages: ['prepare', ...UP] }),
  'store-fault': row('high', 'record-incomplete', 'free-storage', 60),
  'clock-jump': row('low', 'record-incomplete', 'keep-screen-awake', 300, { parents: LOST, offDelayS: 5 }),
  garbage: row('low', 'unseen-pressure', 'check-cable', 300, { parents: LOST, offDelayS: 10 }),
};

/** A row an alarm, in the order of ALARMS: the order of an alarm list, of its slots and of events of one moment. */
export const ALARM_TABLE: readonly AlarmRow[] = ALARMS.map((alarm) => ({ alarm, ...ROWS[alarm] }));

const BY_CODE: ReadonlyMap<AlarmCode, AlarmRow> = new Map(ALARM_TABLE.map((r) => [r.alarm, r]));

export function rowOf(alarm: AlarmCode): AlarmRow {
  return BY_CODE.get(alarm)!;
}
