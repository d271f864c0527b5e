/** Worte der Karte, die gedruckt wird, wo niemand auf einen Bildschirm sieht; Befehle, Abschnitte und Warnungen sind die des Programms. */
export const CARD = {
  lead: 'Ein Blatt Papier für die Stelle, an der niemand auf den Bildschirm sieht. Es sagt dasselbe wie der Bildschirm.',
  print: 'Karte drucken',
  forJob: 'Für den Auftrag',
  blank: 'Leer, zum Beschriften',
  gone: 'Dieses Auftragsblatt gibt es nicht mehr: die Karte ist leer.',

  numbers: 'Dieser Auftrag',
  potLife: 'Topfzeit',
  hold: 'Mindestens halten',
  holdAt: (c: string) => `Mindestens halten (${c})`,
  mixed: 'Gemischt um',
  held: 'Gehalten ab',
  until: 'Halten bis',
  who: 'Kolonne',
  call: 'Notruf',
  cure: 'Härtezeit',
  planned: (date: string) => `Geplant ${date}. Sagt der Bildschirm weniger, gilt der Bildschirm.`,
  refused: 'DER PLAN LEHNT DIESEN AUFTRAG AB: siehe Auftragsblatt.',

  work: 'Reihenfolge der Arbeit',
  alarms: 'Alarm: was zuerst zu tun ist',
  otherwise: 'sonst',
  low: 'wie der Bildschirm sagt',

  dark: 'Bildschirm dunkel oder steht, Computer aus: nach Manometer und Uhr',
  darkSteps: (ceiling: string | null): readonly string[] => [
    'Zulufthahn zu. Alle auf Abstand.',
    'Manometer lesen. Druck, Uhrzeit notieren, alle 5 min.',
    ceiling === null
      ? 'An der Obergrenze oder darüber: am Ablasshahn ablassen.'
      : `Bei ${ceiling} oder mehr: am Ablasshahn ablassen.`,
    'Nach der Uhr halten, nicht kürzer. Dann Probe fühlen.',
    'Am Ablasshahn entlüften. Manometer null: noch nicht leer.',
  ],

  cautions: 'Warnungen',
  local:
    'Nie über den Höchstdruck. Örtliche Vorschriften, Genehmigungen und Anleitungen der Hersteller gehen vor; was eine Zulassung braucht, macht nur, wer sie hat.',
};
