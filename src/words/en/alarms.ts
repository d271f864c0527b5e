import type { AlarmCode, LossCause } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import { deviceFault } from './device-faults.ts';
import { STORE_CAUSE } from './link.ts';
import { PLACE } from './terms.ts';

const NO_WARNING = 'No warning does not mean safe.';

/** Why the reading is lost, and why it was. */
const LOSS: Record<LossCause, { readonly is: string; readonly was: string }> = {
  silence: { is: 'the device is silent', was: 'the device was silent' },
  port: { is: 'the cable or port is gone', was: 'the cable or port was gone' },
  range: { is: 'the sensor reads far under zero', was: 'the sensor read far under zero' },
  fault: { is: 'the sensor or its wire is faulty', was: 'the sensor or its wire was faulty' },
  reset: { is: 'the device restarted', was: 'the device restarted' },
  garbage: { is: 'only noise arrives', was: 'only noise arrived' },
  'other-device': { is: 'another device answers: put the first one back', was: 'another device answered' },
};

function lossCause(cause: string | undefined, tense: 'is' | 'was'): string {
  if (cause === undefined) return '';
  const known = Object.hasOwn(LOSS, cause) ? LOSS[cause as LossCause][tense] : cause;
  return ` (${known})`;
}

function storeCause(cause: string | undefined): string {
  if (cause === undefined) return '';
  const known = Object.hasOwn(STORE_CAUSE, cause) ? STORE_CAUSE[cause as keyof typeof STORE_CAUSE] : cause;
  return ` (${known})`;
}

/** Under this nobody sees by how much, bar: half of the last digit shown. */
const SEEN_BAR = 0.005;

type Text = (v: AlarmValues, u: DisplayUnits) => string;

/** What is so and what to do; and, of an alarm that is over, what was so at its moment: it commands nothing. */
interface Texts {
  readonly now: Text;
  readonly was: Text;
}

export function alarms(f: Format) {
  /** ' 1.46 bar' when known, else nothing: a text never shows an empty slot. */
  const with_ = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressure(bar, u)}`;
  };

  const range = (low: number | undefined, high: number | undefined, u: DisplayUnits): string => {
    if (low === undefined || high === undefined) return '';
    return ` (${f.pressureNumber(low, u)} to ${f.pressureNumber(high, u)})`;
  };

  const number = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressureNumber(bar, u)}`;
  };

  const seconds = (label: string, s: number | undefined, after = ''): string => {
    return s === undefined ? '' : `${label}${f.duration(s)}${after}`;
  };

  const secondsRange = (low: number | undefined, high: number | undefined): string => {
    if (low === undefined || high === undefined) return '';
    return ` (${f.duration(low)} to ${f.duration(high)})`;
  };

  const rate = (label: string, mbarPerMin: number | undefined, u: DisplayUnits): string => {
    return mbarPerMin === undefined ? '' : `${label}${f.pressureRate(mbarPerMin, u)}`;
  };

  /** 'let out to 1.35, not under 0.90': advice with a floor, or with the floor said to be unknown. */
  const advice = (v: AlarmValues, u: DisplayUnits): string => {
    if (v.adviceHighBar === undefined) return 'let a little air out';
    const floor =
      v.adviceLowBar === undefined
        ? '; the hold floor is not known'
        : `, not under ${f.pressureNumber(v.adviceLowBar, u)}`;
    return `let out to ${f.pressure(v.adviceHighBar, u)}${floor}`;
  };

  /** ' 5 times a second instead of 50'. */
  const perSecond = ({ perSecond: now, perSecondBefore: before }: AlarmValues): string =>
    now === undefined || before === undefined
      ? ' more rarely than before'
      : ` ${f.fixed(now, now < 2 ? 1 : 0)} times a second instead of ${f.fixed(before, before < 2 ? 1 : 0)}`;

  /** Air is not made up for where a hose may have blown off. */
  const afterFall = (v: AlarmValues): boolean => v.cause === 'fast-fall';

  const rising: Texts = {
    now: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `Lower the regulator now. Line will settle at ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}`;
      const when = seconds(' in ', v.inS, secondsRange(v.inLowS, v.inHighS));
      const limit = `Ceiling${with_(' ', v.ceilingBar, u)}`;
      if (v.kind === 'left-band')
        return `Shut the air now. Pressure${with_(' ', v.bar, u)} has left the working band and is not slowing. ${limit}${when}`;
      if (v.kind === 'hand-time') return `Shut the air now. ${limit}${when}, less than a hand needs`;
      return `Shut the air now. ${limit}${when}`;
    },
    was: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `Line was going to settle at ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}`;
      const when = seconds(', ', v.inS, ' away');
      const limit = `ceiling${with_(' ', v.ceilingBar, u)}`;
      return v.kind === 'left-band'
        ? `Pressure had left the working band${with_(' at ', v.bar, u)} and was not slowing, ${limit}${when}`
        : `Pressure was rising${with_(' at ', v.bar, u)}, ${limit}${when}`;
    },
  };

  const TEXT: Record<AlarmCode, Texts> = {
    'over-range': {
      now: (v, u) =>
        v.spanBar === undefined
          ? 'OVER the end of the sensor’s span, nobody sees how far: shut the air, then vent, keep clear'
          : `OVER ${f.pressure(v.spanBar, u)}, the end of the sensor’s span, nobody sees how far: shut the air, then vent, keep clear`,
      was: (v, u) => `Was over the end of the sensor’s span${with_(', ', v.spanBar, u)}`,
    },
    'over-rated': {
      now: (v, u) =>
        v.overBar !== undefined && v.overBar < SEEN_BAR
          ? `AT THE RATED PRESSURE${with_(' ', v.ratedBar, u)}: shut the air, then vent, keep clear`
          : `OVER RATED${with_(' by ', v.overBar, u)}${with_(', rated ', v.ratedBar, u)}: shut the air, then vent, keep clear`,
      was: (v, u) =>
        `Was over the rated pressure${with_(' ', v.ratedBar, u)}${with_(', at most ', v.bar, u)}`,
    },
    ceiling: {
      now: (v, u) =>
        `Pressure${with_(' ', v.bar, u)} is at the ceiling${with_(' ', v.ceilingBar, u)}: shut the air, then vent, keep clear`,
      was: (v, u) => `Was at the ceiling${with_(' ', v.ceilingBar, u)}${with_(', at most ', v.bar, u)}`,
    },
    rising,
    'pressure-lost': {
      now: (v) =>
        `Shut the air, keep clear. Pressure reading lost${lossCause(v.cause, 'is')}: the packer may be over-full`,
      was: (v) => `Pressure reading was lost${lossCause(v.cause, 'was')}`,
    },
    'device-trip': {
      now: (v, u) =>
        `The device’s own limit${with_(' ', v.ceilingBar, u)} tripped: shut the air, keep clear, look at the dial gauge. If it is high too, vent`,
      was: (v, u) => `The device’s own limit${with_(' ', v.ceilingBar, u)} had tripped`,
    },
    'fast-fall': {
      now: (v, u) =>
        `Pressure falls fast${with_(', now ', v.bar, u)}. Unless you are letting down: shut the air, keep clear, do not top up. A hose may be off or the packer burst`,
      was: (v, u) => `Pressure fell fast${with_(', it was at ', v.bar, u)}`,
    },
    'below-floor': {
      now: (v, u) =>
        afterFall(v)
          ? `Pressure${with_(' ', v.bar, u)} is under the hold floor${with_(' ', v.floorBar, u)} after a fast fall. Find the loss first, keep clear`
          : `Pressure${with_(' ', v.bar, u)} is under the hold floor${with_(' ', v.floorBar, u)}: the sleeve may come off the wall. Top up slowly`,
      was: (v, u) => `Was under the hold floor${with_(' ', v.floorBar, u)}${with_(', at least ', v.bar, u)}`,
    },
    leaking: {
      now: (v, u) =>
        afterFall(v)
          ? `The packer or line leaks${rate(' ', v.mbarPerMin, u)} after a fast fall. Find the loss first, keep clear`
          : `The packer or line leaks${rate(' ', v.mbarPerMin, u)}: look and listen for it at the couplings, touch none under pressure; top up before the floor`,
      was: (v, u) => `The packer or line leaked${rate(' ', v.mbarPerMin, u)}`,
    },
    'band-exit': {
      now: (v, u) =>
        afterFall(v)
          ? `Pressure will leave the hold band downwards${seconds(' in ', v.inS)}${with_(', floor ', v.floorBar, u)}, after a fast fall. Find the loss first, keep clear`
          : `Pressure will leave the hold band downwards${seconds(' in ', v.inS)}${with_(', floor ', v.floorBar, u)}: top up slowly`,
      was: (v, u) =>
        `Pressure was going to leave the hold band downwards${seconds(', ', v.inS, ' later')}${with_(', floor ', v.floorBar, u)}`,
    },
    lift: {
      now: (v, u) =>
        `Cure heat will raise the pressure${with_(' to ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}${seconds(' in ', v.inS)}: ${advice(v, u)}`,
      was: (v, u) =>
        `Cure heat was going to raise the pressure${with_(' to ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}${seconds(', ', v.inS, ' later')}`,
    },
    'device-unarmed': {
      now: () => 'Device limit off. Check cable and device; stay within hearing of this tablet',
      was: () => 'The device’s own limit was off',
    },
    'device-deaf': {
      now: () =>
        'The device takes no command: it cannot be told its limit, and may guard another one or none. Check the cable, stay within hearing of this tablet',
      was: () => 'The device took no command: it could not be told its limit',
    },
    'device-fault': { now: (v) => deviceFault(v.cause).now, was: (v) => deviceFault(v.cause).was },
    'device-reset': {
      now: () =>
        'The device restarted: check its power and cable. Some readings are missing and marked as a gap',
      was: () => 'The device restarted. Some readings are missing, a gap was marked',
    },
    'supply-low': {
      now: () =>
        'The reading may be too low: go by the dial gauge. The sensor is fed with too little voltage, or its voltage is not known: look at the power of the device',
      was: () =>
        'The sensor was fed with too little voltage, or its voltage was not known: it may have read low',
    },
    'slow-readings': {
      now: (v) =>
        `Readings come${perSecond(v)}: a fill that goes too far is seen later. Fill slower, check cable and device`,
      was: (v) => `Readings came${perSecond(v)}: a fill was seen later`,
    },
    stuck: {
      now: () =>
        'The reading does not move: shut the air and compare with the dial gauge. Do not go by this number',
      was: () => 'The reading did not move',
    },
    'line-contradicted': {
      now: () =>
        'The readings do not fit the line or tap that was declared: look at the valve and correct the job sheet. Until then hold and leak are not judged',
      was: () => 'The readings did not fit the line or tap that was declared',
    },
    'gauge-differs': {
      now: (v, u) =>
        `Dial gauge and sensor differed beyond their uncertainty when they were compared${with_(': dial gauge ', v.gaugeBar, u)}${with_(v.gaugeBar === undefined ? ': sensor ' : ', sensor ', v.bar, u)}. Believe the higher one, find out which is wrong before going on`,
      was: (v, u) =>
        `Dial gauge and sensor differed beyond their uncertainty${with_(': dial gauge ', v.gaugeBar, u)}${with_(v.gaugeBar === undefined ? ': sensor ' : ', sensor ', v.bar, u)}`,
    },
    rebound: {
      now: () =>
        'Do not pull, do not uncouple. Pressure came back, the packer is not empty: shut the air, open the vent, wait longer',
      was: (v, u) => `Pressure came back after it had been let out${with_(', to ', v.bar, u)}`,
    },
    'temperature-lost': {
      now: (v) =>
        `Temperature${v.place === undefined ? '' : ` (${PLACE[v.place]})`} is lost: check the probe. Cure time is counted as at the coldest likely temperature`,
      was: (v) =>
        `Temperature${v.place === undefined ? '' : ` (${PLACE[v.place]})`} was lost: cure time was counted as at the coldest likely temperature`,
    },
    cold: {
      now: (v, u) =>
        v.c === undefined
          ? 'The coldest likely spot is under the lowest temperature of the data sheet: no cure time is counted. Warm the pipe or wait'
          : `${f.temperature(v.c, u)} is under the lowest temperature of the data sheet: no cure time is counted. Warm the pipe or wait`,
      was: (v, u) =>
        v.c === undefined
          ? 'The coldest likely spot was under the lowest temperature of the data sheet: no cure time was counted'
          : `${f.temperature(v.c, u)} was under the lowest temperature of the data sheet: no cure time was counted`,
    },
    'pot-life': {
      now: (v) =>
        v.seconds === undefined
          ? 'Pot life ends soon: seat the sleeve or pull it out before it hardens'
          : v.seconds <= 0
            ? 'Pot life is over: seat the sleeve at once or pull it out before it hardens'
            : `Pot life ends in ${f.duration(v.seconds)}: seat the sleeve or pull it out before it hardens`,
      was: (v) =>
        v.seconds !== undefined && v.seconds > 0
          ? `Pot life was running out, ${f.duration(v.seconds)} were left`
          : 'Pot life was running out or over',
    },
    'store-fault': {
      now: (v) =>
        `The record cannot be written${storeCause(v.cause)}: the watch goes on, but note pressures and times by hand`,
      was: (v) => `The record could not be written${storeCause(v.cause)}`,
    },
    'clock-jump': {
      now: (v) =>
        `The tablet was asleep${seconds(' for ', v.seconds)}: nothing was watched meanwhile. Keep the tablet awake and on power`,
      was: (v) => `The tablet was asleep${seconds(' for ', v.seconds)}: nothing was watched meanwhile`,
    },
    garbage: {
      now: () =>
        'Bytes arrive that are no readings: check cable and earth. Noise near a motor or generator does this',
      was: () => 'Bytes arrived that were no readings',
    },
  };

  return {
    NO_WARNING,

    /**
     * What is so and what to do, one sentence.
     * @param values as the event carries them (bar, s, °C, mbar/min); any may be missing.
     */
    alarmText: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].now(values, units),

    /** What was so, for an alarm that is over and for a record: the numbers are those of its moment, and it orders nothing. */
    alarmWas: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].was(values, units),
  };
}
