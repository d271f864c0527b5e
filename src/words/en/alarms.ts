import type { AlarmCode, LossCause } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import { STORE_CAUSE } from './link.ts';
import { PLACE } from './terms.ts';

const NO_WARNING = 'No warning does not mean safe.';

const LOSS: Record<LossCause, string> = {
  silence: 'the device is silent',
  port: 'the cable or port is gone',
  range: 'the sensor reads far under zero',
  fault: 'the sensor or its wire is faulty',
  reset: 'the device restarted',
  garbage: 'only noise arrives',
};

function lossCause(cause: string | undefined): string {
  if (cause === undefined) return '';
  const known = Object.hasOwn(LOSS, cause) ? LOSS[cause as LossCause] : cause;
  return ` (${known})`;
}

function storeCause(cause: string | undefined): string {
  if (cause === undefined) return '';
  const known = Object.hasOwn(STORE_CAUSE, cause) ? STORE_CAUSE[cause as keyof typeof STORE_CAUSE] : cause;
  return ` (${known})`;
}

type Text = (v: AlarmValues, u: DisplayUnits) => string;

export function alarms(f: Format) {
  /** ' 1.46 bar' when known, else nothing: a text never shows an empty slot. */
  const with_ = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressure(bar, u)}`;
  };

  const range = (low: number | undefined, high: number | undefined, u: DisplayUnits): string => {
    if (low === undefined || high === undefined) return '';
    return ` (${f.pressureNumber(low, u)} to ${f.pressureNumber(high, u)})`;
  };

  const secondsRange = (low: number | undefined, high: number | undefined): string => {
    if (low === undefined || high === undefined) return '';
    return ` (${f.duration(low)} to ${f.duration(high)})`;
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

  const rising: Text = (v, u) => {
    const ceiling = v.ceilingBar === undefined ? '' : `, ceiling ${f.pressureNumber(v.ceilingBar, u)}`;
    if (v.kind === 'settle' && v.settleBar !== undefined)
      return `Line will settle at ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${ceiling}: lower the regulator now`;
    const when = v.inS === undefined ? '' : ` in ${f.duration(v.inS)}${secondsRange(v.inLowS, v.inHighS)}`;
    const limit = `Ceiling${with_(' ', v.ceilingBar, u)}`;
    if (v.kind === 'left-band')
      return `Pressure${with_(' ', v.bar, u)} has left the working band and is not slowing. ${limit}${when}: shut the valve now`;
    if (v.kind === 'hand-time') return `${limit}${when}, less than a hand needs: shut the valve now`;
    return `${limit}${when}: shut the valve now`;
  };

  const TEXT: Record<AlarmCode, Text> = {
    'over-range': (v, u) =>
      v.spanBar === undefined
        ? 'OVER the end of the sensor’s span, nobody sees how far: shut the air, then vent, keep clear'
        : `OVER ${f.pressure(v.spanBar, u)}, the end of the sensor’s span, nobody sees how far: shut the air, then vent, keep clear`,
    'over-rated': (v, u) =>
      `OVER RATED${with_(' by ', v.overBar, u)}${with_(', rated ', v.ratedBar, u)}: shut the air, then vent, keep clear`,
    ceiling: (v, u) =>
      `Pressure${with_(' ', v.bar, u)} is at the ceiling${with_(' ', v.ceilingBar, u)}: shut the valve and let air out now`,
    rising,
    'pressure-lost': (v) =>
      `Pressure reading lost${lossCause(v.cause)}: treat the packer as full, keep clear`,
    'device-trip': (v, u) =>
      `The device's own limit tripped${with_(' at ', v.bar, u)}: shut the valve and look at the dial gauge`,
    'fast-fall': (v, u) =>
      `Pressure falls fast${with_(', now ', v.bar, u)}: say whether you are letting down. If not, keep clear and look for a blown hose or a burst`,
    'below-floor': (v, u) =>
      `Pressure${with_(' ', v.bar, u)} is under the hold floor${with_(' ', v.floorBar, u)}: the sleeve may come off the wall. Top up slowly`,
    leaking: (v, u) =>
      `The packer or line leaks${v.mbarPerMin === undefined ? '' : ` ${f.pressureRate(v.mbarPerMin, u)}`}: look for the leak at the couplings, top up before the floor`,
    'band-exit': (v, u) =>
      `Pressure will leave the hold band downwards${v.inS === undefined ? '' : ` in ${f.duration(v.inS)}`}${with_(', floor ', v.floorBar, u)}: top up slowly`,
    lift: (v, u) =>
      `Warmth of the cure will lift the pressure${with_(' to ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${v.ceilingBar === undefined ? '' : `, ceiling ${f.pressureNumber(v.ceilingBar, u)}`}${v.inS === undefined ? '' : ` in ${f.duration(v.inS)}`}: ${advice(v, u)}`,
    'device-unarmed': () =>
      'A limit is set here, but the device does not guard it: arm the device, and stay within hearing of this tablet until it is armed',
    'device-reset': () =>
      'The device restarted: check its power and plug. Some readings are missing and marked as a gap',
    'supply-low': () =>
      'The sensor is fed with too little voltage, or its voltage is not known, and it may read low: look at the dial gauge and the power of the device',
    stuck: (v) =>
      `The reading has not moved${v.seconds === undefined ? '' : ` for ${f.duration(v.seconds)}`}: compare it with the dial gauge, treat it as doubtful`,
    'line-contradicted': (v) =>
      `The readings do not fit the line or tap that was declared${v.cause === undefined ? '' : ` (${v.cause})`}: look at the valve and correct the job sheet. Until then the hold claims nothing`,
    'gauge-differs': (v, u) =>
      `Dial gauge and sensor differ beyond their uncertainty${with_(': gauge ', v.gaugeBar, u)}${with_(v.gaugeBar === undefined ? ': sensor ' : ', sensor ', v.bar, u)}. Believe the higher one, find out which is wrong before going on`,
    rebound: (v, u) =>
      `Pressure came back after the vent was closed${with_(': ', v.bar, u)}. The packer is not empty: open the vent and wait longer`,
    'temperature-lost': (v, u) =>
      `Temperature${v.place === undefined ? '' : ` (${PLACE[v.place]})`} is lost${v.c === undefined ? '' : `, last ${f.temperature(v.c, u)}`}: check the probe. Cure time now counts as at the coldest plausible temperature`,
    cold: (v, u) =>
      `${v.c === undefined ? 'The coldest place' : `${f.temperature(v.c, u)}`} is under the lowest temperature of the data sheet: no cure time is counted. Warm the pipe or wait`,
    'pot-life': (v) =>
      `Pot life ends${v.seconds === undefined ? ' soon' : ` in ${f.duration(v.seconds)}`}: seat the sleeve now or pull it out before it hardens`,
    'store-fault': (v) =>
      `The record cannot be written${storeCause(v.cause)}: the watch goes on, but note pressures and times by hand`,
    'clock-jump': (v) =>
      `The tablet slept or its clock jumped${v.seconds === undefined ? '' : ` by ${f.duration(v.seconds)}`}: a gap is marked. Keep the tablet awake and on power`,
    garbage: () =>
      'Bytes arrive that are no readings: check cable, plug and earth. Noise near a motor or generator does this',
  };

  return {
    NO_WARNING,

    /**
     * What will happen and what to do, one sentence.
     * @param values as the event carries them (bar, s, °C, mbar/min); any may be missing.
     */
    alarmText: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code](values, units),
  };
}
