import type { Account, OpenPoint } from '../../record/account.ts';
import { type DisplayUnits, type Format, METRIC, type RunClock } from '../create-format.ts';
import type { supply } from './supply.ts';

/** What a run was, in whole sentences of facts, and what is still open. Nothing here promises anything. */

/** Of all holds together; null is not known. */
interface Held {
  readonly holdS: number | null;
  readonly inBandS: number | null;
  readonly floorKnown: boolean;
  readonly lowestHoldBar: number | null;
}

/** A hold that left the band for less held all the time: a reading's own grain, s. */
const WHOLE_S = 5;

const OPEN: Record<OpenPoint, string> = {
  'no-limit': 'No limit was set',
  'no-hold': 'No hold recorded',
  'not-held': 'Left the hold band',
  'zero-none': 'Zero not taken',
  'supply-went-on': 'Filled from a supply that was proved to be too high',
  'supply-moved': 'Over what the supply was proved at, or stood at',
  'supply-over': 'Filled while the supply stood over the ceiling',
  'sensors-differ': 'The two pressure sensors disagreed',
  'gauge-none': 'Dial gauge not compared',
  'gauge-differs': 'Dial gauge and sensor differ',
  'batch-slow': 'Slow batch by the witness cup',
  'cup-doubted': 'Witness cup could not tell',
  'witness-none': 'Witness sample not recorded',
  'witness-soft': 'Witness sample not hard',
  'witness-warm': 'Witness sample not kept at pipe temperature',
  'rebound-none': 'Not seen to stay at zero with the vent shut',
  'rebound-back': 'Pressure came back with the vent shut',
  'checks-passed': 'Gone on without safety items of the checklist',
  'air-test-failed': 'Air test failed',
  'air-test-unsaid': 'Air test says nothing',
  'air-test-none': 'Air test planned, not made',
};

const ACCOUNT = {
  label: 'What this run was',
  open: 'Still open',
  nothingOpen: 'Nothing open',
  reading: 'Reading the record …',
  yes: 'agree',
  no: 'differ',
  cannot: 'cannot be compared',
  supply: 'Supply before coupling',
  supplyNone: 'not proved',
  gauge: 'Dial gauge and sensor',
  witness: 'Witness sample',
  witnessNone: 'not recorded',
  atCeiling: 'At the ceiling',
  never: 'never',
  reached: 'reached',
  noCeiling: 'no limit set',
  over: 'Over rated',
};

export function account(f: Format, { SUPPLY_REASON, supplyText }: ReturnType<typeof supply>) {
  const pressureSentence = (a: Account, n: Held, units: DisplayUnits): string => {
    if (n.holdS === null || n.inBandS === null) return 'No hold was recorded.';
    const low = f.pressure(n.lowestHoldBar, units);
    const time = f.duration(n.inBandS);
    const whole = f.duration(n.holdS);
    if (!n.floorKnown)
      return a.atCeiling === false
        ? `Inflated for ${time}, lowest ${low}, never at the ceiling; the hold floor is not known.`
        : `Inflated for ${time}, lowest ${low}; the hold floor is not known.`;
    const isWhole = n.holdS - n.inBandS <= WHOLE_S;
    if (a.atCeiling === false)
      return isWhole
        ? `Held ${whole} in the hold band, lowest ${low}, never at the ceiling.`
        : `In the hold band for ${time} of ${whole}, lowest ${low}, never at the ceiling.`;
    if (a.atCeiling === true && a.overRated === null)
      return isWhole
        ? `Held ${whole} in the hold band, lowest ${low}; the ceiling was reached.`
        : `In the hold band for ${time} of ${whole}, lowest ${low}; the ceiling was reached.`;
    return isWhole
      ? `Held ${whole} in the hold band, lowest ${low}.`
      : `In the hold band for ${time} of ${whole}, lowest ${low}.`;
  };

  const floorSentence = ({ underFloor }: Account, clock: RunClock): readonly string[] => {
    if (underFloor === null) return [];
    const { spans, when } = underFloor;
    const [first] = spans;
    if (first === undefined) return [];
    const [from, to] = [clock(first.fromS), clock(first.toS)];
    const total = f.duration(spans.reduce((t, s) => t + s.toS - s.fromS, 0));
    const cure =
      when === null
        ? ''
        : when === 'before-cure'
          ? ', before the cure time'
          : ', after the cure time was reached';
    if (spans.length > 1)
      return [
        `Under the hold floor ${spans.length} times, first from ${from} to ${to}, ${total} in all${cure}.`,
      ];
    return [
      from === to
        ? `Under the hold floor at ${from} for ${total}${cure}.`
        : `Under the hold floor from ${from} to ${to}${cure}.`,
    ];
  };

  const cureSentence = ({ cure }: Account): string => {
    switch (cure.state) {
      case 'met':
        return cure.afterS === null
          ? 'The data sheet’s cure time was reached at the coldest likely spot.'
          : `The data sheet’s cure time was reached after ${f.duration(cure.afterS)} at the coldest likely spot.`;
      case 'not-met':
        return `The data sheet’s cure time was not reached: ${f.duration(cure.countedS)} were counted.`;
      case 'not-started':
        return 'The data sheet’s cure time did not begin to count.';
      case 'not-followed':
        return 'No cure time was followed: no resin with cure times on the job sheet.';
      case 'not-judged':
        return 'Cure was not judged: the resin cures by light.';
      default:
        return cure satisfies never;
    }
  };

  return {
    ACCOUNT,
    OPEN_POINT: OPEN,

    /**
     * The worst first.
     * @param clock names a time of the run, seconds from its first sample: by the clock, or by the run's own where none is known
     */
    accountText(a: Account, n: Held, clock: RunClock, units = METRIC): readonly string[] {
      const over =
        a.overRated === null
          ? []
          : a.overRated.forS === null
            ? [`Passed rated by ${f.pressure(a.overRated.byBar, units)}.`]
            : [
                `Passed rated by ${f.pressure(a.overRated.byBar, units)} for ${f.duration(a.overRated.forS)}.`,
              ];
      return [...over, ...floorSentence(a, clock), pressureSentence(a, n, units), cureSentence(a)];
    },

    /** What the supply was proved at, what it is good for, and why that held no longer. */
    supplyProved({ supply }: Account, units = METRIC): string {
      if (supply === null) return ACCOUNT.supplyNone;
      const text = supplyText(supply.proved, units);
      return supply.voidBy === null ? text : `${text} No longer held: ${SUPPLY_REASON[supply.voidBy]}.`;
    },

    /** Two readings beside each other, and whether they agree. */
    gaugeText(a: Account, units = METRIC): string {
      const { gauge } = a;
      if (gauge === null) return 'not compared';
      const how = gauge.agrees === null ? ACCOUNT.cannot : gauge.agrees ? ACCOUNT.yes : ACCOUNT.no;
      return `${f.pressureNumber(gauge.gaugeBar, units)}, ${f.pressure(gauge.readingBar, units)}: ${how}`;
    },

    witnessText(a: Account): string {
      const { witness } = a;
      if (witness === null) return ACCOUNT.witnessNone;
      if (!witness.atPipeTemperature)
        return witness.hard
          ? `hard at ${f.stopwatch(witness.atS)}, not kept at pipe temperature`
          : `not hard at ${f.stopwatch(witness.atS)}, not kept at pipe temperature`;
      return witness.hard ? `hard at ${f.stopwatch(witness.atS)}` : `not hard at ${f.stopwatch(witness.atS)}`;
    },

    overText(a: Account, units = METRIC): string {
      if (a.overRated === null) return ACCOUNT.never;
      return a.overRated.forS === null
        ? f.pressure(a.overRated.byBar, units)
        : `${f.pressure(a.overRated.byBar, units)}, ${f.duration(a.overRated.forS)}`;
    },
  };
}
