import type { AirTestVerdict, Priority, Stage } from '../../watch/codes.ts';

/** What the live page says besides its orders: under the two large values, in the drawer, on its keys, in the strip. */
export const FACE = {
  // under and over the pressure
  lineU: (u: string) => `Pression de la ligne ± ${u}`,
  lineLost: 'Pression, pas de mesure',
  lineOld: 'Pression de la ligne, mesure ancienne',
  oldFor: (age: string) => `Mesure ancienne, ${age}`,
  atRated: 'À L’ADMISSIBLE',
  overRated: (by: string) => `DÉPASSEMENT +${by}`,
  mayHoldAir: 'PEUT CONTENIR DE L’AIR',
  spanEnds: (end: string) => `Le capteur ne lit pas plus loin que ${end}.`,
  steady: 'stable',
  rising: (slope: string) => `monte ${slope}`,
  risingAtRest: (slope: string, rest: string) => `monte ${slope}, sans débit ${rest}`,
  falling: (slope: string) => `descend ${slope}`,

  // under and over the time
  noRun: 'Aucune session',
  runLeftOpen: 'Une session n’a pas été close',
  mayBeFull: 'Peut-être plein',
  now: 'MAINTENANT',
  cueMeans: 'puis fermer la vanne',
  /** Over the NOW that its count ends in, and what comes then. */
  cueNow: 'Fermer la vanne',
  cueThen: 'puis la laisser fermée',
  cueStopped: {
    still: 'La montée est finie.',
    reading: 'Il n’y a pas de mesure pour compter.',
    unsure: 'La montée n’est pas assez régulière.',
  },
  lastValue: (value: string) => `dernière ${value}`,
  lastValueAt: (value: string, clock: string) => `dernière ${value}, à ${clock}`,
  everyoneClear: ['TOUS', 'À L’ÉCART'],
  overFor: (time: string) => `Admissible dépassée depuis ${time}`,
  trueUnknown: 'de combien : inconnu',
  peak: (value: string) => `pic ${value}`,
  ifLeftOpen: (value: string) => `si laissé ouvert : ${value}`,
  stillRising: 'monte encore',
  notRising: 'ne monte plus',
  potLifeOver: 'Vie en pot finie',
  mixedAgo: (time: string) => `mélangée il y a ${time}`,
  thenGauge: 'puis lire le manomètre',
  inBand: (time: string) => `Dans la plage de maintien ${time}`,
  leak: (verdict: string) => `Fuite : ${verdict}`,
  held: (time: string) => `Maintien depuis ${time}`,
  checkSample: ['TÂTER', 'LE TÉMOIN'],
  metAgo: (time: string) => `il y a ${time}`,
  reached: (when: string) =>
    when === '' ? 'Temps de durcissement atteint' : `Temps de durcissement atteint ${when}`,
  metAt: (clock: string, time: string) => `à ${clock}, il y a ${time}`,
  metIn: (low: string, high: string) =>
    low === high ? `atteint dans ${low}` : `atteint dans ${low} à ${high}`,
  metBetween: (from: string, to: string) =>
    from === to ? `atteint à ${to}` : `atteint entre ${from} et ${to}`,
  coldest: (value: string) => `Point le plus froid probable ${value} : rien ne se compte.`,
  ofSeconds: (time: string) => `sur ${time}`,
  cameBack: (value: string, u: string) => `revenue à ${value}, au-delà du ±\u00a0${u} de la mesure`,
  rose: (value: string, u: string) =>
    `montée à ${value} : dans le ±\u00a0${u} de la mesure, mais pas du bruit`,
  notEmpty: 'une ligne à zéro n’est pas un packer vide',
  // of an air test
  airVerdict: {
    passed: ['RÉUSSI'],
    failed: ['ÉCHOUÉ'],
    'cannot-say': ['NE PEUT', 'ÊTRE DIT'],
  } satisfies Record<AirTestVerdict, readonly string[]>,
  airDrop: (drop: string, u: string, allowed: string) => `chute ${drop} ± ${u}, admise ${allowed}`,
  airAllowed: (allowed: string) => `chute admise ${allowed}`,
  thenTest: 'puis fermer la purge et tester',

  // keys
  more: 'Plus',
  close: 'Fermer',
  hold: 'appui long',
  useSheet: 'Continuer avec cette fiche',
  choosePacker: 'Choisir le packer',
  warm: 'Chauffer les sondes',
  testSound: 'Tester le son',
  ackNext: (title: string) => `Acquitter la suivante : ${title}`,
  acknowledged: (time: string) => `Acquittée il y a ${time}`,
  /** Of an alarm that is over: what is left to do, and under it what it was. */
  wasDo: 'Terminée : l’acquitter.',
  wasTitle: (title: string) => `C’était : ${title}`,
  others: 'Aussi là',
  orderLabel: 'Que faire',
  timeLabel: 'Temps',

  // drawer
  spanStage: 'Selon l’étape',
  tabs: {
    start: 'Début',
    numbers: 'Chiffres',
    spans: 'Durées',
    stages: 'Autres étapes',
    checks: 'Contrôles',
    checklist: 'Liste de contrôle',
    note: 'Note',
    alarms: 'Alarmes',
    run: 'Fiche et session',
    rig: 'Simulateur',
    why: 'Motif',
  },
  /** The longest of them in the hand. */
  runTabShort: 'Fiche',
  whyTitle: (action: string) => `${action} quand même ?`,
  whyText: 'Appuyer sur le motif. Il est enregistré avec l’étape.',
  ownReason: 'Autre motif',
  noStages: 'Aucune autre étape d’ici.',
  allAlarms: 'Rien n’attend et rien n’est mis de côté.',
  shelfTitle: 'Mettre de côté dix minutes',
  takeBack: 'La ramener',
  endHold: 'Clore la session : appui long',

  // strip and bars of the other pages
  recording: 'Enregistre',
  rec: 'Enr.',
  lamp: (n: number, priority: string, more: number) => {
    const said = `${n} ${priority}${n > 1 ? 's' : ''}`;
    return more === 0 ? said : `${said}, +${more}`;
  },
  marks: (n: number) => (n === 1 ? '1 marque' : `${n} marques`),
  shelved: (title: string, left: string) => `De côté : ${title}, encore ${left}`,
  shelvedShort: (left: string) => `De côté, ${left}`,
  shelvedMany: (n: number, left: string) => `${n} de côté, la suivante dans ${left}`,
  soundOff: 'MUET',
  goLive: 'Voir le direct',
  mixedLeft: (time: string) => `vie en pot ${time}`,
  cureLeft: (time: string) => `reste à durcir ${time}`,
  cureMet: 'tâter le témoin',
};

/** Beside a count of alarms. */
export const LAMP: Record<Priority, string> = { urgent: 'urgente', high: 'haute', low: 'basse' };

/** Reasons at hand for a step that something speaks against. */
export const REASONS: Record<Stage, readonly string[]> = {
  prepare: ['La tentative recommence.'],
  seat: ['Cause de l’alarme vue et réparée.', 'Zéro comparé avec le manomètre.'],
  inflate: ['Cause de l’alarme vue et réparée.', 'Lecture au manomètre à la place.', 'L’air est remplacé.'],
  hold: [
    'Lecture au manomètre à la place.',
    'Suffit pour cette manchette.',
    'La tentative continue telle quelle.',
  ],
  'let-down': [
    'Manchette tâtée dure, échantillon pas sous la main.',
    'La pression doit tomber maintenant.',
    'La tentative est abandonnée.',
  ],
  done: ['Packer vu vide.', 'Purgé d’une autre façon.'],
  'air-test': ['Obturateurs vus posés et étayés.', 'Un autre capteur surveille le packer.'],
  abandoned: [
    'La manchette est mal placée.',
    'La pression doit tomber maintenant.',
    'La résine a pris trop tôt.',
  ],
};

/** Which of the reasons for 'done' says that the packer was seen empty. */
export const SEEN_EMPTY = 0;

/** Reasons at hand for an alarm that is put aside. */
export const SHELF_REASONS: readonly string[] = [
  'Connue, quelqu’un s’en occupe.',
  'Cause vue, sans danger.',
  'Irréparable pendant cette session.',
];
