import type { Drift } from '../../sensing/opinion.ts';

/** What a sensor showed in its jobs. */
export const HISTORY = {
  title: 'Über seine Aufträge',
  none: 'Noch kein Auftrag hat diesen Sensor geprüft. Hier sammeln sich Nullen, Vergleiche mit dem Manometer und Wärmen in der Hand.',
  job: 'Auftrag',
  zero: 'Null',
  gauge: 'Messwert minus Manometer',
  warm: 'Messwert minus Thermometer',
  refused: 'zu weit, abgelehnt',
  differed: 'stimmte nicht überein',
  before: '(vor der geltenden Kalibrierung)',
  more: (n: number) => `${n} frühere Aufträge werden nicht gezeigt.`,
  plot: (title: string) => `${title}, Auftrag für Auftrag`,
};

/** Putting the packer away after a run. */
export const PUT_AWAY = {
  title: 'Packer wegräumen',
  note: (packer: string) =>
    `Reinigen und ansehen: an einem Schnitt birst er. Der Einsatz kommt in das Logbuch von ${packer}.`,
  peak: 'Spitze',
  leak: 'Leck des letzten Haltens',
  inflated: 'Unter Druck',
  found: 'Begutachtung ergab',
  notYet: 'Noch nicht angesehen',
  well: 'Kein Schnitt, Abrieb oder Verschleiß',
  damage: 'Schaden: nicht benutzen',
  foundNeeded: 'Sagen, was die Begutachtung ergab.',
  by: 'Kürzel',
  byNeeded: 'Wer ihn angesehen hat, gibt sein Kürzel.',
  what: 'Was gefunden wurde',
  log: 'Diesen Einsatz eintragen',
  done: 'Der Einsatz steht im Logbuch des Packers.',
  logged: (date: string, by: string) => `Beim Packer eingetragen, ${date}, ${by}.`,
  toPacker: 'Sein Logbuch ansehen',
};

/** What a run’s witness cup has shown, to be kept with its resin. */
export const CUP_KEPT = {
  title: 'Marke des Bechers beim Harz behalten',
  note: (resin: string) =>
    `Nach dem, was Becher üblicher Chargen gezeigt haben, wird die nächste Charge ${resin} von einer langsamen unterschieden. Nur von einer freigegebenen, gut gewogenen Charge behalten.`,
  mark: 'Diese Charge',
  mass: 'Im Becher',
  known: 'Bisher bekannt',
  batches: (n: number, scatter: string) =>
    n === 1
      ? `1 Charge, die nächste innerhalb ±${scatter} %`
      : `${n} Chargen, die nächste innerhalb ±${scatter} %`,
  none: 'Noch keine Charge',
  keep: 'Beim Harz behalten',
  done: 'Die Marke des Bechers ist beim Harz.',
  kept: 'Beim Harz behalten.',
  toResin: 'Das Harz ansehen',
  slow: 'Diese Charge war laut Becher langsam: sie ist keine Marke einer üblichen und wird nicht behalten.',
  soft: 'Die Rückstellprobe war nicht hart: was der Becher zeigte, wird nicht behalten.',
  full: (most: number) => `Das Harz hat ${most} Marken: erst eine herausnehmen.`,
};

/** A packer over its cycles. */
export const CYCLES = {
  title: 'Einsätze',
  count: (n: number) => (n === 1 ? '1 Einsatz insgesamt.' : `${n} Einsätze insgesamt.`),
  unseen: 'Seit dem letzten ist keine Begutachtung eingetragen.',
  none: 'Noch keine eingetragen. Die Durchsicht eines Laufs hat ‚Diesen Einsatz eintragen‘, wenn der Packer weggeräumt wird.',
  leak: 'Leck, Einsatz für Einsatz',
  noLeak: 'Seit der letzten Reparatur wurde kein Leck gemessen.',
  noneSeen: 'keines gesehen',
  plot: 'Leck über die Einsätze',
  day: 'Tag',
};

/**
 * A drift in a sentence or two.
 * @param text shows a figure in the user's units
 * @param none what is said where nothing was measured
 * @param level shows where it stands, where that is read otherwise than a step of it
 */
export function driftText(
  drift: Drift | null,
  text: (off: number) => string,
  none = 'Seit der Kalibrierung nicht geprüft.',
  level = text,
): string {
  if (drift === null) return none;
  const { jobs, now, since, perDay, moving, daysToLimit, jumped } = drift;
  const said = [
    jobs === 1
      ? `${level(now)} in einem Auftrag.`
      : `Jetzt ${level(now)}, um ${text(since)} verschoben über ${jobs} Aufträge.`,
  ];
  if (jumped) said.push('Der letzte Schritt fällt gegen die Aufträge davor auf.');
  else if (moving && perDay !== null) {
    said.push(`Er wandert um ${text(perDay * 30)} in 30 Tagen.`);
    if (daysToLimit === 0) said.push('Die Toleranz ist aufgebraucht.');
    else if (daysToLimit !== null)
      said.push(
        `So weiter ist die Toleranz in etwa ${Math.max(1, Math.round(daysToLimit))} Tagen aufgebraucht.`,
      );
  } else
    said.push(
      jobs >= 4 ? 'Er steht still, innerhalb seiner Streuung.' : 'Eine Tendenz zeigt sich ab vier Aufträgen.',
    );
  return said.join(' ');
}
