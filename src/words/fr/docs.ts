import type { PackerDocument } from '../../job/packer-document.ts';
import type { ResinDocument } from '../../job/resin-document.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';

/** Words of the documents: packers, resins, sensors. */
export const DOCS = {
  packerOne: 'Packer',
  resinOne: 'Résine',
  sensorOne: 'Capteur',
  newOne: 'Nouveau',
  none: 'Aucun encore.',
  smallest: 'Plus petite conduite',
  largest: 'Plus grande conduite',
  more: 'Longueurs, gonflage libre, volume, soupape de sûreté',
  readAgain: (pressure: string) => `${pressure} ? Relire la plaque.`,
  ratingsText:
    'D’après la plaque ou la fiche technique du fabricant. Entre deux lignes, la pression la plus basse compte.',
  diameter: 'Diamètre',
  rated: 'Admissible',
  length: 'Longueur',
  pressure: 'Pression',
  litres: 'Volume',
  addRow: 'Ajouter une ligne',
  removeRow: (n: number) => `Retirer la ligne ${n}`,
  /** Beside a row that a run's review kept. */
  ofRun: 'Sa session',
  mix: 'Mélange',
  resinParts: 'Parts de résine',
  hardenerParts: 'Parts de durcisseur',
  basis: 'Parts en',
  expires: 'Péremption du lot',
  logWhat: 'Quoi',
  logNote: 'Note',
  logAdd: 'Ajouter au carnet',
  cureText:
    'Temps jusqu’à la fin que nomme la fiche technique, à chaque température qu’elle donne. Une ligne suffit, plusieurs valent mieux.',
  temperature: 'Température',
  minutes: 'Temps',
  rangeLo: 'Étendue de',
  rangeHi: 'Étendue à',
  spanLo: 'Signal au bas de l’étendue',
  spanHi: 'Signal au haut de l’étendue',
  cupText:
    'Une ligne par mélange approuvé, ou par gobelet pesé au dépôt, dans le récipient habituel de l’équipe : comme le dit la revue. Elles valent pour les temps de durcissement ci-dessus : les retirer quand ceux-ci changent.',
  cupMass: 'Résine mélangée dans le gobelet',
  cupMark: 'Plus forte chaleur à cette part du temps de la fiche technique',
  cupRise: 'Échauffé de',
  curedByHint: 'À la lumière : le durcissement n’est alors pas jugé, quels que soient les temps ci-dessous.',
  perKelvinHint:
    'Zéro et étendue ensemble, selon sa fiche technique, en % de l’étendue par kelvin. Vide : l’usuel est pris.',
  calDate: 'Date',
  calReference: 'Instrument étalon',
  calU: 'Incertitude type de l’étalon',
  asFound: 'Avant réglage',
  asLeft: 'Après réglage',
  indicated: 'Indiqué',
  reference: 'Étalon',
  addCalibration: 'Ajouter un étalonnage',
  removeCalibration: 'Ranger aux étalonnages passés',
  notSaved: 'Non enregistré : voir les champs marqués.',
  gone: 'Ce document n’est plus ici.',
  removeTitle: 'Le retirer ?',
  removeText: 'Les chantiers et sessions qui s’en servaient gardent ce qu’ils ont enregistré.',
};

/** What members of documents are called on their forms; of those left out each field has a name of its own. */
const SHARED = { name: 'Nom', serial: 'Numéro de série', retired: 'Réformé', notes: 'Notes' };

export const PACKER: {
  readonly [M in Exclude<keyof PackerDocument, 'version' | 'sizes' | 'earlierCycles'>]: string;
} = {
  name: SHARED.name,
  serial: SHARED.serial,
  plate: 'La plaque dit',
  plateReadBar: 'J’ai relu la plaque : la plus haute pression admissible ci-dessus est juste',
  ratings: 'Pression admissible par diamètre',
  usable: 'Longueur utile par diamètre',
  freeInflation: 'Pression de gonflage libre par diamètre',
  volume: 'Volume de gaz par diamètre',
  reliefBar: 'Pression de réglage de sa soupape de sûreté',
  retired: SHARED.retired,
  conditions: 'Carnet du packer',
  notes: SHARED.notes,
};

export const RESIN: { readonly [M in Exclude<keyof ResinDocument, 'version' | 'mix' | 'batch'>]: string } = {
  name: SHARED.name,
  kind: 'Genre',
  curedBy: 'Durcit par',
  curePoints: 'Temps de durcissement de la fiche technique',
  criterion: 'Le temps de la fiche technique finit quand',
  countsFrom: 'Le temps de la fiche technique compte depuis',
  lowestC: 'Température la plus basse de la fiche technique',
  exotherm: 'Exothermie',
  expectedRiseK: 'Échauffement attendu de l’air dans le packer',
  potLife: 'Vie en pot',
  potMassG: 'Pour une masse de',
  resinDensity: 'Masse volumique de la résine',
  hardenerDensity: 'Masse volumique du durcisseur',
  mixedDensity: 'Masse volumique du mélange',
  cupMarks: 'Repères de gobelets témoins',
  notes: SHARED.notes,
};

export const SENSOR: {
  readonly [M in Exclude<keyof SensorDocument, 'version' | 'range' | 'span' | 'earlier'>]: string;
} = {
  name: SHARED.name,
  serial: SHARED.serial,
  quantity: 'Mesure',
  signal: 'Signal',
  thermocouple: 'Type de thermocouple',
  thermocoupleClass: 'Classe de tolérance (IEC 60584-1)',
  gaugeKind: 'Lit',
  accuracy: 'Exactitude de sa fiche technique (k = 2)',
  perKelvin: 'Bouge avec sa propre chaleur',
  deviceId: 'Boîtier',
  channel: 'Voie',
  calibration: 'Étalonnage',
  dueDays: 'À refaire après (jours)',
  retired: SHARED.retired,
  notes: SHARED.notes,
};

/** A probe compared at one point, with the readings of the device that will read it. */
export const COMPARISON = {
  begin: 'Comparer dans la glace fondante',
  where: 'Comparé',
  ice: 'Dans la glace fondante brassée : 0 °C',
  thermometer: 'À côté d’un thermomètre étalon',
  iceReference: 'Glace fondante brassée',
  iceHow:
    'Piler de la glace, en remplir le gobelet, ajouter de l’eau froide propre jusqu’en haut de la glace et brasser deux minutes, le bout de la sonde au milieu, loin de la paroi et du fond. Il doit rester de la glace à la fin.',
  thermometerHow:
    'Attacher les deux bouts ensemble dans un seau d’eau brassée, aussi chaude que sera le chantier. Attendre que les deux tiennent, prendre la mesure, puis saisir ce qu’indique le thermomètre.',
  none: 'Aucune sonde n’est lue. Connecter le boîtier qui la lira sur le chantier, sonde branchée.',
  practice: 'Les sondes du simulateur ne sont pas vraies : rien n’en est pris pour un vrai capteur.',
  channel: (channel: number, value: string) => `Voie ${channel} : ${value}`,
  take: 'Prendre cette mesure',
  moving: 'Attendre : elle bouge encore',
  typeReference: 'Saisir sous « Étalon » ce qu’indiquait le thermomètre.',
};
