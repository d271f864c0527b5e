import type { CannotTellReason, LeakFigure, LeakVerdict } from '../../watch/events.ts';
import type { CureView, HoldView } from '../../watch/view.ts';
import { type Format, METRIC } from '../create-format.ts';
import { boundUp } from '../said/figures.ts';

/** What the hold and the cure show. */

const LEAK_VERDICT: Record<LeakVerdict, string> = {
  leaking: 'Leckt',
  tight: 'Kein Leck zu sehen',
  'cannot-tell': 'Nicht zu sagen',
  'cannot-be-seen': 'Nicht zu sehen',
};

const CANNOT_TELL: Record<CannotTellReason, string> = {
  tap: 'der Sensor liest nicht den Druck im Packer',
  line: 'die Leitung wird gespeist: der Druckregler gleicht ein Leck aus',
  'too-short': 'die Leitung war noch nicht lange genug zu und ruhig',
  'temperature-trend': 'Verlauf der Lufttemperatur nicht genau genug bekannt',
  'sensor-warmth':
    'die eigene Wärme des Drucksensors kann seinen Messwert ebenso verschieben: vor Sonne und Wind schützen',
  'not-gas': 'mit Wasser oder Dampf im Packer folgt der Druck nicht dem Gasgesetz',
  settling: 'Luft kühlt noch ab, Gummi dehnt sich noch',
  'no-pressure': 'es gibt keinen brauchbaren Druckmesswert',
};

const CURE_SOURCE: Record<CureView['source'], string> = {
  sleeve: 'vom Fühler am Kurzliner',
  'air-model': 'aus der Luft im Packer und dem Erdreich, zur kalten Seite gerechnet',
  pipe: 'vom Fühler an der Rohrwand',
  ground: 'aus der geplanten Temperatur des Erdreichs',
  none: 'keine Temperatur zum Zählen',
};

/** A figure and its interval, each as it reads. */
export interface Ends {
  readonly value: string;
  readonly low: string;
  readonly high: string;
}

/** Ends that read the same are no range. */
const ends = ({ low, high }: Ends): string => (low === high ? '' : ` (${low} bis ${high})`);

/**
 * Words about the cure claim what can be known: the data sheet's time at the coldest likely spot, by a cautious
 * count. They never say that the resin is hard or that anything may be opened.
 */
const CURE = {
  name: 'Härtezeit laut Datenblatt',
  met: 'Härtezeit laut Datenblatt an der kältesten wahrscheinlichen Stelle erreicht (vorsichtige Rechnung)',
  notMet: 'Härtezeit laut Datenblatt nicht erreicht',
  notKnown: 'Härtezeit nicht bekannt',
  notJudged: 'Aushärtung wird nicht beurteilt: das Harz härtet durch Licht',
  noResin: 'Kein Harz auf dem Auftragsblatt: Härtezeit wird nicht verfolgt',
  notStarted: 'Zählt ab dem Anlegen',
  notHeld: 'Zählt seit dem Anlegen; wann sie erreicht ist, steht ab dem Halten hier',
  willBeMetAt: (clock: Ends, inTime: string): string =>
    `Erreicht um etwa ${clock.value}${ends(clock)}, in ${inTime}`,
  willBeMetIn: (time: Ends): string => `Erreicht in etwa ${time.value}${ends(time)}`,
  exothermAt: (clock: Ends, inTime: string, warmest: Ends): string =>
    `Reaktionswärme (Vorhersage nach einer allgemeinen Skizze des Harzes): am wärmsten um etwa ${clock.value}${ends(clock)}, in ${inTime}: ${warmest.value}${ends(warmest)}`,
  exothermIn: (time: Ends, warmest: Ends): string =>
    `Reaktionswärme (Vorhersage nach einer allgemeinen Skizze des Harzes): am wärmsten in etwa ${time.value}${ends(time)}: ${warmest.value}${ends(warmest)}`,
  progress: ({ value, low, high }: Ends): string =>
    `${value} (vorsichtige Rechnung ${low}, höchstens ${high}).`,
  progressOver: (low: string): string =>
    `Nicht erreicht: nach der vorsichtigen Rechnung sind ${low} der Härtezeit um. Nur die wahrscheinliche Rechnung ist über dem Ende.`,
  between: (low: string, high: string): string => `${low} bis ${high}`,
};

export function hold(f: Format) {
  return {
    CURE,

    /** The leak in one line: verdict, figure with its interval, or why there is none. */
    leakText(leak: LeakFigure, units = METRIC): string {
      const word = LEAK_VERDICT[leak.verdict];
      switch (leak.verdict) {
        case 'leaking': {
          const interval =
            leak.low === null || leak.high === null
              ? ''
              : ` (95 %: ${f.pressureRate(leak.low, units)} bis ${f.pressureRate(leak.high, units)})`;
          return `${word} ${f.pressureRate(leak.mbarPerMin, units)}${interval}`;
        }
        case 'tight':
          return leak.high === null ? word : `Kein Leck über ${f.pressureRate(boundUp(leak.high), units)}`;
        case 'cannot-tell':
        case 'cannot-be-seen':
          return leak.reason === null ? word : `${word}: ${CANNOT_TELL[leak.reason]}`;
      }
    },

    /** Warmth to come, with its advice; advice has a floor or says that the floor is unknown. */
    liftText(lift: NonNullable<HoldView['lift']>, units = METRIC): string {
      const { value, low, high } = lift.peakBar;
      const peak = `Reaktionswärme hebt den Druck auf ${f.pressure(value, units)} (${f.pressureNumber(low, units)} bis ${f.pressureNumber(high, units)})`;
      const when = lift.ceilingInS === null ? '' : `, Obergrenze in ${f.duration(lift.ceilingInS.value)}`;
      if (lift.adviceHighBar === null) return `${peak}${when}`;
      const floor =
        lift.adviceLowBar === null
          ? 'der Mindestdruck ist nicht bekannt'
          : f.pressureNumber(lift.adviceLowBar, units) === f.pressureNumber(lift.adviceHighBar, units)
            ? 'nicht weiter'
            : `nicht unter ${f.pressureNumber(lift.adviceLowBar, units)}`;
      return `${peak}${when}: ablassen bis ${f.pressure(lift.adviceHighBar, units)}, ${floor}`;
    },

    /** Names a leak as the cause only where a leak was found: a line that is tight falls as its gas cools. */
    bandExitText(exit: NonNullable<HoldView['bandExit']>, verdict: LeakVerdict): string {
      const { value, low, high } = exit.inS;
      const when = `in ${f.duration(value)} (${f.duration(low)} bis ${f.duration(high)})`;
      if (exit.direction === 'up') return `Verlässt den Haltebereich durch Reaktionswärme nach oben ${when}`;
      if (verdict === 'leaking') return `Verlässt den Haltebereich durch das Leck nach unten ${when}`;
      const why = verdict === 'tight' ? 'beim Abkühlen so' : 'so';
      return `Fällt der Druck ${why} weiter: unter dem Mindestdruck ${when}`;
    },

    coldestText(cure: CureView, units = METRIC): string {
      if (cure.coldest === null) return `Kälteste wahrscheinliche Stelle: ${CURE_SOURCE[cure.source]}`;
      return `Kälteste wahrscheinliche Stelle ${f.temperature(cure.coldest.value, units)} (${CURE_SOURCE[cure.source]})`;
    },

    /** The same of a whole cure, beside its name. */
    coldestValue(spot: { readonly c: number; readonly source: CureView['source'] }, units = METRIC): string {
      return `${f.temperature(spot.c, units)} (${CURE_SOURCE[spot.source]})`;
    },
  };
}
