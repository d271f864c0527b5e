import type { AlarmCode, Stage } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import type { AlarmView, WatchView } from '../../watch/view.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import { inHose, isOver, leftFull, unannounced } from './alarm-titles.ts';
import {
  afterFall,
  afterJump,
  type alarms,
  areSwapped,
  isNow,
  isUnderNow,
  roundedDown,
  SEEN_BAR,
} from './alarms.ts';

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

/**
 * One name for each tap, and no line that reads as its opposite where the eye takes in one line of the two, or both
 * across: 'shut air, vent' was read as 'shut the air vent'. No order sends a person towards a packer that may be full.
 */
interface Verb {
  readonly lines: readonly [string] | readonly [string, string];
  /** As a voice says it. */
  readonly spoken: string;
}

const verb = (lines: Verb['lines'], spoken: string): Verb => ({ lines, spoken });

const AIR_OFF = verb(['AIR OFF', 'NOW'], 'Air off, now.');
const AIR_OFF_VENT = verb(['AIR OFF', 'OPEN VENT'], 'Air off. Then open the vent.');
const AIR_OFF_CLEAR = verb(['AIR OFF', 'GET CLEAR'], 'Air off. Get clear.');
const SHUTS_AIR: ReadonlySet<Verb> = new Set([AIR_OFF, AIR_OFF_VENT, AIR_OFF_CLEAR]);
const KEEP_CLEAR = verb(['KEEP', 'CLEAR'], 'Keep clear.');
/** An order that fits either answer: a question alone, read from three metres, told nobody what to do. */
const KEEP_CLEAR_ASKING = verb(KEEP_CLEAR.lines, 'Keep clear. Are you letting down?');
const FIND_LOSS = verb(['FIND THE', 'LOSS'], 'Find the loss first. Keep clear.');
const TOP_UP = verb(['TOP UP', 'SLOWLY'], 'Top up slowly.');
const CHECK_GAUGE = verb(['CHECK', 'THE GAUGE'], 'Check the dial gauge.');
const CHECK_DEVICE = verb(['CHECK', 'DEVICE'], 'Check the device.');
const CHECK_CABLE = verb(['CHECK THE', 'CABLE'], 'Check the cable.');
const CHECK_PROBE = verb(['CHECK THE', 'PROBE'], 'Check the probe.');
const FEEL_SAMPLE = verb(['FEEL THE', 'SAMPLE'], 'Feel the witness sample.');
const CHECK_POWER = verb(['CHECK', 'POWER'], 'Check the power.');
const FIND_LEAK = verb(['FIND THE', 'LEAK'], 'Find the leak.');
const LET_OUT_A_LITTLE = verb(['LET OUT', 'A LITTLE'], 'Let a little air out.');
const GO_BY_GAUGE = verb(['GO BY THE', 'GAUGE'], 'Go by the dial gauge.');
const SLOW_DOWN = verb(['SLOW', 'DOWN'], 'Slow down.');
const SEAT_OR_TAKE_OUT = verb(['SEAT OR', 'TAKE OUT'], 'Seat the sleeve, or take it out.');
const SEAT_OR_LET_DOWN = verb(['SEAT OR', 'LET DOWN'], 'Seat the sleeve, or let down.');
const VENT_AGAIN = verb(['VENT', 'AGAIN'], 'Vent again. The packer is not empty.');
const LOWER_REGULATOR = verb(['LOWER', 'REGULATOR'], 'Turn the regulator down.');
const CHECK_CABLES = verb(['CHECK THE', 'CABLES'], 'Check the sensors’ cables.');
const EVERYONE_CLEAR = { text: 'EVERYONE CLEAR', spoken: 'Everyone clear.' };

/** Over this a line is under pressure, bar. */
const EMPTY_BAR = 0.05;

const fills = (stage: Stage): boolean => stage === 'seat' || stage === 'inflate';
/** Air may be coming in: it is being let in, or it was there before anybody said so. */
const mayFill = (v: AlarmValues, { stage }: Scene): boolean =>
  fills(stage) || (stage === 'prepare' && (v.bar ?? 0) > EMPTY_BAR);
/** Air is asked for only where what was lost is a small leak, by a reading that nobody doubts. */
const topUp = (v: AlarmValues): Verb => (afterJump(v) ? CHECK_GAUGE : afterFall(v) ? FIND_LOSS : TOP_UP);
/** The crew has said that no more air goes in: hands may be on the packer. */
const after = (stage: Stage): boolean => stage === 'let-down' || stage === 'done' || stage === 'abandoned';

export function orders(f: Format, { alarmSentence }: ReturnType<typeof alarms>) {
  type Figures = (v: AlarmValues, at: Scene, u: DisplayUnits) => readonly (Figure | null)[];

  interface Row {
    readonly verb: Verb | ((v: AlarmValues, at: Scene, u: DisplayUnits) => Verb);
    readonly call?: typeof EVERYONE_CLEAR;
    readonly figures?: Figures;
  }

  const bar = (label: string, value: number | null | undefined, u: DisplayUnits): Figure | null =>
    value === undefined || value === null ? null : [label, f.pressureNumber(value, u)];
  const seconds = (label: string, s: number | undefined): Figure | null =>
    s === undefined ? null : [label, f.duration(roundedDown(s))];
  const till = (label: string, s: number | undefined): Figure | null =>
    s !== undefined && isNow(s) ? [label, 'now'] : seconds(label, s);
  /** What is called 'now' is the large number of the page: the alarm's own value is a little older. */
  const nowBar = (v: AlarmValues, { bar: read }: Scene): number | undefined => read ?? v.bar;
  const rated = ({ limits }: Scene, u: DisplayUnits): Figure | null => bar('Rated', limits?.ratedBar, u);
  const floor = (v: AlarmValues, u: DisplayUnits): Figure | null => bar('Hold floor', v.floorBar, u);
  /** Do the aim of the letting out and what must be left read as two numbers? */
  const leavesRoom = ({ adviceLowBar: least, adviceHighBar: to }: AlarmValues, u: DisplayUnits): boolean =>
    least !== undefined && (to === undefined || f.pressureNumber(least, u) !== f.pressureNumber(to, u));

  const ROW: Record<AlarmCode, Row> = {
    'over-range': {
      verb: AIR_OFF_VENT,
      call: EVERYONE_CLEAR,
      figures: (v, at, u) => [bar('At least', v.spanBar, u), rated(at, u)],
    },
    'over-rated': {
      verb: AIR_OFF_VENT,
      call: EVERYONE_CLEAR,
      figures: (v, _, u) => [
        (v.overBar ?? 0) < SEEN_BAR ? null : bar('Over rated by', v.overBar, u),
        bar('Rated', v.ratedBar, u),
      ],
    },
    ceiling: {
      verb: AIR_OFF_VENT,
      figures: (v, at, u) => [bar('Ceiling', v.ceilingBar, u), rated(at, u)],
    },
    rising: {
      verb: (_, at) => (after(at.stage) ? AIR_OFF_CLEAR : AIR_OFF),
      // The time to the ceiling counts down beside the pressure: it is said there alone.
      figures: (v, at, u) =>
        v.kind === 'settle'
          ? [bar('If left open', v.settleBar, u), bar('Ceiling', v.ceilingBar, u)]
          : [bar('Ceiling', v.ceilingBar, u), rated(at, u)],
    },
    'supply-over': {
      // Before the fill it is the regulator that has to be turned; nobody opens anything for it.
      verb: (_, at) => (at.stage === 'prepare' ? LOWER_REGULATOR : AIR_OFF),
      figures: (v, _, u) => [
        bar(isUnderNow(v) ? 'Supply now' : 'Supply', v.secondBar, u),
        bar(isUnderNow(v) ? 'May stand over' : 'Ceiling', v.ceilingBar, u),
      ],
    },
    'supply-moved': {
      verb: AIR_OFF,
      figures: (v, at, u) =>
        v.secondBar !== undefined
          ? [bar('Supply', v.secondBar, u), bar('It stood at', v.lockUpBar, u)]
          : [bar('Supply proved at', v.lockUpBar, u), bar('Ceiling', at.limits?.ceilingBar, u)],
    },
    'pressure-lost': {
      verb: (v, at) => (mayFill(v, at) ? AIR_OFF_CLEAR : KEEP_CLEAR),
      figures: (v, _, u) => [bar('Last reading', v.bar, u), seconds('No reading for', v.seconds)],
    },
    'device-trip': {
      verb: AIR_OFF_CLEAR,
      figures: (v, _, u) => [bar('Limit in device', v.ceilingBar, u), bar('Reading here', v.bar, u)],
    },
    'fast-fall': {
      verb: (_, at) => (at.question === 'let-down-or-loss' ? KEEP_CLEAR_ASKING : AIR_OFF_CLEAR),
      figures: (v, at, u) => [bar('Now', nowBar(v, at), u), floor(v, u)],
    },
    'below-floor': {
      verb: topUp,
      figures: (v, at, u) => [bar('Now', nowBar(v, at), u), floor(v, u)],
    },
    leaking: {
      verb: (v) => (afterJump(v) ? CHECK_GAUGE : afterFall(v) ? FIND_LOSS : FIND_LEAK),
      figures: (v, _, u) => [
        v.mbarPerMin === undefined ? null : ['Leak', f.pressureRate(v.mbarPerMin, u)],
        floor(v, u),
      ],
    },
    'band-exit': {
      verb: topUp,
      figures: (v, _, u) => [till('Hold floor in', v.inS), floor(v, u)],
    },
    lift: {
      verb: (v, _, u) =>
        v.adviceHighBar === undefined
          ? LET_OUT_A_LITTLE
          : verb(
              ['LET OUT', `TO ${f.pressureNumber(v.adviceHighBar, u)}`],
              `Let out to ${f.pressureNumber(v.adviceHighBar, u)}.`,
            ),
      // Where the aim is the least that may be left, it is said once, and what lies below it is named by its own name.
      figures: (v, _, u) => [
        leavesRoom(v, u) ? bar('Leave at least', v.adviceLowBar, u) : bar('Hold floor', v.floorBar, u),
        bar('Ceiling', v.ceilingBar, u),
      ],
    },
    'device-unarmed': {
      verb: CHECK_DEVICE,
      figures: (v, at, u) => [
        bar('Limit here', at.limits?.ceilingBar, u),
        at.limits?.ceilingBar === v.ceilingBar ? null : bar('Limit in device', v.ceilingBar, u),
      ],
    },
    'device-deaf': { verb: CHECK_CABLE },
    'device-fault': { verb: CHECK_DEVICE },
    'device-reset': { verb: CHECK_POWER },
    'supply-low': {
      verb: (_, at) => (fills(at.stage) ? GO_BY_GAUGE : CHECK_POWER),
      figures: (v, _, u) => [bar('Sensor', v.bar, u)],
    },
    'slow-readings': {
      verb: (_, at) => (fills(at.stage) ? SLOW_DOWN : CHECK_CABLE),
      figures: (v) => [
        v.perSecond === undefined
          ? null
          : ['Readings a second', f.fixed(v.perSecond, v.perSecond < 2 ? 1 : 0)],
      ],
    },
    stuck: {
      verb: (_, at) => (fills(at.stage) ? AIR_OFF : CHECK_GAUGE),
      figures: (v, _, u) => [bar('Sensor', v.bar, u)],
    },
    'reading-jump': {
      verb: (v, at) => (isOver(v) ? AIR_OFF_VENT : fills(at.stage) ? AIR_OFF : CHECK_GAUGE),
      figures: (v, _, u) => [bar('Jumped by', v.jumpBar, u), bar('Sensor', v.bar, u)],
    },
    'line-contradicted': { verb: verb(['CHECK THE', 'VALVE'], 'Check the supply valve.') },
    'gauge-differs': {
      verb: (v) => (isOver(v) ? AIR_OFF_VENT : CHECK_GAUGE),
      figures: (v, _, u) => [bar('Dial gauge', v.gaugeBar, u), bar('Sensor', v.bar, u)],
    },
    'sensors-differ': {
      verb: (v) => (areSwapped(v) ? CHECK_CABLES : CHECK_GAUGE),
      figures: (v, _, u) => [bar('Packer', v.bar, u), bar('Second', v.secondBar, u)],
    },
    'second-lost': { verb: CHECK_CABLE },
    rebound: {
      verb: (v) => (unannounced(v) || leftFull(v) ? AIR_OFF_VENT : VENT_AGAIN),
      figures: (v, at, u) =>
        unannounced(v) || leftFull(v)
          ? [bar('Now', v.bar, u)]
          : [bar('Came back to', v.bar, u), bar('Zero is up to', at.zeroToBar, u)],
    },
    'temperature-lost': { verb: CHECK_PROBE },
    cold: {
      verb: verb(['WAIT OR', 'WARM PIPE'], 'Wait, or warm the pipe.'),
      figures: (v, _, u) => [v.c === undefined ? null : ['Coldest', f.temperature(v.c, u)]],
    },
    'pot-life': {
      verb: (_, at) => (at.stage === 'prepare' ? SEAT_OR_TAKE_OUT : SEAT_OR_LET_DOWN),
      figures: (v) => [v.seconds !== undefined && v.seconds > 0 ? seconds('Pot life left', v.seconds) : null],
    },
    'batch-slow': {
      verb: (v) => (v.cause === 'cooler-than-sleeve' ? CHECK_PROBE : FEEL_SAMPLE),
      figures: (v) => [v.times === undefined ? null : ['Usual time', `${f.fixed(v.times, 1)} ×`]],
    },
    'store-fault': {
      verb: verb(['WRITE IT', 'DOWN'], 'Write the pressure down.'),
      figures: (v, at, u) => [bar('Pressure', nowBar(v, at), u)],
    },
    'clock-jump': {
      verb: verb(['KEEP THE', 'SCREEN ON'], 'Keep the screen on.'),
      figures: (v) => [seconds('Asleep for', v.seconds)],
    },
    garbage: { verb: CHECK_CABLE },
  };

  /**
   * @param alarm its values are of now while it stands; of one that is over, of its moment
   * @param at the stage and what else bends the order
   */
  type OrderOf = (alarm: Pick<AlarmView, 'state' | 'values'>, at: Scene, units?: DisplayUnits) => Order;

  const orderOf =
    (code: AlarmCode): OrderOf =>
    ({ state, values }, at, units = METRIC) => {
      const sentence = alarmSentence({ alarm: code, state, values }, units);
      if (state === 'returned')
        return { verb: [], call: null, spoken: '', shutsAir: false, figures: [], sentence };
      const { verb, figures } = ROW[code];
      const call = inHose(values) ? undefined : ROW[code].call;
      const order = typeof verb === 'function' ? verb(values, at, units) : verb;
      const { lines, spoken } = order;
      return {
        verb: lines,
        call: call?.text ?? null,
        spoken: call === undefined ? spoken : `${spoken} ${call.spoken}`,
        shutsAir: SHUTS_AIR.has(order),
        figures: figures?.(values, at, units).filter((figure) => figure !== null) ?? [],
        sentence,
      };
    };

  return {
    /** What an alarm says from three metres, by its code, its own view and the stage. */
    VERBS: Object.fromEntries(Object.keys(ROW).map((code) => [code, orderOf(code as AlarmCode)])) as Record<
      AlarmCode,
      OrderOf
    >,
  };
}
