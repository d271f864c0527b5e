import type { AlarmCode, LossCause } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import type { AlarmView } from '../../watch/view.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import {
  afterFall,
  afterJump,
  areSwapped,
  hasCase,
  inHose,
  isNow,
  isOver,
  isUnderNow,
  leftFull,
  roundedDown,
  SEEN_BAR,
  type Texts,
  unannounced,
} from '../said/alarm-cases.ts';
import { cureAlarms } from './alarms-cure.ts';
import { deviceFault } from './device-faults.ts';
import { STORE_CAUSE } from './link.ts';

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
  rescaled: { is: 'the device has another scale: it is not read', was: 'the device had another scale' },
};

function lossCause(cause: string | undefined, tense: 'is' | 'was'): string {
  if (cause === undefined) return '';
  return ` (${hasCase(LOSS, cause) ? LOSS[cause][tense] : cause})`;
}

function storeCause(cause: string | undefined): string {
  if (cause === undefined) return '';
  return ` (${hasCase(STORE_CAUSE, cause) ? STORE_CAUSE[cause] : cause})`;
}

const GAUGE_FIRST = 'The sensor has jumped: check the dial gauge first, add no air';
const LOSS_FIRST = 'Find the loss first. Keep clear';
const HOSE_ALONE =
  'shut the supply valve, then open the vent: hold the hose, couple nothing, lower the regulator';
/** What a packer over its rating asks for; a hose alone sends nobody away who has to hold it. */
const ventIt = (v: AlarmValues): string =>
  inHose(v) ? HOSE_ALONE : 'shut the supply valve, then open the vent, everyone clear';

export function alarms(f: Format) {
  /** ' 1.46 bar' when known, else nothing: a text never shows an empty slot. */
  const with_ = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressure(bar, u)}`;
  };

  /** Just under the floor both are one number in print: then it is said once. */
  const underFloor = ({ bar, floorBar }: AlarmValues, u: DisplayUnits): string => {
    const floor = with_(' ', floorBar, u);
    const now = with_(' ', bar, u);
    return `Pressure${now === floor ? '' : now} is under the hold floor${floor}`;
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

  const rate = (label: string, mbarPerMin: number | undefined, u: DisplayUnits): string => {
    return mbarPerMin === undefined ? '' : `${label}${f.pressureRate(mbarPerMin, u)}`;
  };

  /** A time to danger, never longer than it is: ' in 8 s (7 s to 10 s)'. */
  const soon = (v: AlarmValues): string => {
    if (v.inS === undefined) return '';
    const range =
      v.inLowS === undefined || v.inHighS === undefined
        ? ''
        : ` (${f.duration(roundedDown(v.inLowS))} to ${f.duration(v.inHighS)})`;
    return isNow(v.inS) ? ' within a second' : ` in ${f.duration(roundedDown(v.inS))}${range}`;
  };

  /** 'let out to 1.35, not under 0.90': advice with a floor, or with the floor said to be unknown; it may be the aim itself. */
  const advice = (v: AlarmValues, u: DisplayUnits): string => {
    if (v.adviceHighBar === undefined) return 'open the vent a little and let some air out';
    const floor =
      v.adviceLowBar === undefined
        ? '; the hold floor is not known'
        : f.pressureNumber(v.adviceLowBar, u) === f.pressureNumber(v.adviceHighBar, u)
          ? ', no further'
          : `, not under ${f.pressureNumber(v.adviceLowBar, u)}`;
    return `open the vent a little, let out to ${f.pressure(v.adviceHighBar, u)}${floor}`;
  };

  /** ' 5 times a second instead of 50'. */
  const perSecond = (v: AlarmValues): string => {
    if (v.cause === 'late' && v.seconds !== undefined) return ` ${f.fixed(v.seconds, 1)} s late`;
    const { perSecond: now, perSecondBefore: before } = v;
    return now === undefined || before === undefined
      ? ' more rarely than before'
      : ` ${f.fixed(now, now < 2 ? 1 : 0)} times a second instead of ${f.fixed(before, before < 2 ? 1 : 0)}`;
  };

  const rising: Texts = {
    now: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `Line will settle at ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}: shut the supply valve now, then turn the regulator down`;
      const ceiling = `${with_(' ', v.ceilingBar, u)}${soon(v)}`;
      const act = 'shut the supply valve now; if it still rises, open the vent';
      if (v.kind === 'left-band')
        return `Pressure${with_(' ', v.bar, u)} has left the working band and is not slowing, ceiling${ceiling}: ${act}`;
      if (v.kind === 'opened')
        return `Pressure${with_(' ', v.bar, u)} rises fast with the supply valve said shut, ceiling${ceiling}: ${act}`;
      if (v.kind === 'hand-time') return `Ceiling${ceiling}, sooner than a hand can react: ${act}`;
      return `Ceiling${ceiling}: ${act}`;
    },
    was: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `line was going to settle at ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}`;
      const when = seconds(', ', v.inS, ' away');
      const limit = `ceiling${with_(' ', v.ceilingBar, u)}`;
      if (v.kind === 'opened')
        return `pressure rose fast${with_(' at ', v.bar, u)} with the supply valve said shut, ${limit}${when}`;
      return v.kind === 'left-band'
        ? `pressure had left the working band${with_(' at ', v.bar, u)} and was not slowing, ${limit}${when}`
        : `pressure was rising${with_(' at ', v.bar, u)}, ${limit}${when}`;
    },
  };

  const TEXT: Record<AlarmCode, Texts> = {
    'over-range': {
      now: (v, u) =>
        `Over${with_(' ', v.spanBar, u)}${v.spanBar === undefined ? '' : ','} the end of the sensor, nobody sees how far: ${ventIt(v)}`,
      was: (v, u) => `over the end of the sensor’s range${with_(', ', v.spanBar, u)}`,
    },
    'over-rated': {
      now: (v, u) =>
        v.overBar !== undefined && v.overBar < SEEN_BAR
          ? `At the rated pressure${with_(' ', v.ratedBar, u)}: ${ventIt(v)}`
          : `Over rated${with_(' by ', v.overBar, u)}${with_(', rated ', v.ratedBar, u)}: ${ventIt(v)}`,
      was: (v, u) => `over the rated pressure${with_(' ', v.ratedBar, u)}${with_(', at most ', v.bar, u)}`,
    },
    'over-test': {
      now: (v, u) =>
        `Between the plugs there is more than the test allows${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`}: shut the supply valve, then open the vent, nobody near the plugs`,
      was: (v, u) =>
        `more between the plugs than the test allows${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`}${v.bar === undefined ? '' : `, at most ${f.testPressure(v.bar, u)}`}`,
    },
    ceiling: {
      now: (v, u) =>
        `Pressure${with_(' ', v.bar, u)} is at the ceiling${with_(' ', v.ceilingBar, u)}: ${inHose(v) ? HOSE_ALONE : 'shut the supply valve, then open the vent, keep clear'}`,
      was: (v, u) => `at the ceiling${with_(' ', v.ceilingBar, u)}${with_(', at most ', v.bar, u)}`,
    },
    rising,
    'supply-over': {
      now: (v, u) =>
        `${
          isUnderNow(v)
            ? `The regulator’s outlet${with_(', now ', v.secondBar, u)}, may stand over the ceiling${with_(' ', v.ceilingBar, u)}`
            : `Supply${with_(' ', v.secondBar, u)} at the regulator’s outlet is over the ceiling${with_(' ', v.ceilingBar, u)}`
        }: supply valve shut, couple nothing, turn the regulator down`,
      was: (v, u) =>
        `the regulator’s outlet ${isUnderNow(v) ? 'may have stood' : 'was'} over the ceiling${with_(' ', v.ceilingBar, u)}${with_('; it was at ', v.secondBar, u)}`,
    },
    'supply-moved': {
      now: (v, u) =>
        v.secondBar !== undefined
          ? `Supply${with_(' ', v.secondBar, u)} at the regulator’s outlet is over what it stood at${with_(', ', v.lockUpBar, u)}: the regulator has moved. Shut the supply valve, keep clear`
          : `Pressure${with_(' ', v.bar, u)} is over what the supply was proved at${with_(', ', v.lockUpBar, u)}: the regulator has moved. Shut the supply valve, keep clear`,
      was: (v, u) =>
        v.secondBar !== undefined
          ? `the regulator’s outlet was over what it had stood at${with_(', ', v.lockUpBar, u)}${with_('; it was at ', v.secondBar, u)}`
          : `over what the supply was proved at${with_(', ', v.lockUpBar, u)}${with_('; it was at ', v.bar, u)}`,
    },
    'pressure-lost': {
      now: (v) =>
        `Pressure reading lost${lossCause(v.cause, 'is')}: treat the packer as full, shut the supply valve, keep clear`,
      was: (v) => `pressure reading lost${lossCause(v.cause, 'was')}`,
    },
    'device-trip': {
      now: (v, u) =>
        `The device’s own limit${with_(' ', v.ceilingBar, u)} tripped: shut the supply valve, keep clear, look at the dial gauge; if it is high too, open the vent`,
      was: (v, u) => `the device’s own limit${with_(' ', v.ceilingBar, u)} had tripped`,
    },
    'fast-fall': {
      now: (v, u) =>
        `${v.cause === 'unseen' ? 'Pressure was lost while nobody saw it' : 'Pressure falls fast'}${with_(', now ', v.bar, u)}. Unless you are letting down: shut the supply valve, keep clear, add no air. A hose may be off or the packer burst`,
      was: (v, u) =>
        v.cause === 'unseen'
          ? `pressure was lost while nobody saw it${with_(', it was at ', v.bar, u)}`
          : `pressure fell fast${with_(', it was at ', v.bar, u)}`,
    },
    'below-floor': {
      now: (v, u) =>
        afterJump(v)
          ? `Pressure${with_(' ', v.bar, u)} reads under the hold floor${with_(' ', v.floorBar, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `${underFloor(v, u)} after a loss of pressure. ${LOSS_FIRST}`
            : `${underFloor(v, u)}, the sleeve may come off the wall: top up slowly at the supply valve, nobody at the packer`,
      was: (v, u) => `under the hold floor${with_(' ', v.floorBar, u)}${with_(', at least ', v.bar, u)}`,
    },
    leaking: {
      now: (v, u) =>
        afterJump(v)
          ? `The packer or line leaks by the reading${rate(' ', v.mbarPerMin, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `The packer or line leaks${rate(' ', v.mbarPerMin, u)} after a loss of pressure. ${LOSS_FIRST}`
            : `The packer or line leaks${rate(' ', v.mbarPerMin, u)}: look and listen along the hose outside, touch no coupling under pressure; top up at the supply valve before the hold floor`,
      was: (v, u) => `the packer or line leaked${rate(' ', v.mbarPerMin, u)}`,
    },
    'band-exit': {
      now: (v, u) =>
        afterJump(v)
          ? `Pressure will fall under the hold floor${with_(' ', v.floorBar, u)}${soon(v)} by the reading. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `Pressure will fall under the hold floor${with_(' ', v.floorBar, u)}${soon(v)}, after a loss of pressure. ${LOSS_FIRST}`
            : `Pressure will fall under the hold floor${with_(' ', v.floorBar, u)}${soon(v)}: top up slowly at the supply valve, nobody at the packer`,
      was: (v, u) =>
        `pressure was going to fall under the hold floor${with_(' ', v.floorBar, u)}${seconds(', ', v.inS, ' later')}`,
    },
    lift: {
      now: (v, u) =>
        `Cure heat will raise the pressure${with_(' to ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}${soon(v)}: ${advice(v, u)}`,
      was: (v, u) =>
        `cure heat was going to raise the pressure${with_(' to ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', ceiling ', v.ceilingBar, u)}${seconds(', ', v.inS, ' later')}`,
    },
    'device-unarmed': {
      now: () => 'Device limit off. Check cable and device; stay within hearing of this computer',
      was: () => 'the device’s own limit was off',
    },
    'device-deaf': {
      now: () =>
        'The device takes no command, its limit may be another one or none. Check the cable, stay within hearing of this computer',
      was: () => 'the device took no command, it could not be told its limit',
    },
    'device-fault': { now: (v) => deviceFault(v.cause).now, was: (v) => deviceFault(v.cause).was },
    'device-reset': {
      now: () =>
        'The device restarted, some readings are missing (a gap is marked): check its power and cable',
      was: () => 'the device restarted, some readings are missing (a gap was marked)',
    },
    'supply-low': {
      now: () =>
        'Sensor power is too low or not known, the reading may be too low: go by the dial gauge, check the power of the device',
      was: () => 'sensor power was too low or not known, the reading may have been too low',
    },
    'slow-readings': {
      now: (v) =>
        `Readings come${perSecond(v)}, a fill that goes too far is seen later: throttle the supply valve, check cable and device`,
      was: (v) => `readings came${perSecond(v)}, a fill was seen later`,
    },
    stuck: {
      now: () =>
        'The reading does not move, do not go by it: shut the supply valve, compare with the dial gauge',
      was: () => 'the reading did not move',
    },
    'reading-jump': {
      now: (v, u) =>
        isOver(v)
          ? `The reading jumped${with_(' by ', v.jumpBar, u)}, which no air does, and the packer may be over its ceiling, whatever is shown: shut the supply valve, then open the vent, keep clear`
          : `The reading jumped${with_(' by ', v.jumpBar, u)}, which no air does, do not go by it: shut the supply valve, compare with the dial gauge`,
      was: (v, u) => `the reading had jumped${with_(' by ', v.jumpBar, u)}, which no air does`,
    },
    'line-contradicted': {
      now: () =>
        'The readings do not fit the line or tap that was declared: look at the supply valve, correct the job sheet. Until then hold and leak are not judged',
      was: () => 'the readings did not fit the line or tap that was declared',
    },
    'gauge-differs': {
      now: (v, u) =>
        isOver(v)
          ? `By the dial gauge${with_(', ', v.gaugeBar, u)} where the sensor showed${with_(' ', v.bar, u)}, the packer is over its ceiling, whatever is shown: shut the supply valve, then open the vent, keep clear`
          : `Dial gauge${with_(' ', v.gaugeBar, u)} and sensor${with_(' ', v.bar, u)} differed beyond their uncertainty: believe the higher one, find which is wrong before going on`,
      was: (v, u) =>
        `dial gauge${with_(' ', v.gaugeBar, u)} and sensor${with_(' ', v.bar, u)} differed beyond their uncertainty`,
    },
    'sensors-differ': {
      now: (v, u) => {
        const two = `Packer${with_(' ', v.bar, u)}, second sensor${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v))
          return `${two}: the packer’s was filled first. Swapped, the second off the line, or a full packer? Open no valve, correct cables or job sheet`;
        return v.cause === 'against-flow'
          ? `${two}: air does not flow from low to high, one of them is wrong. Believe the higher one, compare with the dial gauge`
          : `${two}: they differ beyond their uncertainty. Believe the higher one, compare with the dial gauge`;
      },
      was: (v, u) => {
        const two = `packer${with_(' ', v.bar, u)}, second sensor${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v)) return `the two pressure sensors looked swapped: ${two}`;
        return v.cause === 'against-flow'
          ? `air seemed to flow from low to high: ${two}`
          : `the two pressure sensors differed beyond their uncertainty: ${two}`;
      },
    },
    'second-lost': {
      now: (v) =>
        v.cause === 'check-pressure'
          ? 'The second sensor at the packer gives no reading, or a stuck one: the watch goes on by the other one alone, check its cable'
          : 'The sensor at the regulator’s outlet gives no reading, or a stuck one: the watch goes on by the other one alone, check its cable',
      was: (v) =>
        v.cause === 'check-pressure'
          ? 'the second sensor at the packer gave no reading, or a stuck one: the watch went on by the other one alone'
          : 'the sensor at the regulator’s outlet gave no reading, or a stuck one: the watch went on by the other one alone',
    },
    rebound: {
      now: (v, u) =>
        unannounced(v)
          ? `Air comes in${with_(', now ', v.bar, u)}, and no filling was announced: shut the supply valve, open the vent, keep clear`
          : leftFull(v)
            ? `Still under pressure${with_(', now ', v.bar, u)}, and the work is said to be over: do not pull or uncouple, shut the supply valve, open the vent, keep clear`
            : `Pressure came back${with_(' to ', v.bar, u)}, the packer is not empty: do not pull or uncouple, shut the supply valve, open the vent, wait longer`,
      was: (v, u) =>
        unannounced(v)
          ? `air came in that no stage had announced${with_(', to ', v.bar, u)}`
          : leftFull(v)
            ? `the packer was under pressure${with_(', at ', v.bar, u)}, and the work was said to be over`
            : `pressure came back after it had been let out${with_(', to ', v.bar, u)}`,
    },
    ...cureAlarms(f),
    'store-fault': {
      now: (v) =>
        `The watch goes on, but the record cannot be written${storeCause(v.cause)}: write down pressure and time by hand, free space on this computer`,
      was: (v) => `the record could not be written${storeCause(v.cause)}`,
    },
    'clock-jump': {
      now: (v) =>
        `The computer was asleep${seconds(' for ', v.seconds)}, nothing was watched meanwhile: keep the computer awake and on power`,
      was: (v) => `the computer was asleep${seconds(' for ', v.seconds)}, nothing was watched meanwhile`,
    },
    garbage: {
      now: () =>
        'Bytes arrive that are no readings: check cable and earth, look for a motor or generator beside them',
      was: () => 'bytes arrived that were no readings',
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

    /** What was so, behind a word and a colon: the numbers are those of its moment, and it orders nothing. */
    alarmWas: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].was(values, units),

    /** The sentence of an alarm as it stands: one that is over is told as what was. */
    alarmSentence: (
      { alarm, state, values }: Pick<AlarmView, 'alarm' | 'state' | 'values'>,
      units: DisplayUnits = METRIC,
    ): string =>
      state === 'returned' ? `Was: ${TEXT[alarm].was(values, units)}` : TEXT[alarm].now(values, units),
  };
}
