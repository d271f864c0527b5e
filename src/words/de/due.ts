/** Words of what is due, of the day's mix, and of a repair that is done once more. */
export const DUE = {
  title: 'Zu erledigen',
  damaged: 'Schaden im Logbuch: reparieren oder ausmustern',
  'over-rated': 'War über dem Höchstdruck: begutachten, bevor er wieder hineingeht',
  'not-inspected': 'Seit dem letzten Lauf nicht begutachtet',
  overdueBy: (days: number) =>
    days === 1 ? 'Kalibrierung seit 1 Tag überfällig' : `Kalibrierung seit ${days} Tagen überfällig`,
  dueIn: (days: number) =>
    days === 0
      ? 'Kalibrierung heute fällig'
      : days === 1
        ? 'Kalibrierung morgen fällig'
        : `Kalibrierung in ${days} Tagen fällig`,
  'not-sealed': 'Lauf nicht versiegelt',
  'not-sent': 'Nachweisdatei nicht gesendet',
  sentOtherwise: 'Wurde gesendet',
  more: (n: number) => `und ${n} weitere, im Archiv`,
};

export const MIX = {
  title: 'Harz für heute',
  sleeves: (n: number) => (n === 1 ? '1 Kurzliner' : `${n} Kurzliner`),
  masses: (whole: string, hardener: string | null) =>
    hardener === null ? `${whole} gemischt` : `${whole} gemischt, davon ${hardener} Härter`,
  noMass: (n: number) =>
    n === 1
      ? '1 Kurzliner hat noch keine Masse: siehe sein Auftragsblatt'
      : `${n} Kurzliner haben noch keine Masse: siehe ihre Auftragsblätter`,
  each: (minutes: number) =>
    `Für jeden Kurzliner einzeln mischen, kurz vor dem Tränken: Topfzeit ${minutes} min bei der wärmsten Mischung.`,
  eachUnknown:
    'Für jeden Kurzliner einzeln mischen, kurz vor dem Tränken: seine Topfzeit wartet nicht auf den davor.',
  packer: (name: string, n: number) => `${name}: ${n} Sanierungen nacheinander`,
  least: (time: string) => `mindestens ${time} für Verarbeitung und Aushärtung`,
  leastUnknown: 'Zeit nicht bekannt: Verarbeitung oder Temperatur des Erdreichs fehlt',
};

export const AGAIN = {
  title: 'Dasselbe nochmal',
  what: (title: string) => `Wie ${title}: gleiche Leitung, Packer, Harz, Sensoren und Gerät. Neu für diesen:`,
  name: 'Titel',
  position: 'Station',
  length: 'Länge des Schadens',
  resinBatch: 'Charge Harz',
  hardenerBatch: 'Charge Härter',
  sameBatch: (batches: string) => `Aus denselben Chargen: ${batches}`,
  inspected: 'Der Packer wurde seither begutachtet: kein Schnitt, Abrieb oder Verschleiß',
  zero: 'Genullt wird vor dem Lauf neu: die letzte Null zählt nicht.',
  rest: 'Zutritt von Wasser, Mischtemperatur und alle Prüfungen werden auch neu gefragt.',
  make: 'Auftragsblatt machen',
};
