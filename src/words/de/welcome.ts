/** Words of the start page: what this is, its four doors, and how the ladder is read. */
export const WELCOME = {
  what: 'Steadybar wacht über die Luft im Packer, bis das Harz seine Zeit hatte.',
  lead: 'Es liest den Druck der Leitung, warnt vor dem Höchstdruck des Packers, zählt die Aushärtung an der kältesten wahrscheinlichen Stelle und führt die Aufzeichnung.',
  doors: {
    live: 'Verbinden, Packer, nullen: drei Tasten',
    back: 'Es wird aufgezeichnet',
    practice: 'Übungsanlage: der ganze Auftrag ohne Gerät',
    sheet: 'Den Druck vor dem Mischen planen',
    file: 'Ein Auftragsblatt, oder eine Aufzeichnung verifizieren',
  },
  practise: 'Üben',
  openFile: 'Datei öffnen',
  lastRuns: 'Letzte Läufe',
  allRuns: 'Alle im Archiv',
  never:
    'Es überwacht und warnt. Es ist keine Sicherheitseinrichtung und ersetzt kein Sicherheitsventil. Keine Warnung heißt nicht sicher.',
  empty: 'Noch nichts aufgezeichnet. Vor dem ersten Auftrag einmal üben.',
  /** Read aloud for the two small pictures of a run. */
  picture: (peak: string, rated: string) => `Spitze ${peak}, Höchstdruck ${rated}.`,
  pictureNoLimit: (peak: string) => `Spitze ${peak}. Keine Grenze war gesetzt.`,
  sealed: 'Versiegelt',
  notSealed: 'Noch nicht versiegelt',
  practice: 'Übung',
  overRated: 'Über Höchstdruck',

  guide: 'So liest man die Leiter',
  guideLead: 'Auf jeder Live-Seite und in jedem Abschnitt gleich.',
  guidePicture: 'Eine Druckleiter von null bis über den Höchstdruck, ihre Marken daneben benannt.',
  over: { name: 'Über Höchstdruck', means: 'ein Bersten kann töten' },
  rated: { name: 'Höchstdruck', means: 'hier ist für den Packer Schluss' },
  ceiling: { name: 'Obergrenze', means: 'Höchstdruck minus Messunsicherheit' },
  settles: { name: 'Kommt hier zur Ruhe', means: 'wenn der Hahn zugeht, wie gesagt' },
  working: { name: 'Arbeitsdruck', means: 'das Ziel des Abschnitts steht auf einem vollen Schild' },
  now: { name: 'Druck jetzt', means: 'daneben in großen Ziffern' },
  floor: { name: 'Mindestdruck', means: 'darunter löst sich der Kurzliner vielleicht' },
  seat: { name: 'Anlegen', means: 'erster Halt: mit dem Manometer vergleichen' },
};
