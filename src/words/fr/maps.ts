import type {
  Parity,
  ReadFunction,
  ReadingUnit,
  RegisterType,
  SuggestedPlace,
  WordOrder,
} from '../../job/codes.ts';

/** Words of the reading maps: registers of a bus, columns of a plain line. */
export const MAPS = {
  registersOne: 'Table de registres',
  columnsOne: 'Table de colonnes',
  noPressure:
    'Aucune ligne n’est une pression : cette table est celle d’un deuxième adaptateur. Elle est lue pour ses températures, à côté d’un boîtier avec la pression.',
  registersText:
    'Pour transmetteurs et modules en Modbus RTU sur un adaptateur USB pour RS-485. Chaque ligne est une valeur ; sa fiche technique donne adresse d’unité, fonction, registre, type et ordre des octets.',
  columnsText:
    'Pour une carte qui imprime des lignes de texte. Chaque ligne de la table est une valeur : par son nom dans nom=valeur, ou par sa colonne. Une ligne n’a pas de contrôle, un chiffre faux peut donc sembler juste.',
  source: 'Source',
  bus: 'Bus',
  line: 'Ligne',
  rows: 'Valeurs',
  row: (n: number) => `Valeur ${n}`,
  add: 'Ajouter une valeur',
  remove: (n: number) => `Retirer la valeur ${n}`,
  status: 'Un registre d’état dit si elle est valable',
  test: 'Lecture de contrôle',
  testText:
    'Lit une fois selon ce qui est saisi ici, enregistré ou non. Ce qui est connecté est lâché pour cela ; pendant une session c’est refusé.',
  testNow: 'Lire maintenant',
  testing: 'Lecture …',
  testWrong: 'Corriger d’abord les champs marqués.',
  value: (row: number, value: string) => `Valeur ${row} : ${value}`,
  noValue: (row: number) => `Valeur ${row} : rien`,
  fits: 'dans l’étendue',
  orderValue: (order: string, value: string) => `${order} : ${value}`,
  orderNone: (order: string) => `${order} : pas un nombre`,
  useOrder: 'Prendre cet ordre',
  cells: (n: number) => (n === 1 ? 'La dernière ligne a une colonne.' : `La dernière ligne a ${n} colonnes.`),
  takeCells: (n: number) => `Les lignes ont ${n} ${n > 1 ? 'colonnes' : 'colonne'}`,
  useCell: (row: number) => `Prendre pour la valeur ${row}`,
  pace: (asked: string, most: string) =>
    `${asked} mesures par seconde sont demandées ; le bus en passe ${most} au mieux.`,
  paceShort:
    'C’est plus que le bus ne passe : elles viennent aussi souvent que possible. Une vitesse plus haute aide.',
  saveFile: 'Enregistrer dans un fichier',
  openFile: 'Ouvrir un fichier',
  fileRefused: (why: string) => `Le fichier n’est pas une table de ce genre : ${why}`,
  fileTooLarge: 'Le fichier n’est pas une table de ce genre : il est trop gros.',
  fileTaken: 'Repris. Le parcourir, puis enregistrer.',
};

export const REGISTERS = {
  name: 'Nom',
  deviceId: 'Connu comme',
  deviceIdHint: 'Étalonnages et sessions appartiennent à ce nom, comme à celui d’un boîtier.',
  baud: 'Vitesse',
  parity: 'Parité',
  answerMs: 'Attendre une réponse, ms',
  retries: 'Redemander',
  quantity: 'Mesure',
  place: 'Position',
  address: 'Adresse d’unité',
  fn: 'Fonction',
  register: 'Registre, à partir de 0',
  registerHint:
    'Le 40001 d’une fiche technique est le registre 0 de la fonction 3 ; son 30001 le registre 0 de la fonction 4. L’hexadécimal 0010h est 16.',
  type: 'Type',
  order: 'Ordre des octets',
  unit: 'Donné en',
  scale: 'Fois',
  scaleHint: 'Ce qui est lu, fois ceci, plus le suivant. Un pas de 0,1 mbar : donné en mbar, fois 0,1.',
  offset: 'Plus',
  lo: 'Étendue de',
  hi: 'Étendue à',
  everyMs: 'Nouvelle valeur toutes les, ms',
  /** Asked back of a register as a data sheet numbers it. */
  asPrinted: (printed: number, register: number, fn: ReadFunction) =>
    `Comme l’imprime une fiche technique ? Son ${printed} est le registre ${register} de la fonction ${fn}.`,
  statusRegister: 'Registre d’état, à partir de 0',
  mask: 'Bits qui comptent (masque)',
  maskHint: 'En un nombre : bits 0, 1 et 2 font 1 + 2 + 4 = 7, les seize 65535.',
  good: 'Bon quand ils sont',
  goodHint: '0 si un bit à 1 veut dire défaut ; sinon ceux qui doivent être à 1, additionnés de même.',
  key: 'Nom avant =',
  column: 'Ou colonne, à partir de 1',
  decimal: 'Séparateur décimal',
  cells: 'Colonnes d’une ligne',
  cellsHint:
    'Une ligne avec un autre nombre de colonnes est gardée et pas lue. Vide si des noms disent laquelle est laquelle.',
  notes: 'Notes',
};

export const PARITY: Record<Parity, string> = {
  even: 'paire',
  odd: 'impaire',
  none: 'sans (8N1 ou 8N2)',
};
export const READ_FUNCTION: Record<ReadFunction, string> = {
  3: '3 : registres de maintien (holding)',
  4: '4 : registres d’entrée (input)',
};
export const REGISTER_TYPE: Record<RegisterType, string> = {
  int16: 'entier, 16 bits, signé',
  uint16: 'entier, 16 bits',
  int32: 'entier, 32 bits, signé',
  uint32: 'entier, 32 bits',
  float32: 'flottant, 32 bits',
};
export const WORD_ORDER: Record<WordOrder, string> = {
  abcd: 'AB CD : mot fort d’abord',
  cdab: 'CD AB : mot faible d’abord',
  badc: 'BA DC : mot fort d’abord, octets échangés',
  dcba: 'DC BA : mot faible d’abord, octets échangés',
};
export const READING_UNIT: Record<ReadingUnit, string> = {
  bar: 'bar',
  mbar: 'mbar',
  Pa: 'Pa',
  kPa: 'kPa',
  MPa: 'MPa',
  psi: 'psi',
  C: '°C',
  F: '°F',
  K: 'K',
};
export const SUGGESTED_PLACE: Record<SuggestedPlace, string> = {
  'not-said': 'non précisé',
  packer: 'ligne propre vers le packer',
  hose: 'flexible',
  supply: 'sortie du détendeur',
  sleeve: 'manchette',
  air: 'air dans le packer',
  pipe: 'paroi de la conduite',
  ground: 'sol',
};
export const BAUD = (baud: number): string => `${baud} bauds`;
export const DECIMAL_MARK: Record<'point' | 'comma', string> = { point: '1.25', comma: '1,25' };
