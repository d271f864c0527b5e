import type { AirTestVerdict, Priority, Stage } from '../../watch/codes.ts';

/** What the live page says besides its orders: under the two large values, in the drawer, on its keys, in the strip. */
export const FACE = {
  // under and over the pressure
  lineU: (u: string) => `Leitungsdruck ± ${u}`,
  lineLost: 'Druck: kein Messwert',
  lineOld: 'Leitungsdruck, alter Messwert',
  oldFor: (age: string) => `Alter Messwert, ${age}`,
  atRated: 'AM HÖCHSTDRUCK',
  overRated: (by: string) => `ÜBER HÖCHSTDRUCK +${by}`,
  mayHoldAir: 'VIELLEICHT NOCH LUFT',
  spanEnds: (end: string) => `Der Sensor liest nicht weiter als ${end}.`,
  steady: 'ruhig',
  rising: (slope: string) => `steigt ${slope}`,
  risingAtRest: (slope: string, rest: string) => `steigt ${slope}, ohne Strömung ${rest}`,
  falling: (slope: string) => `fällt ${slope}`,

  // under and over the time
  noRun: 'Noch kein Lauf',
  runLeftOpen: 'Ein Lauf wurde nicht geschlossen',
  mayBeFull: 'Vielleicht voll',
  now: 'JETZT',
  cueMeans: 'dann Zulufthahn zu',
  /** Over the NOW that its count ends in, and what comes then. */
  cueNow: 'Zulufthahn zu',
  cueThen: 'dann zu lassen',
  cueStopped: {
    still: 'Der Anstieg ist vorbei.',
    reading: 'Kein Messwert zum Zählen.',
    unsure: 'Der Anstieg ist zu unruhig.',
  },
  lastValue: (value: string) => `zuletzt ${value}`,
  lastValueAt: (value: string, clock: string) => `zuletzt ${value}, um ${clock}`,
  everyoneClear: ['ALLE AUF', 'ABSTAND'],
  overFor: (time: string) => `Über Höchstdruck seit ${time}`,
  trueUnknown: 'wie weit, ist nicht bekannt',
  peak: (value: string) => `Spitze ${value}`,
  ifLeftOpen: (value: string) => `bleibt es auf: ${value}`,
  stillRising: 'steigt noch',
  notRising: 'steigt gerade nicht',
  potLifeOver: 'Topfzeit ist um',
  mixedAgo: (time: string) => `vor ${time} gemischt`,
  thenGauge: 'dann Manometer ablesen',
  inBand: (time: string) => `Im Haltebereich ${time}`,
  leak: (verdict: string) => `Leck: ${verdict}`,
  held: (time: string) => `Gehalten seit ${time}`,
  checkSample: ['PROBE', 'PRÜFEN'],
  metAgo: (time: string) => `vor ${time}`,
  reached: (when: string) => (when === '' ? 'Härtezeit erreicht' : `Härtezeit erreicht ${when}`),
  metAt: (clock: string, time: string) => `um ${clock}, vor ${time}`,
  metIn: (low: string, high: string) =>
    low === high ? `erreicht in ${low}` : `erreicht in ${low} bis ${high}`,
  metBetween: (from: string, to: string) =>
    from === to ? `erreicht um ${to}` : `erreicht um ${from} bis ${to}`,
  coldest: (value: string) => `Kälteste wahrscheinliche Stelle ${value}: nichts zählt.`,
  ofSeconds: (time: string) => `von ${time}`,
  cameBack: (value: string, u: string) => `kam zurück auf ${value}, mehr als ±\u00a0${u} Messunsicherheit`,
  rose: (value: string, u: string) => `stieg auf ${value}: innerhalb von ±\u00a0${u}, aber kein Rauschen`,
  notEmpty: 'Leitung bei null ist kein leerer Packer',
  // of an air test
  airVerdict: {
    passed: ['BESTANDEN'],
    failed: ['NICHT', 'BESTANDEN'],
    'cannot-say': ['NICHT', 'ZU SAGEN'],
  } satisfies Record<AirTestVerdict, readonly string[]>,
  airDrop: (drop: string, u: string, allowed: string) => `Druckabfall ${drop} ± ${u}, erlaubt ${allowed}`,
  airAllowed: (allowed: string) => `erlaubter Druckabfall ${allowed}`,
  thenTest: 'dann Ablasshahn zu und testen',

  // keys
  more: 'Mehr',
  close: 'Zurück',
  hold: 'gedrückt halten',
  useSheet: 'Mit diesem Auftragsblatt weiter',
  choosePacker: 'Packer wählen',
  warm: 'Fühler wärmen',
  testSound: 'Ton testen',
  ackNext: (title: string) => `Nächsten quittieren: ${title}`,
  acknowledged: (time: string) => `Vor ${time} quittiert`,
  /** Of an alarm that is over: what is left to do, and under it what it was. */
  wasDo: 'Vorbei: quittieren.',
  wasTitle: (title: string) => `War: ${title}`,
  others: 'Auch da',
  orderLabel: 'Was zu tun ist',
  timeLabel: 'Zeit',

  // drawer
  spanStage: 'Wie der Abschnitt es braucht',
  tabs: {
    start: 'Start',
    numbers: 'Zahlen',
    spans: 'Zeitspanne',
    stages: 'Andere Abschnitte',
    checks: 'Prüfungen',
    checklist: 'Checkliste',
    note: 'Notiz',
    alarms: 'Alarme',
    run: 'Auftragsblatt und Lauf',
    rig: 'Übungsanlage',
    why: 'Warum',
  },
  /** The longest of them in the hand. */
  runTabShort: 'Blatt',
  whyTitle: (action: string) => `Trotzdem: ${action}?`,
  whyText: 'Den Grund drücken. Er wird mit dem Schritt aufgezeichnet.',
  ownReason: 'Ein anderer Grund',
  noStages: 'Von hier geht kein anderer Abschnitt.',
  allAlarms: 'Nichts wartet, nichts ist zurückgestellt.',
  shelfTitle: 'Zehn Minuten zurückgestellt',
  takeBack: 'Wieder melden',
  endHold: 'Lauf beenden: gedrückt halten',

  // strip and bars of the other pages
  recording: 'Zeichnet auf',
  rec: 'Rec',
  lamp: (n: number, priority: string, more: number) =>
    more === 0 ? `${n} ${priority}` : `${n} ${priority}, +${more}`,
  marks: (n: number) => (n === 1 ? '1 Hinweis' : `${n} Hinweise`),
  shelved: (title: string, left: string) => `Zurückgestellt: ${title}, noch ${left}`,
  shelvedShort: (left: string) => `Zurückgestellt ${left}`,
  shelvedMany: (n: number, left: string) => `${n} zurückgestellt, nächster in ${left}`,
  soundOff: 'TON AUS',
  goLive: 'Zur Live-Seite',
  mixedLeft: (time: string) => `Topfzeit ${time}`,
  cureLeft: (time: string) => `Härtezeit noch ${time}`,
  cureMet: 'Probe prüfen',
};

/** Beside a count of alarms. */
export const LAMP: Record<Priority, string> = { urgent: 'dringend', high: 'hoch', low: 'niedrig' };

/** Reasons at hand for a step that something speaks against. */
export const REASONS: Record<Stage, readonly string[]> = {
  prepare: ['Der Versuch beginnt neu.'],
  seat: ['Ursache des Alarms gefunden und behoben.', 'Null mit dem Manometer verglichen.'],
  inflate: [
    'Ursache des Alarms gefunden und behoben.',
    'Stattdessen Manometer abgelesen.',
    'Luft ist nachgefüllt.',
  ],
  hold: ['Stattdessen Manometer abgelesen.', 'Reicht für diesen Kurzliner.', 'Der Versuch geht so weiter.'],
  'let-down': [
    'Kurzliner fühlt sich hart an, Probe nicht zur Hand.',
    'Druck muss jetzt weg.',
    'Versuch wird aufgegeben.',
  ],
  done: ['Packer leer gesehen.', 'Auf anderem Weg entlüftet.'],
  'air-test': ['Rohrverschlüsse sitzen und sind gesichert.', 'Ein anderer Sensor überwacht den Packer.'],
  abandoned: ['Kurzliner sitzt falsch.', 'Druck muss jetzt weg.', 'Harz zu früh angezogen.'],
};

/** Which of the reasons for 'done' says that the packer was seen empty. */
export const SEEN_EMPTY = 0;

/** Reasons at hand for an alarm that is put aside. */
export const SHELF_REASONS: readonly string[] = [
  'Bekannt, jemand ist dran.',
  'Ursache gefunden, schadet nicht.',
  'In diesem Lauf nicht zu beheben.',
];
