import type { Stage } from '../../watch/codes.ts';
import { STAGE_ACTION } from './terms.ts';

/** Names of the two large values of the live page, and of its key. What stands in capitals is read as an alarm is. */

/** Over the pressure, which is the largest number of the page. */
export const PRESSURE_SLOT = {
  line: 'Leitungsdruck',
  ceiling: 'AN DER OBERGRENZE',
  'over-rated': 'ÜBER HÖCHSTDRUCK',
  'over-range': 'SENSOR AM ENDE',
  stale: 'Alter Messwert',
  lost: 'Kein Messwert',
};

/** Over the time, by what it counts. A name ends where the time begins: 'at' stands before a clock time. */
export const TIME_SLOT = {
  stage: 'In diesem Abschnitt seit',
  'pot-life': 'Topfzeit noch',
  settle: 'Zulufthahn zu lassen noch',
  cue: 'Bereit am Zulufthahn',
  'cue-stopped': 'Keine Zählung: nach dem Druck gehen',
  'cure-left': 'Härtezeit noch',
  'cure-still': 'Härtezeit steht still',
  'cure-unknown': 'Härtezeit nicht bekannt',
  'check-sample': 'PROBE PRÜFEN',
  'cure-reached': 'Härtezeit laut Datenblatt erreicht (vorsichtige Rechnung)',
  held: 'Gehalten seit',
  'empties-in': 'Leitung leer in etwa',
  vent: 'Ablasshahn zu seit',
  'vent-failed': 'GESCHEITERT BEI',
  'vent-stayed': 'Bei null geblieben seit',
  'ceiling-in': 'Obergrenze in',
  'rated-in': 'Höchstdruck in',
  'over-ceiling': 'Über der Obergrenze seit',
  'over-rated': 'Über Höchstdruck seit',
  'no-reading': 'Kein Messwert seit',
  supply: 'Zuluft wird beobachtet noch',
  tripped: 'Ausgelöst seit',
  falling: 'Druck fällt seit',
  'floor-in': 'Mindestdruck in',
  'air-stabilise': 'Luft beruhigt sich noch',
  'air-settle': 'Prüfzeit beginnt in',
  'air-timing': 'Prüfzeit noch',
  'air-verdict': 'Luftprüfung',
};

/** Over a limit that is reached within the second: no seconds are left to be counted. */
export const TIME_NOW = {
  'ceiling-in': 'An der Obergrenze',
  'rated-in': 'Am Höchstdruck',
  'floor-in': 'Am Mindestdruck',
};

/** On the stage key: the stages that it leads to, and the one thing to do before. */
export const STAGE_KEY: Record<
  | Stage
  | 'connect'
  | 'zero'
  | 'mixed'
  | 'compare'
  | 'hard'
  | 'not-hard'
  | 'vent-open'
  | 'test'
  | 'supply-shut'
  | 'supply-stop'
  | 'end'
  | 'air-begin'
  | 'air-begin-probed'
  | 'air-again'
  | 'air-again-probed'
  | 'air-not-held'
  | 'air-stop'
  | 'demoted',
  string
> = {
  ...STAGE_ACTION,
  connect: 'Gerät verbinden',
  zero: 'Jetzt nullen',
  mixed: 'Harz ist gemischt',
  compare: 'Mit Manometer vergleichen',
  hard: 'Hart',
  'not-hard': 'Nicht hart',
  'vent-open': 'Ablasshahn war auf',
  test: 'Ablasshahn ist zu: Test',
  'supply-shut': 'Zulufthahn ist zu',
  'supply-stop': 'Zulufttest abbrechen',
  end: 'Lauf beenden',
  'air-begin': 'Luftprüfung beginnen',
  'air-begin-probed': 'Beginnen, Fühler im Rohr',
  'air-again': 'Nochmal prüfen',
  'air-again-probed': 'Nochmal, Fühler im Rohr',
  'air-not-held': 'Es hält nicht',
  'air-stop': 'Luftprüfung abbrechen',
  demoted: 'Abschnitt wechseln: halten',
};
