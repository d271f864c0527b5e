import type { Format } from '../create-format.ts';
import { type Ends, endsIn, type HoldWords, holdTexts } from '../said/hold.ts';

/** What the hold and the cure show. */

const LEAK_VERDICT: HoldWords['verdict'] = {
  leaking: 'Leckt',
  tight: 'Kein Leck zu sehen',
  'cannot-tell': 'Nicht zu sagen',
  'cannot-be-seen': 'Nicht zu sehen',
};

const CANNOT_TELL: HoldWords['cannotTell'] = {
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

const CURE_SOURCE: HoldWords['source'] = {
  sleeve: 'vom Fühler am Kurzliner',
  'air-model': 'aus der Luft im Packer und dem Erdreich, zur kalten Seite gerechnet',
  pipe: 'vom Fühler an der Rohrwand',
  ground: 'aus der geplanten Temperatur des Erdreichs',
  none: 'keine Temperatur zum Zählen',
};

const range: HoldWords['range'] = (low, high) => `${low} bis ${high}`;
const ends = endsIn(range);

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

const WORDS: HoldWords = {
  verdict: LEAK_VERDICT,
  cannotTell: CANNOT_TELL,
  source: CURE_SOURCE,
  colon: ': ',
  range,
  noLeakAbove: (rate) => `Kein Leck über ${rate}`,
  raisesTo: (pressure) => `Reaktionswärme hebt den Druck auf ${pressure}`,
  ceilingIn: (time) => `Obergrenze in ${time}`,
  letOutTo: (pressure) => `ablassen bis ${pressure}`,
  floorUnknown: 'der Mindestdruck ist nicht bekannt',
  noFurther: 'nicht weiter',
  notUnder: (pressure) => `nicht unter ${pressure}`,
  within: (time) => `in ${time}`,
  leavesUpwards: (when) => `Verlässt den Haltebereich durch Reaktionswärme nach oben ${when}`,
  leavesByLeak: (when) => `Verlässt den Haltebereich durch das Leck nach unten ${when}`,
  fallsOut: (when, cools) =>
    `Fällt der Druck ${cools ? 'beim Abkühlen so' : 'so'} weiter: unter dem Mindestdruck ${when}`,
  coldest: 'Kälteste wahrscheinliche Stelle',
};

export const hold = (f: Format) => ({ CURE, ...holdTexts(f, WORDS) });
