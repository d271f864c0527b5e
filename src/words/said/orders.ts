import type { AlarmCode, Stage } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import type { AlarmView, WatchView } from '../../watch/view.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import {
  afterFall,
  afterJump,
  areSwapped,
  inHose,
  isNow,
  isOver,
  isUnderNow,
  leftFull,
  roundedDown,
  SEEN_BAR,
  unannounced,
} from './alarm-cases.ts';

/**
 * Which order an alarm gives, and which figures stand beside it. What a hand is to do is chosen here, for every language
 * at once: a language has its words for an order, and no say in which one it is.
 */

/** What is seen beside the alarm, and bends its order. */
export type Scene = Pick<WatchView, 'stage'> &
  Partial<Pick<WatchView, 'question' | 'limits' | 'bar'>> & {
    /** Up to which a line counts as at zero, bar. */
    readonly zeroToBar?: number;
  };

/** A name and a value beside an order. Pressures are without their unit: it stands with the big number. */
export type Figure = readonly [label: string, value: string];

/** An alarm as it takes the stage: read from three metres, so all of it is short. */
export interface Order {
  /** One or two lines in capitals, of nine letters and spaces at most; empty: it orders nothing any more. */
  readonly verb: readonly string[];
  /** Said as large as the verb, besides it: who else has to act. */
  readonly call: string | null;
  /** The same for an ear: one short order. */
  readonly spoken: string;
  /** It wants the supply valve shut at once: no count of the fill stands beside it. */
  readonly shutsAir: boolean;
  /** At most two, of the alarm's own moment. */
  readonly figures: readonly Figure[];
  readonly sentence: string;
}

/** The orders that there are. */
export const VERB_CODES = [
  'air-off',
  'air-off-vent',
  'air-off-clear',
  'keep-clear',
  // An order that fits either answer: a question alone, read from three metres, told nobody what to do.
  'keep-clear-asking',
  'find-loss',
  'find-leak',
  'top-up',
  'check-gauge',
  'check-device',
  'check-cable',
  'check-cables',
  'check-probe',
  'check-power',
  'check-valve',
  'feel-sample',
  'let-out-a-little',
  'let-out-to',
  'go-by-gauge',
  'slow-down',
  'seat-or-take-out',
  'seat-or-let-down',
  'vent-again',
  'lower-regulator',
  'wait-or-warm',
  'write-down',
  'keep-screen-on',
] as const;
export type VerbCode = (typeof VERB_CODES)[number];

/** Orders that shut the supply valve. */
const SHUTS_AIR: ReadonlySet<VerbCode> = new Set<VerbCode>(['air-off', 'air-off-vent', 'air-off-clear']);

/** The names that a figure beside an order may have. */
export const FIGURE_CODES = [
  'at-least',
  'rated',
  'over-rated-by',
  'ceiling',
  'if-left-open',
  'supply-now',
  'supply',
  'may-stand-over',
  'it-stood-at',
  'supply-proved-at',
  'last-reading',
  'no-reading-for',
  'limit-in-device',
  'limit-here',
  'reading-here',
  'now',
  'hold-floor',
  'hold-floor-in',
  'leak',
  'leave-at-least',
  'sensor',
  'readings-a-second',
  'jumped-by',
  'dial-gauge',
  'packer',
  'second',
  'came-back-to',
  'zero-is-up-to',
  'coldest',
  'pot-life-left',
  'usual-time',
  'pressure',
  'asleep-for',
  'test-allows',
] as const;
export type FigureCode = (typeof FIGURE_CODES)[number];

/** An order as it is read, and as a voice says it. */
export interface VerbWords {
  readonly lines: readonly [string] | readonly [string, string];
  readonly spoken: string;
}

/** What a language says of orders. */
export interface OrderWords {
  readonly VERB: Readonly<Record<Exclude<VerbCode, 'let-out-to'>, VerbWords>>;
  /** 'Let out to' a pressure, written as the ladder has it. */
  readonly letOutTo: (pressure: string) => VerbWords;
  readonly EVERYONE_CLEAR: { readonly text: string; readonly spoken: string };
  readonly FIGURE: Readonly<Record<FigureCode, string>>;
  /** A time of which nothing is left. */
  readonly NOW: string;
}

/** Over this a line is under pressure, bar. */
const EMPTY_BAR = 0.05;

const fills = (stage: Stage): boolean => stage === 'seat' || stage === 'inflate';
/** Air may be coming in: it is being let in, or it was there before anybody said so. */
const mayFill = (v: AlarmValues, { stage }: Scene): boolean =>
  fills(stage) || (stage === 'prepare' && (v.bar ?? 0) > EMPTY_BAR);
/** Air is asked for only where what was lost is a small leak, by a reading that nobody doubts. */
const topUp = (v: AlarmValues): VerbCode =>
  afterJump(v) ? 'check-gauge' : afterFall(v) ? 'find-loss' : 'top-up';
/** The crew has said that no more air goes in: hands may be on the packer. */
const after = (stage: Stage): boolean => stage === 'let-down' || stage === 'done' || stage === 'abandoned';

/**
 * @param alarm its values are of now while it stands; of one that is over, of its moment
 * @param at the stage and what else bends the order
 */
export type OrderOf = (alarm: Pick<AlarmView, 'state' | 'values'>, at: Scene, units?: DisplayUnits) => Order;

/** @param alarmSentence the whole sentence of an alarm as it stands, in the same language */
export function ordersOf(
  f: Format,
  words: OrderWords,
  alarmSentence: (alarm: Pick<AlarmView, 'alarm' | 'state' | 'values'>, units: DisplayUnits) => string,
): Record<AlarmCode, OrderOf> {
  interface Row {
    readonly verb: VerbCode | ((v: AlarmValues, at: Scene, u: DisplayUnits) => VerbCode);
    /** Everyone has to go, not the hand at the valve alone. */
    readonly callsAll?: true;
    readonly figures?: (v: AlarmValues, at: Scene, u: DisplayUnits) => readonly (Figure | null)[];
  }

  const named = (code: FigureCode, value: string): Figure => [words.FIGURE[code], value];
  const bar = (code: FigureCode, value: number | null | undefined, u: DisplayUnits): Figure | null =>
    value === undefined || value === null ? null : named(code, f.pressureNumber(value, u));
  const seconds = (code: FigureCode, s: number | undefined): Figure | null =>
    s === undefined ? null : named(code, f.duration(roundedDown(s)));
  const till = (code: FigureCode, s: number | undefined): Figure | null =>
    s !== undefined && isNow(s) ? named(code, words.NOW) : seconds(code, s);
  /** What is called 'now' is the large number of the page: the alarm's own value is a little older. */
  const nowBar = (v: AlarmValues, { bar: read }: Scene): number | undefined => read ?? v.bar;
  const rated = ({ limits }: Scene, u: DisplayUnits): Figure | null => bar('rated', limits?.ratedBar, u);
  const floor = (v: AlarmValues, u: DisplayUnits): Figure | null => bar('hold-floor', v.floorBar, u);
  /** Do the aim of the letting out and what must be left read as two numbers? */
  const leavesRoom = ({ adviceLowBar: least, adviceHighBar: to }: AlarmValues, u: DisplayUnits): boolean =>
    least !== undefined && (to === undefined || f.pressureNumber(least, u) !== f.pressureNumber(to, u));

  const ROW: Record<AlarmCode, Row> = {
    'over-range': {
      verb: 'air-off-vent',
      callsAll: true,
      figures: (v, at, u) => [bar('at-least', v.spanBar, u), rated(at, u)],
    },
    'over-rated': {
      verb: 'air-off-vent',
      callsAll: true,
      figures: (v, _, u) => [
        (v.overBar ?? 0) < SEEN_BAR ? null : bar('over-rated-by', v.overBar, u),
        bar('rated', v.ratedBar, u),
      ],
    },
    'over-test': {
      verb: 'air-off-vent',
      callsAll: true,
      figures: (v, _, u) => [
        v.ceilingBar === undefined ? null : named('test-allows', f.testPressureNumber(v.ceilingBar, u)),
      ],
    },
    ceiling: {
      verb: 'air-off-vent',
      figures: (v, at, u) => [bar('ceiling', v.ceilingBar, u), rated(at, u)],
    },
    rising: {
      verb: (_, at) => (after(at.stage) ? 'air-off-clear' : 'air-off'),
      // The time to the ceiling counts down beside the pressure: it is said there alone.
      figures: (v, at, u) =>
        v.kind === 'settle'
          ? [bar('if-left-open', v.settleBar, u), bar('ceiling', v.ceilingBar, u)]
          : [bar('ceiling', v.ceilingBar, u), rated(at, u)],
    },
    'supply-over': {
      // Before the fill it is the regulator that has to be turned; nobody opens anything for it.
      verb: (_, at) => (at.stage === 'prepare' ? 'lower-regulator' : 'air-off'),
      figures: (v, _, u) => [
        bar(isUnderNow(v) ? 'supply-now' : 'supply', v.secondBar, u),
        bar(isUnderNow(v) ? 'may-stand-over' : 'ceiling', v.ceilingBar, u),
      ],
    },
    'supply-moved': {
      verb: 'air-off',
      figures: (v, at, u) =>
        v.secondBar !== undefined
          ? [bar('supply', v.secondBar, u), bar('it-stood-at', v.lockUpBar, u)]
          : [bar('supply-proved-at', v.lockUpBar, u), bar('ceiling', at.limits?.ceilingBar, u)],
    },
    'pressure-lost': {
      verb: (v, at) => (mayFill(v, at) ? 'air-off-clear' : 'keep-clear'),
      figures: (v, _, u) => [bar('last-reading', v.bar, u), seconds('no-reading-for', v.seconds)],
    },
    'device-trip': {
      verb: 'air-off-clear',
      figures: (v, _, u) => [bar('limit-in-device', v.ceilingBar, u), bar('reading-here', v.bar, u)],
    },
    'fast-fall': {
      verb: (_, at) => (at.question === 'let-down-or-loss' ? 'keep-clear-asking' : 'air-off-clear'),
      figures: (v, at, u) => [bar('now', nowBar(v, at), u), floor(v, u)],
    },
    'below-floor': {
      verb: topUp,
      figures: (v, at, u) => [bar('now', nowBar(v, at), u), floor(v, u)],
    },
    leaking: {
      verb: (v) => (afterJump(v) ? 'check-gauge' : afterFall(v) ? 'find-loss' : 'find-leak'),
      figures: (v, _, u) => [
        v.mbarPerMin === undefined ? null : named('leak', f.pressureRate(v.mbarPerMin, u)),
        floor(v, u),
      ],
    },
    'band-exit': {
      verb: topUp,
      figures: (v, _, u) => [till('hold-floor-in', v.inS), floor(v, u)],
    },
    lift: {
      verb: (v) => (v.adviceHighBar === undefined ? 'let-out-a-little' : 'let-out-to'),
      // Where the aim is the least that may be left, it is said once, and what lies below it is named by its own name.
      figures: (v, _, u) => [
        leavesRoom(v, u) ? bar('leave-at-least', v.adviceLowBar, u) : bar('hold-floor', v.floorBar, u),
        bar('ceiling', v.ceilingBar, u),
      ],
    },
    'device-unarmed': {
      verb: 'check-device',
      figures: (v, at, u) => [
        bar('limit-here', at.limits?.ceilingBar, u),
        at.limits?.ceilingBar === v.ceilingBar ? null : bar('limit-in-device', v.ceilingBar, u),
      ],
    },
    'device-deaf': { verb: 'check-cable' },
    'device-fault': { verb: 'check-device' },
    'device-reset': { verb: 'check-power' },
    'supply-low': {
      verb: (_, at) => (fills(at.stage) ? 'go-by-gauge' : 'check-power'),
      figures: (v, _, u) => [bar('sensor', v.bar, u)],
    },
    'slow-readings': {
      verb: (_, at) => (fills(at.stage) ? 'slow-down' : 'check-cable'),
      figures: (v) => [
        v.perSecond === undefined
          ? null
          : named('readings-a-second', f.fixed(v.perSecond, v.perSecond < 2 ? 1 : 0)),
      ],
    },
    stuck: {
      verb: (_, at) => (fills(at.stage) ? 'air-off' : 'check-gauge'),
      figures: (v, _, u) => [bar('sensor', v.bar, u)],
    },
    'reading-jump': {
      verb: (v, at) => (isOver(v) ? 'air-off-vent' : fills(at.stage) ? 'air-off' : 'check-gauge'),
      figures: (v, _, u) => [bar('jumped-by', v.jumpBar, u), bar('sensor', v.bar, u)],
    },
    'line-contradicted': { verb: 'check-valve' },
    'gauge-differs': {
      verb: (v) => (isOver(v) ? 'air-off-vent' : 'check-gauge'),
      figures: (v, _, u) => [bar('dial-gauge', v.gaugeBar, u), bar('sensor', v.bar, u)],
    },
    'sensors-differ': {
      verb: (v) => (areSwapped(v) ? 'check-cables' : 'check-gauge'),
      figures: (v, _, u) => [bar('packer', v.bar, u), bar('second', v.secondBar, u)],
    },
    'second-lost': { verb: 'check-cable' },
    rebound: {
      verb: (v) => (unannounced(v) || leftFull(v) ? 'air-off-vent' : 'vent-again'),
      figures: (v, at, u) =>
        unannounced(v) || leftFull(v)
          ? [bar('now', v.bar, u)]
          : [bar('came-back-to', v.bar, u), bar('zero-is-up-to', at.zeroToBar, u)],
    },
    'temperature-lost': { verb: 'check-probe' },
    cold: {
      verb: 'wait-or-warm',
      figures: (v, _, u) => [v.c === undefined ? null : named('coldest', f.temperature(v.c, u))],
    },
    'pot-life': {
      verb: (_, at) => (at.stage === 'prepare' ? 'seat-or-take-out' : 'seat-or-let-down'),
      figures: (v) => [v.seconds !== undefined && v.seconds > 0 ? seconds('pot-life-left', v.seconds) : null],
    },
    'batch-slow': {
      // What shows no warmth where all others have it is most likely no cup.
      verb: (v) =>
        v.cause === 'cooler-than-sleeve' || v.cause === 'no-reaction' ? 'check-probe' : 'feel-sample',
      figures: (v) => [v.times === undefined ? null : named('usual-time', `${f.fixed(v.times, 1)} ×`)],
    },
    'store-fault': {
      verb: 'write-down',
      figures: (v, at, u) => [bar('pressure', nowBar(v, at), u)],
    },
    'clock-jump': {
      verb: 'keep-screen-on',
      figures: (v) => [seconds('asleep-for', v.seconds)],
    },
    garbage: { verb: 'check-cable' },
  };

  const said = (verb: VerbCode, v: AlarmValues, u: DisplayUnits): VerbWords =>
    verb !== 'let-out-to' ? words.VERB[verb] : words.letOutTo(f.pressureNumber(v.adviceHighBar ?? 0, u));

  const orderOf =
    (code: AlarmCode): OrderOf =>
    ({ state, values }, at, units = METRIC) => {
      const sentence = alarmSentence({ alarm: code, state, values }, units);
      if (state === 'returned')
        return { verb: [], call: null, spoken: '', shutsAir: false, figures: [], sentence };
      const { verb, callsAll, figures } = ROW[code];
      const order = typeof verb === 'function' ? verb(values, at, units) : verb;
      const { lines, spoken } = said(order, values, units);
      const call = callsAll === undefined || inHose(values) ? null : words.EVERYONE_CLEAR;
      return {
        verb: lines,
        call: call?.text ?? null,
        spoken: call === null ? spoken : `${spoken} ${call.spoken}`,
        shutsAir: SHUTS_AIR.has(order),
        figures: figures?.(values, at, units).filter((figure) => figure !== null) ?? [],
        sentence,
      };
    };

  return Object.fromEntries(Object.keys(ROW).map((code) => [code, orderOf(code as AlarmCode)])) as Record<
    AlarmCode,
    OrderOf
  >;
}
