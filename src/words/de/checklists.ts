import type { Wants } from '../../job/checklist.ts';

/** Words of the editor of checklists. */
export const CHECKLIST = {
  one: 'Checkliste',
  none: 'Noch keine eigene: Auftragsblätter nehmen die eingebaute. Neu macht daraus eine in eigenen Worten.',
  head: 'Die Liste',
  text: 'Sie beginnt als Kopie der eingebauten. Ein Auftragsblatt nimmt die Liste, wie sie an dem Tag ist, und behält sie: was hier geändert wird, ändert keinen Auftrag und keine Aufzeichnung.',
  name: 'Name',
  inUse: 'Neue Auftragsblätter nehmen sie',
  items: 'Punkte',
  itemsText:
    'Jeder wird zu seiner Zeit gefragt und nicht vorher. Ein Sicherheitspunkt wird gefragt, bevor die Taste weiterführt; ohne ihn geht es nur mit einem Grund weiter, der auf dem Nachweis steht.',
  itemText: 'Was angesehen wird',
  at: 'Gefragt',
  safety: 'Sicherheitspunkt',
  wants: 'Antwort',
  unit: 'Einheit der Zahl',
  noText: 'Noch ohne Worte',
  add: (moment: string) => `Punkt hinzufügen: ${moment}`,
  up: (item: string) => `Früher: ${item}`,
  down: (item: string) => `Später: ${item}`,
  remove: 'Diesen Punkt entfernen',
  removed: (item: string) => `Entfernt: ${item}`,
  empty: 'Kein Punkt ist übrig. Einen hinzufügen oder mit der eingebauten Liste neu beginnen.',
  beginAgain: 'Mit der eingebauten Liste neu beginnen',
  full: (most: number) => `${most} Punkte: mehr darf eine Liste nicht haben.`,
  saveFile: 'Als Datei speichern',
  openFile: 'Datei öffnen',
  fileTooLarge: 'Die Datei ist keine Checkliste: sie ist zu groß. Hier wurde nichts geändert.',
  fileRefused: (why: string) => `Die Datei ist keine Checkliste: ${why} Hier wurde nichts geändert.`,
  fileTaken: 'Übernommen. Durchsehen, dann speichern.',
  fileTamed: (n: number) =>
    n === 1
      ? 'Übernommen; aus einem Text wurden Zeichen eines anderen Programms entfernt. Durchsehen, dann speichern.'
      : `Übernommen; aus ${n} Texten wurden Zeichen eines anderen Programms entfernt. Durchsehen, dann speichern.`,
};

/** What an answer is, beside the tick. */
export const WANTS: Record<Wants, string> = {
  tick: 'Ein Haken',
  number: 'Ein Haken und eine Zahl',
  text: 'Ein Haken und ein paar Worte',
};
