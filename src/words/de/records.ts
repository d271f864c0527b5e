import type { Priority } from '../../watch/codes.ts';

/** Words of the archive's rows and chips. */
export const RECORDS = {
  waiting: (n: number) => (n === 1 ? '1 wartet auf Durchsicht' : `${n} warten auf Durchsicht`),
  noneWaiting: 'keine wartet auf Durchsicht',
  chips: {
    all: 'Alle',
    review: 'Durchzusehen',
    ceiling: 'Obergrenze erreicht',
    alarms: 'Mit Alarmen',
    cure: 'Härtezeit nicht erreicht oder nicht bekannt',
    practice: 'Übung',
  },
  chipsLabel: 'Welche Aufzeichnungen gezeigt werden',
  peak: 'Spitze',
  course: 'Druck über der Zeit',
  job: 'Auftrag',
  inBand: 'Im Haltebereich',
  cure: 'Härtezeit erreicht',
  alarms: 'Alarme',
  state: 'Zustand',
  noAlarm: 'keine',
  alarmCount: {
    urgent: (n: number) => `${n} dringend`,
    high: (n: number) => `${n} hoch`,
    low: (n: number) => `${n} niedrig`,
  } satisfies Record<Priority, (n: number) => string>,
  cureNot: 'nicht erreicht',
  toReview: 'Durchzusehen',
  accepted: 'Freigegeben',
  rejected: 'Zurückgewiesen',
  recording: 'Zeichnet auf',
  interrupted: 'unterbrochen',
  sealed: 'versiegelt',
  notSealed: 'nicht versiegelt',
  elsewhere: 'von anderswo',
  unknownKey: 'unbekannter Schlüssel',
  emptyTitle: 'Noch nichts aufgezeichnet und nichts behalten.',
  emptyTodo:
    'Jeder Lauf steht hier, sobald er beendet ist; eine Aufzeichnung von anderswo, sobald sie verifiziert und behalten ist.',
  more: (n: number) => `Mehr zeigen: noch ${n}`,
  practise: 'Mit einem Übungslauf beginnen',
};
