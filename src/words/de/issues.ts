import type { DocumentIssue, IssueCode } from '../../job/issues.ts';
import type { UnitChoice } from '../../units/display.ts';
import { type Format, METRIC } from '../create-format.ts';

/** Why an entry was not taken, said at the field. */
const ISSUE: Record<IssueCode, (issue: DocumentIssue, units: UnitChoice, f: Format) => string> = {
  missing: () => 'Fehlt.',
  type: () => 'Diese Art von Wert gehört nicht hierher.',
  blank: () => 'Darf nicht leer sein.',
  'too-long': (i) => `Zu lang${atMost(i.limit, ' Zeichen')}.`,
  'too-short': (i) => `Zu kurz${atLeast(i.limit, ' Zeichen')}.`,
  'too-many': (i) => `Zu viele Zeilen${atMost(i.limit)}.`,
  'too-few': (i) => `Zu wenige Zeilen${atLeast(i.limit)}.`,
  'too-low': (i, units, f) =>
    i.limit === undefined ? 'Zu klein.' : NUMBER_FIELD.tooLow(f.boundText(i.limit, 'least', i, units)),
  'too-high': (i, units, f) =>
    i.limit === undefined ? 'Zu groß.' : NUMBER_FIELD.tooHigh(f.boundText(i.limit, 'most', i, units)),
  'not-whole': () => 'Muss eine ganze Zahl sein.',
  'not-one-of': (i) => `Muss eines davon sein: ${(i.choices ?? []).join(', ')}.`,
  'unknown-key': (i) => `Unbekannte Einträge: ${(i.choices ?? []).join(', ')}.`,
  form: () => 'Nur Buchstaben, Ziffern, Punkt, Bindestrich und Unterstrich.',
  characters: () => 'Enthält Zeichen, die sich nicht zeigen lassen.',
  date: () => 'Kein Datum (Jahr-Monat-Tag).',
  order: () => 'Zeilen müssen steigen, keine doppelt.',
  duplicate: () => 'Derselbe Eintrag steht hier zweimal.',
  pair: () => 'Passt nicht zum Eintrag daneben.',
  overlap: () =>
    'Zwei Zeilen lesen dieselben Register als verschiedene Werte. Jedem Wert eigene Register geben.',
  'past-end': () =>
    'Der Wert würde hinter Register 65535 enden, dem letzten. Register zählen ab 0: was ein Datenblatt 40001 nennt, ist Register 0 von Funktion 3.',
  'version-future': (i) =>
    `Von einer neueren Version dieses Programms (${i.found ?? 'unbekannt'}, diese kennt ${i.limit ?? 'weniger'}).`,
  'version-unknown': () => 'Trägt keine Version, die dieses Programm kennt.',
  'too-large': () => 'Zu groß.',
};

const atLeast = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (mindestens ${limit}${what})`;
const atMost = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (höchstens ${limit}${what})`;

/** What a number field says on its own, before any document is checked. */
const NUMBER_FIELD = {
  empty: 'Eine Zahl eintippen.',
  'not-a-number': 'Keine Zahl.',
  grouped: 'Die Zahl ohne Zeichen zwischen den Tausendern schreiben.',
  unit: 'Diese Einheit gehört nicht hierher.',
  tooLow: (lo: string) => `Zu klein: mindestens ${lo}.`,
  tooHigh: (hi: string) => `Zu groß: höchstens ${hi}.`,
  whole: 'Muss eine ganze Zahl sein.',
};

export const issues = (f: Format) => ({
  NUMBER_FIELD,
  /** @param units what bounds are told in */
  issueText: (issue: DocumentIssue, units: UnitChoice = METRIC): string => ISSUE[issue.code](issue, units, f),
});
