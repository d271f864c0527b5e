/** Words of the day's list on the start page. */
export const DAY = {
  today: 'Heute',
  /** Over the page once it is in use. */
  head: (date: string) => `Heute, ${date}`,
  count: (done: number, all: number) => (all === 0 ? 'Keine Sanierung geplant' : `${done} von ${all} fertig`),
  none: 'Für heute ist nichts geplant. Hier steht jedes Auftragsblatt von heute und alles, was heute läuft.',
  others: 'Andere Auftragsblätter',
  moreSheets: (n: number) => `Alle ${n} zeigen`,
  states: {
    planned: 'Geplant',
    'left-open': 'Nicht geschlossen',
    running: 'Läuft',
    'cure-reached': 'Härtezeit erreicht',
    ended: 'Beendet',
    sealed: 'Versiegelt',
    sent: 'Gesendet',
  },
  /** The key that leads on from each state. */
  next: {
    planned: 'Zur Live-Seite',
    'left-open': 'Fortsetzen',
    running: 'Zum laufenden Lauf',
    'cure-reached': 'Zum laufenden Lauf',
    ended: 'Durchsehen und versiegeln',
    sealed: 'Nachweisdatei senden',
    sent: 'Lauf ansehen',
  },
  again: 'Dasselbe nochmal',
  more: 'Mehr',
  moreOf: (title: string) => `Mehr zu ${title}`,
  up: 'Nach oben',
  down: 'Nach unten',
  notToday: 'Nicht heute',
  toToday: 'Auf heute',
  taken: (title: string) => `${title} steht nicht mehr auf der Liste von heute.`,
  remove: 'Entfernen',
  removed: (title: string) => `${title} wurde entfernt.`,
};
