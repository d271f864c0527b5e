/** Faults of the practice rig, by the code that the rig takes. */
export type RigFaultCode =
  | 'regulator'
  | 'creep'
  | 'stuck-open'
  | 'leak'
  | 'open-probe'
  | 'unplug'
  | 'replug'
  | 'reset'
  | 'garbage'
  | 'silence'
  | 'supply-sag'
  | 'kink'
  | 'burst'
  | 'blown-hose'
  | 'relief'
  | 'first-lost'
  | 'second-off'
  | 'second-lost'
  | 'sensors-swapped'
  | 'cup-in-air'
  | 'cup-swapped'
  | 'hose-leak'
  | 'put-right';

/** Words of the live screen. */
export const LIVE = {
  title: 'Direct',
  connectTitle: 'Connecter',
  connectText: 'La pression est surveillée dès la première mesure, avec ou sans chantier.',
  connectDevice: 'Connecter le boîtier',
  connectBy: {
    registers: (name: string) => `Lire le bus selon « ${name} »`,
    columns: (name: string) => `Lire la ligne en clair selon « ${name} »`,
  },
  knownDevice: (deviceId: string, baud: number) =>
    `Le dernier ici : ${deviceId}, à ${baud} bauds. Son port est repris sans redemander.`,
  knownMap: (name: string, baud: number) =>
    `Le dernier ici : lu selon « ${name} », à ${baud} bauds. Son port est repris sans redemander.`,
  connectedTo: (deviceId: string, firmware: string) => `Connecté : ${deviceId}, micrologiciel ${firmware}`,
  toBench: 'Voir ses lignes au banc',
  connectOther: 'Choisir un autre port',
  connectRig: 'Prendre le simulateur',
  practices: 'Autres exercices',
  drills: 'Exercices avec but',
  drillsText: 'Quelque chose se gâte dans chacun ; un but, puis un bilan.',
  noSerial:
    'Ce navigateur n’a pas de port série : aucun boîtier ne peut y être connecté. Les sessions gardées s’ouvrent et se revoient. Pour un chantier en direct, prendre Chrome, Edge ou Firefox sur un ordinateur, ou Chrome sur Android.',
  disconnect: 'Déconnecter',
  packerStep: 'Packer',
  packerTitle: 'Quel packer ?',
  packerText: 'Comparer le numéro de série et la plaque du packer que vous tenez.',
  limitsBefore: (ceiling: string) =>
    `La session précédente n’a pas été vue finir à vide : son plafond de ${ceiling} reste en vigueur jusqu’au choix d’un packer.`,
  packerPractice: 'Chantier d’exercice avec son packer',
  packerNone: 'Sans packer : pas d’alerte de surpression',
  packerNew: 'Saisir un packer',
  plate: (serial: string, from: number, to: number) =>
    serial === '' ? `${from}-${to} mm` : `${serial}, ${from}-${to} mm`,
  diameter: 'Diamètre intérieur de la conduite',
  correctSheet: 'Corriger la fiche',
  goMixed: 'La résine est mélangée : continuer',
  mixedAlready: 'La résine était déjà mélangée',
  zeroTitle: 'Zéro',
  zeroText: 'Ouvrir le raccord et voir qu’il est ouvert. La mesure doit tenir près de zéro.',
  zeroPressure:
    'La ligne est sous pression : le zéro ne peut pas se faire maintenant. Ne jamais ouvrir un raccord sous pression.',
  zero: 'Faire le zéro',
  zeroSkip: 'Continuer sans zéro',
  zeroReason: 'Zéro non fait',
  takeDevice: (deviceId: string) => `Prendre ${deviceId} pour cette session`,
  takeText:
    'Seulement si le premier boîtier ne peut pas revenir. Dès lors c’est celui-ci qui est lu, avec sa propre échelle et sans zéro : voir le manomètre. Son zéro est redemandé tant que rien n’est gonflé. Le plus bas des deux plafonds vaut, et lui est donné comme limite propre. Les capteurs de la fiche appartiennent au premier boîtier et en sont retirés.',
  takeRescaledText:
    'Le boîtier annonce une autre échelle qu’avant : un autre capteur a été monté, ou ses réglages ont changé. Voir d’abord le manomètre. Dès lors il est lu avec la nouvelle échelle et sans zéro, redemandé tant que rien n’est gonflé. Le plus bas des deux plafonds vaut, et lui est donné comme limite propre. Les capteurs de la fiche appartiennent à la première échelle et en sont retirés.',
  endText:
    'L’enregistrement s’arrête et le tracé est gardé avec le chantier. La surveillance reste active tant que le boîtier est connecté.',
  unwrittenTitle: 'Une partie de l’enregistrement n’est pas sur le disque',
  unwrittenText:
    'La session est encore ouverte, la surveillance continue, et la partie en attente est réessayée sans cesse. Quand il y a de la place, clore de nouveau. Ou garder d’abord tout l’enregistrement dans un fichier, puis clore sans la partie en attente.',
  savePages: 'Enregistrer dans un fichier',
  endWithout: 'Clore sans la partie en attente',
  endWhy:
    'Le packer est peut-être plein. Pourquoi la session finit-elle ici ? Le motif est gardé dans l’enregistrement.',
  /** Which of the reasons says that the packer was seen empty. */
  endedEmpty: 2,
  endReasons: [
    'Le packer reste sous pression, suivi au manomètre',
    'La mesure est fausse ou perdue',
    'Dégonflé, le manomètre est à zéro',
  ],
  /** Said against what is read; kept in the record. */
  endedAgainst: (pressure: string) => `Dégonflé, le manomètre est à zéro ; la ligne indiquait ${pressure}`,
  endUnderPressure: 'La ligne n’est pas à zéro. Clore la session arrête l’enregistrement, pas le packer.',
  recording: (bytes: string, saved: string) => `Enregistrement, ${bytes}, écrit il y a ${saved}`,
  notRecording: 'Rien n’est enregistré',
  resumedRun: 'Reprise après une interruption',
  minutesInBand: 'Dans la plage de maintien',
  lowest: 'Le plus bas du maintien',
  highest: 'Pic du maintien',
  peak: 'Pic',
  leak: 'Fuite',
  rate: 'Vitesse',
  rest: 'Sans débit',
  settle: 'S’arrêtera à',
  within: (value: string, low: string, high: string) => `${value} (${low} à ${high})`,
  gaugeTitle: 'Comparer le manomètre',
  gaugeText: 'Vanne fermée, attendre 15 à 20 s, puis lire le manomètre.',
  gaugeValue: 'Le manomètre indique',
  gaugeSend: 'Comparer',
  gaugeResult: (gauge: string, sensor: string) => `Manomètre ${gauge}, capteur ${sensor}.`,
  warmTitle: 'Chauffer les sondes dans la main',
  warmText:
    'Tenir une sonde et le thermomètre ensemble dans la main une minute, puis la suivante : deux sondes échangées se voient ainsi. Alors seulement une sonde est crue au-dessus de la température du sol.',
  warmValue: (place: string) => `Le thermomètre indique (${place})`,
  warmSend: 'Comparer',
  agrees: 'Concordent.',
  differs: 'Divergent au-delà de leur incertitude.',
  answerLetDown: 'Oui, on purge',
  answerLoss: 'Non, perte d’air',
  witnessTitle: 'Échantillon témoin',
  witnessText: 'L’échantillon gardé à la température de la conduite est :',
  witnessHard: 'Dur',
  witnessSoft: 'Pas dur',
  notedHard: 'Noté : dur, gardé à la température de la conduite.',
  notedSoft: 'Noté : pas dur. Laisser le packer sous pression.',
  notedWarm:
    'Noté : dur, mais pas gardé à la température de la conduite : il ne dit rien de la manchette. S’il y était gardé, cocher et appuyer de nouveau.',
  sampleDoubt: {
    'hard-early':
      'Dur bien trop tôt pour la fiche technique : gardé plus chaud que la conduite, ou d’une autre résine ? Cela n’écourte aucune attente.',
    'soft-late':
      'Pas dur bien après le temps de la fiche technique : un mélange lent, ou un échantillon gardé plus froid ? Le décompte l’attend.',
  },
  witnessPlace: 'Il était gardé à la température de la conduite',
  span: 'Durée affichée',
  spanMinute: '1 min',
  spanTenMinutes: '10 min',
  spanHour: '1 h',
  spanAll: 'Tout',
  traceLabel: 'Pression et températures dans le temps',
  deviceGuard: (state: string) => `Limite dans le boîtier : ${state}`,
  deviceGuardAt: (state: string, limit: string) => `Limite dans le boîtier : ${state}, ${limit}`,
  deviceSilence: 'Couper le buzzer du boîtier',
  checkpointCode: 'Code du jalon, à photographier par le client',
  toSheet: 'Fiche de chantier',
  note: 'Note',
  noteAdd: 'Garder la note',
  asleep: 'L’ordinateur peut se mettre en veille : le garder sur secteur, ne pas le verrouiller.',
};

export const RIG = {
  title: 'Simulateur',
  text: 'Ses mains et ses défauts. Aucune vraie ligne n’a ce panneau.',
  valve: 'Vanne d’air',
  shut: 'Fermer',
  regulator: 'Détendeur',
  ventOpen: 'Ouvrir la purge',
  ventShut: 'Fermer la purge',
  couple: 'Raccorder le flexible',
  uncouple: 'Ouvrir le raccord',
  endShut: 'Fermer le bout du flexible',
  endOpen: 'Ouvrir le bout du flexible',
  speed: 'Vitesse du temps',
  truth: 'Vraie pression dans le packer',
  faults: 'Défauts à trouver',
};

/** What there is to be learnt at each practice site beside the usual one. */
export const PRACTICE_SITE: Record<
  'practice-pair' | 'practice-moved' | 'practice-differ' | 'practice-cup' | 'practice-air',
  { readonly name: string; readonly text: string }
> = {
  'practice-pair': {
    name: 'Un deuxième capteur au détendeur',
    text: 'Tout va bien : le repère de la sortie du détendeur est à côté de la pression du packer.',
  },
  'practice-moved': {
    name: 'Le détendeur bouge après l’épreuve',
    text: 'Éprouver d’abord l’arrivée ; quatre minutes après la connexion, le détendeur monte lentement.',
  },
  'practice-differ': {
    name: 'Les deux capteurs divergent',
    text: 'Peu après la connexion, le deuxième capteur indique bien trop bas : lequel a raison ?',
  },
  'practice-cup': {
    name: 'Le gobelet montre un mélange lent',
    text: 'Une sonde est dans un gobelet du mélange. Appuyer aussitôt sur Résine mélangée ; à 20 fois la vitesse il faut deux minutes pour le savoir.',
  },
  'practice-air': {
    name: 'Une conduite réparée entre deux obturateurs',
    text: 'Pas de packer : aller à l’essai à l’air (Plus, Autres étapes). Sans défaut elle est étanche ; « Fuite » en fait un.',
  },
};

export const RIG_FAULT: Record<RigFaultCode, string> = {
  regulator: 'Détendeur trop haut',
  creep: 'Détendeur qui monte',
  'stuck-open': 'Détendeur bloqué ouvert',
  leak: 'Fuite',
  'open-probe': 'Sonde coupée',
  unplug: 'Retirer le câble',
  replug: 'Remettre le câble',
  reset: 'Redémarrage du boîtier',
  garbage: 'Parasites sur le câble',
  silence: 'Le boîtier se tait',
  'supply-sag': 'Tension du capteur en baisse',
  kink: 'Flexible plié',
  burst: 'Packer éclaté',
  'blown-hose': 'Flexible sauté de son raccord',
  relief: 'Soupape qui s’ouvre trop tôt',
  'first-lost': 'Capteur de pression en panne',
  'second-off': 'Deuxième capteur faux',
  'second-lost': 'Deuxième capteur en panne',
  'sensors-swapped': 'Capteurs échangés',
  'cup-in-air': 'Sonde du gobelet dans l’air',
  'cup-swapped': 'Sondes du gobelet et de la manchette échangées',
  'hose-leak': 'Le flexible fuit',
  'put-right': 'Capteurs, sondes, flexible remis en ordre',
};
