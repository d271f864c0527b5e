import type { CheckCode, Moment } from '../../job/checklist.ts';
import { itemNamed } from '../said/check-item.ts';

/** Items of the built-in list, as a line to tick. */
export const CHECK: Record<CheckCode, string> = {
  permit: 'Permis d’entrée et règles d’espace confiné réglés',
  'flow-stopped': 'Écoulement arrêté ou dévié',
  'camera-before': 'Inspecté à la caméra, position mesurée',
  'diameter-measured': 'Diamètre intérieur mesuré, pas seulement nominal',
  'packer-inspected':
    'Packer sans coupure, abrasion ni usure ; même une coupure superficielle le fait écarter',
  'fittings-locked': 'Raccords enclenchés et verrouillés',
  'relief-fitted': 'Soupape de sûreté montée, réglée au plus à la pression admissible',
  'regulator-fitted': 'Détendeur monté',
  'gauge-fitted': 'Manomètre monté, à zéro ligne ouverte',
  'line-zero': 'Zéro du capteur fait, raccord vu ouvert',
  'probe-warmed': 'Chaque sonde chauffée en main à côté d’un thermomètre',
  'rope-fixed': 'Corde de rappel fixée, son bout hors de la manchette',
  'film-fitted': 'Film d’équerre, non vrillé, tenu aux embouts',
  'sleeve-marks': 'Manchette entre les repères de la longueur utile',
  'batches-noted': 'Numéros de lot notés',
  'witness-kept': 'Échantillon témoin gardé à la température de la conduite',
  ventilation: 'Gaz contrôlé, ouverture ventilée',
  protection: 'Gants, yeux, respiration comme le demande la fiche de données de sécurité',
  'area-clear': 'Personne dans l’axe du packer ni au-dessus de l’ouverture',
  'camera-after': 'Caméra après la réparation',
  cleaned: 'Packer nettoyé et inspecté de nouveau',
};

/** When items are asked, as the heading over them. */
export const MOMENT: Record<Moment, string> = {
  arrival: 'Sur le lieu',
  mixing: 'Avant de mélanger',
  air: 'Avant de mettre l’air',
  'let-down': 'Avant de dégonfler',
  after: 'Après la réparation',
};

export const itemName = (id: string, text: string | null): string =>
  itemNamed(id, text, CHECK, LIST.unknownItem);

/** Reasons at hand for going on without a safety item. */
export const CHECK_REASONS: readonly string[] = [
  'Sans objet sur ce chantier.',
  'Réglé par d’autres sur le lieu.',
  'Impossible ici, le risque a été regardé.',
];

export const LIST = {
  builtIn: 'Liste de contrôle fournie',
  named: (name: string, revision: number) => `${name}, version ${revision}`,
  title: 'Liste de contrôle',
  safety: 'Sécurité',
  seen: (when: string, by: string) => (by === '' ? when : `${when}, ${by}`),
  noTime: 'sans heure',
  goOn: 'Continuer sans',
  without: (item: string) => `Continuer sans : ${item}`,
  why: 'Appuyer sur le motif. Il reste avec le point et figure sur le certificat.',
  passed: (reason: string) => `Poursuivi sans : ${reason}`,
  value: (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`),
  inUnit: (name: string, unit: string) => `${name}, ${unit}`,
  unknownItem: (id: string) => `Point ${id}, plus dans la liste`,
  others: 'Plus dans la liste',
  by: 'À l’ordinateur',
  nobodyText:
    'Cocher qui est là aujourd’hui sous Réglages, Personnes : les réponses et ce qui est pressé portent alors des initiales.',
  which: 'Liste de contrôle de ce chantier',
  keeps: 'Il y a déjà des réponses : ce chantier garde sa liste.',
  answered: (n: number, of: number) => `${n} sur ${of} répondus`,
  noSheet: 'Cette session n’a pas de fiche, donc pas de liste de contrôle.',
  nothingNow: 'Rien n’est demandé à cette étape.',
  before: 'Demandé avant',
  later: 'Demandé plus tard',
  open: 'Ouvrir la liste',
  due: (n: number) => `Liste : ${n}`,
  dueShort: (n: number) => `Liste : ${n}`,
  number: 'Nombre',
  text: 'Réponse',
};
