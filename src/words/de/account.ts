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
  'no-limit': 'Keine Grenze war gesetzt',
  'no-hold': 'Kein Halten aufgezeichnet',
  'not-held': 'Haltebereich verlassen',
  'zero-none': 'Nicht genullt',
  'supply-went-on': 'Mit einer Zuluft gefüllt, die im Test zu hoch war',
  'supply-moved': 'Höher als die Zuluft im Test oder davor',
  'supply-over': 'Gefüllt, während die Zuluft über der Obergrenze stand',
  'sensors-differ': 'Die beiden Drucksensoren waren uneins',
  'gauge-none': 'Manometer nicht verglichen',
  'gauge-differs': 'Manometer und Sensor uneins',
  'batch-slow': 'Langsame Charge laut Probenbecher',
  'cup-doubted': 'Probenbecher konnte nichts sagen',
  'witness-none': 'Rückstellprobe nicht aufgezeichnet',
  'witness-soft': 'Rückstellprobe nicht hart',
  'witness-warm': 'Rückstellprobe nicht bei Rohrtemperatur gelagert',
  'rebound-none': 'Bei geschlossenem Ablasshahn nicht bei null bleiben gesehen',
  'rebound-back': 'Druck kam bei geschlossenem Ablasshahn zurück',
  'checks-passed': 'Ohne Sicherheitspunkte der Checkliste weitergemacht',
  'air-test-failed': 'Luftprüfung nicht bestanden',
  'air-test-unsaid': 'Luftprüfung sagt nichts',
  'air-test-none': 'Luftprüfung geplant, nicht gemacht',
};

const ACCOUNT = {
  label: 'Was dieser Lauf war',
  open: 'Noch offen',
  nothingOpen: 'Nichts offen',
  reading: 'Liest die Aufzeichnung …',
  yes: 'stimmen überein',
  no: 'uneins',
  cannot: 'nicht vergleichbar',
  supply: 'Zuluft vor dem Ankuppeln',
  supplyNone: 'nicht getestet',
  gauge: 'Manometer und Sensor',
  witness: 'Rückstellprobe',
  witnessNone: 'nicht aufgezeichnet',
  atCeiling: 'An der Obergrenze',
  never: 'nie',
  reached: 'erreicht',
  noCeiling: 'keine Grenze gesetzt',
  over: 'Über Höchstdruck',
};

export function account(f: Format, { SUPPLY_REASON, supplyText }: ReturnType<typeof supply>) {
  const pressureSentence = (a: Account, n: Held, units: DisplayUnits): string => {
    if (n.holdS === null || n.inBandS === null) return 'Kein Halten wurde aufgezeichnet.';
    const low = f.pressure(n.lowestHoldBar, units);
    const time = f.duration(n.inBandS);
    const whole = f.duration(n.holdS);
    if (!n.floorKnown)
      return a.atCeiling === false
        ? `${time} gefüllt, tiefster Wert ${low}, nie an der Obergrenze; der Mindestdruck ist nicht bekannt.`
        : `${time} gefüllt, tiefster Wert ${low}; der Mindestdruck ist nicht bekannt.`;
    const isWhole = n.holdS - n.inBandS <= WHOLE_S;
    if (a.atCeiling === false)
      return isWhole
        ? `${whole} im Haltebereich gehalten, tiefster Wert ${low}, nie an der Obergrenze.`
        : `${time} von ${whole} im Haltebereich, tiefster Wert ${low}, nie an der Obergrenze.`;
    if (a.atCeiling === true && a.overRated === null)
      return isWhole
        ? `${whole} im Haltebereich gehalten, tiefster Wert ${low}; die Obergrenze wurde erreicht.`
        : `${time} von ${whole} im Haltebereich, tiefster Wert ${low}; die Obergrenze wurde erreicht.`;
    return isWhole
      ? `${whole} im Haltebereich gehalten, tiefster Wert ${low}.`
      : `${time} von ${whole} im Haltebereich, tiefster Wert ${low}.`;
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
          ? ', vor der Härtezeit'
          : ', nachdem die Härtezeit erreicht war';
    if (spans.length > 1)
      return [
        `${spans.length}-mal unter dem Mindestdruck, zuerst von ${from} bis ${to}, insgesamt ${total}${cure}.`,
      ];
    return [
      from === to
        ? `Unter dem Mindestdruck um ${from} für ${total}${cure}.`
        : `Unter dem Mindestdruck von ${from} bis ${to}${cure}.`,
    ];
  };

  const cureSentence = ({ cure }: Account): string => {
    switch (cure.state) {
      case 'met':
        return cure.afterS === null
          ? 'Die Härtezeit laut Datenblatt wurde an der kältesten wahrscheinlichen Stelle erreicht.'
          : `Die Härtezeit laut Datenblatt wurde nach ${f.duration(cure.afterS)} an der kältesten wahrscheinlichen Stelle erreicht.`;
      case 'not-met':
        return `Die Härtezeit laut Datenblatt wurde nicht erreicht: ${f.duration(cure.countedS)} zählten.`;
      case 'not-started':
        return 'Die Härtezeit laut Datenblatt begann nicht zu zählen.';
      case 'not-followed':
        return 'Keine Härtezeit wurde verfolgt: kein Harz mit Härtezeiten auf dem Auftragsblatt.';
      case 'not-judged':
        return 'Aushärtung wurde nicht beurteilt: das Harz härtet durch Licht.';
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
            ? [`Höchstdruck um ${f.pressure(a.overRated.byBar, units)} überschritten.`]
            : [
                `Höchstdruck um ${f.pressure(a.overRated.byBar, units)} überschritten, ${f.duration(a.overRated.forS)} lang.`,
              ];
      return [...over, ...floorSentence(a, clock), pressureSentence(a, n, units), cureSentence(a)];
    },

    /** What the supply was proved at, what it is good for, and why that held no longer. */
    supplyProved({ supply }: Account, units = METRIC): string {
      if (supply === null) return ACCOUNT.supplyNone;
      const text = supplyText(supply.proved, units);
      return supply.voidBy === null ? text : `${text} Galt nicht mehr: ${SUPPLY_REASON[supply.voidBy]}.`;
    },

    /** Two readings beside each other, and whether they agree. */
    gaugeText(a: Account, units = METRIC): string {
      const { gauge } = a;
      if (gauge === null) return 'nicht verglichen';
      const how = gauge.agrees === null ? ACCOUNT.cannot : gauge.agrees ? ACCOUNT.yes : ACCOUNT.no;
      return `${f.pressureNumber(gauge.gaugeBar, units)}, ${f.pressure(gauge.readingBar, units)}: ${how}`;
    },

    witnessText(a: Account): string {
      const { witness } = a;
      if (witness === null) return ACCOUNT.witnessNone;
      if (!witness.atPipeTemperature)
        return witness.hard
          ? `hart bei ${f.stopwatch(witness.atS)}, nicht bei Rohrtemperatur gelagert`
          : `nicht hart bei ${f.stopwatch(witness.atS)}, nicht bei Rohrtemperatur gelagert`;
      return witness.hard
        ? `hart bei ${f.stopwatch(witness.atS)}`
        : `nicht hart bei ${f.stopwatch(witness.atS)}`;
    },

    overText(a: Account, units = METRIC): string {
      if (a.overRated === null) return ACCOUNT.never;
      return a.overRated.forS === null
        ? f.pressure(a.overRated.byBar, units)
        : `${f.pressure(a.overRated.byBar, units)}, ${f.duration(a.overRated.forS)}`;
    },
  };
}
