/** Words of the screens and controls that stand for themselves. */
export const UI = {
  app: 'Steadybar',
  colon: ':',
  skip: 'Zum Inhalt',
  jobs: 'Aufträge',
  live: 'Live',
  archive: 'Archiv',
  settings: 'Einstellungen',
  about: 'Über',
  mainNav: 'Seiten',
  menu: 'Menü',
  card: 'Merkkarte',
  helpOn: (what: string) => `Hilfe: ${what}`,
  standingMarks: 'Dauerhinweise',

  // values
  pressure: 'Druck',
  temperature: 'Temperatur',
  rated: 'Höchstdruck',
  ceiling: 'Obergrenze',
  working: 'Arbeitsdruck',
  floor: 'Mindestdruck',
  lines: 'Linien der Messkurve',
  notKnown: 'nicht bekannt',
  oldReading: 'Alter Messwert',
  oldReadingOf: (age: string) => `Alter Messwert, ${age}`,
  lostReading: 'Messwert verloren.',
  noReading: 'Kein Messwert',
  overRange: (end: string) => `ÜBER ${end}`,
  ladder: (now: string, ceiling: string, rated: string) =>
    `Druck ${now}. Obergrenze ${ceiling}. Höchstdruck ${rated}.`,
  ladderNoLimit: (now: string) => `Druck ${now}. Keine Grenze: keine Druckwarnung`,

  // alarms
  /** @param detail what the program says of it, for whoever mends it; often empty */
  failed: (title: string, todo: string, detail: string) =>
    detail === '' ? `${title}. ${todo}` : `${title}. ${todo} (${detail})`,
  noAlarms: 'Keine Alarme.',
  notLive: 'Nicht verbunden: keine Alarme.',
  acknowledge: 'Quittieren',
  shelve: 'Zurückstellen',
  shelveText:
    'Er bleibt zehn Minuten stumm und kommt wieder, wenn er dann noch besteht. Der Grund wird aufgezeichnet.',
  engineSilent: 'Die Überwachung antwortet nicht mehr',
  engineSilentVerb: ['MANOMETER', 'ANSEHEN'],
  engineSilentTodo:
    'Nichts auf diesem Bildschirm ist aktuell. Auf das Manometer achten, Abstand halten, dann diese Seite neu laden.',
  reload: 'Diese Seite neu laden',
  pageFailed: 'Diese Seite ist gescheitert',
  pageFailedTodo:
    'Die Überwachung läuft weiter und Alarme ertönen, aber auf das Manometer achten. Nochmal versuchen oder neu laden: ein offener Lauf wird wieder angeboten.',

  pageFault: 'Ein Teil dieser Seite ließ sich nicht zeichnen',
  pageFaultTodo:
    'Die Überwachung läuft weiter und Alarme ertönen, aber Zahlen hier sind vielleicht alt. Auf das Manometer achten, dann neu laden.',
  pageFaultSeen: 'Gesehen',

  // buttons
  cancel: 'Abbrechen',
  save: 'Speichern',
  saved: 'Gespeichert',
  remove: 'Entfernen',
  back: 'Zurück',
  undo: 'Rückgängig',
  close: 'Schließen',
  retry: 'Nochmal versuchen',

  // data on their way
  update: 'Eine neue Version liegt bereit.',
  updateNow: 'Mit der neuen Version neu starten',
  loading: 'Lädt',
  noAnswer:
    'Die gespeicherten Daten antworten nicht. Die Live-Seite bleibt davon unberührt. Nochmal versuchen; bleibt es so, neu laden.',

  // stages
  stages: 'Abschnitte',

  // second screen
  far: {
    title: 'Druck, zweiter Bildschirm',
    noData: 'KEINE DATEN',
    twoPages: 'ZWEI SEITEN: EINE SCHLIESSEN',
    note: 'Von der Seite, die überwacht. Kein Alarm wird hier gezeigt.',
    units: { bar: 'bar', kPa: 'kPa', psi: 'psi' },
  },

  // practice
  practiceWord: 'ÜBUNG',
  practiceBanner: 'ÜBUNG. Nichts hier ist eine echte Leitung.',
};
