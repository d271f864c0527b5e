/** Words of the list of jobs and of opening a sheet file. */
export const JOBS = {
  title: 'Aufträge',
  back: 'Zurück',
  start: 'Live-Lauf beginnen',
  backToLive: 'Zurück zum laufenden Lauf',
  newJob: 'Neues Auftragsblatt',
  same: 'Wie das letzte',
  sheets: 'Auftragsblätter',
  noSheets:
    'Noch keine Auftragsblätter. Ein Lauf kann ohne eines beginnen; ausgefüllt wird es während der Aushärtung.',
  openTitle: 'Ein Lauf wurde nicht geschlossen',
  maybeFull: 'Ein Packer ist vielleicht voll.',
  maybeFullAt: (pressure: string, when: string) =>
    `Der Packer ist vielleicht voll: zuletzt ${pressure} um ${when}.`,
  notSeenEmpty: (pressure: string, when: string) =>
    `Der Packer wurde nicht leer gesehen: seine Leitung stand zuletzt bei ${pressure} um ${when}.`,
  leftTodo:
    'Abstand vom Rohr halten, Manometer ansehen, entlüften und leer sehen, bevor etwas gekuppelt oder geöffnet wird.',
  saidEmpty: 'Ich habe ihn leer gesehen',
  /** The word stands against what is read. */
  lineReads: (pressure: string) =>
    `Die Leitung zeigt ${pressure}. Nochmal auf das Manometer sehen: ist der Packer trotzdem leer?`,
  emptyAllTheSame: 'Leer gesehen, der Messwert ist falsch',
  notSure: 'Zurück, er ist vielleicht voll',
  /** Under a key that is to be held. */
  hold: 'gedrückt halten',
  seeLeft: 'Ansehen',
  maybeFullTodo:
    'Zulufthahn zu, Abstand vom Rohr halten, auf das Manometer achten und den nicht geschlossenen Lauf fortsetzen.',
  connectResume: 'Verbinden und fortsetzen',
  openText:
    'Programm oder Computer blieb stehen, während dieser Lauf aufgezeichnet wurde. Alles bis zur letzten halben Sekunde ist da.',
  reconnecting: {
    trying:
      'Verbindet selbst mit dem Anschluss, von dem gelesen wurde. Der Lauf geht erst auf Tastendruck weiter.',
    failed: 'Selbst verbinden ging nicht. Nichts wird gelesen: Kabel ansehen, dann drücken.',
  },
  resume: 'Fortsetzen',
  resumeRun: (title: string, date: string) => `Fortsetzen: ${title}, ${date}`,
  resumeText: 'Dasselbe Gerät verbinden; die fehlende Zeit wird als Lücke markiert.',
  closeInterrupted: 'Als unterbrochen schließen',
  closeTitle: 'Diesen Lauf als unterbrochen schließen?',
  closeText:
    'Die Messkurve bleibt und wird als unterbrochen markiert. Danach lässt sie sich nicht fortsetzen.',
  storageKept: 'Der Browser bewahrt die Aufzeichnungen dieser Seite auf.',
  storageNotKept:
    'Der Browser löscht die Aufzeichnungen dieser Seite vielleicht, wenn die Platte voll wird. Eine Sicherung machen (Einstellungen).',
  filesFault: 'Nichts kann aufgezeichnet werden.',
  documentsFault:
    'Hier gespeicherte Aufträge, Packer, Harze und Sensoren sind nicht zu sehen, und was jetzt eingegeben wird, ist mit dem Schließen dieser Seite verloren. Die Überwachung läuft.',
  storageRoom: (free: string) => `${free} frei.`,
  /** @param why a sentence of the first fault; null: nothing is known of it */
  fileRefused: (field: string, why: string | null) =>
    [
      'Diese Datei ist keine lesbare Blattdatei.',
      ...(why === null ? [] : [field === '' ? why : `${field}: ${why}`]),
    ].join(' '),
  fileKept: 'Hinzugefügt. Was schon hier war, ist unverändert.',
  newTitle: 'Neuer Auftrag',
  stateOpen: 'offen',
  stateInterrupted: 'unterbrochen',
  practiceTag: 'Übung',
  peak: (pressure: string) => `Spitze ${pressure}`,
  gaps: (n: number) => (n === 1 ? '1 Lücke' : `${n} Lücken`),
  alarms: (n: number) => (n === 1 ? '1 Alarm' : `${n} Alarme`),
  refused: (n: number) =>
    n === 1
      ? 'Ein Dokument ließ sich nicht lesen und bleibt unberührt.'
      : `${n} Dokumente ließen sich nicht lesen und bleiben unberührt.`,
  removeTitle: 'Dieses Auftragsblatt entfernen?',
  removeText: 'Damit aufgezeichnete Läufe bleiben.',
  removed: 'Entfernt.',
};
