/** Parts of what a verification tells: a phrase for each code. */
import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark } from '../../record/findings.ts';
import type { TermFault } from '../../record/key-terms.ts';
import type { AdditionFault } from '../../record/seal.ts';
import type { ProofFault } from '../../record/witness/check-proof.ts';

export const PAGE: Record<Extract<Finding, { f: 'pages' }>['why'], string> = {
  crc: 'modifié',
  torn: 'coupé',
  missing: 'manquant',
  order: 'pas à sa place',
  chain: 'pas celui que nomme le suivant',
  form: 'pas lisible',
  version: 'd’une version plus récente',
  run: 'd’une autre session',
  rewritten: 'refait quelque part dans cet intervalle',
  end: 'manquant à la fin',
  cut: 'manquant : le fichier finit ici',
};

export const ADDITION: Record<AdditionFault, string> = {
  form: 'pas lisible',
  version: 'd’une version plus récente',
  signature: 'sa signature ne tient pas',
  fingerprint: 'sa clé n’est pas celle qu’il nomme',
  order: 'pas à sa place',
  record: 'd’un autre enregistrement',
  'too-many': 'plus qu’un enregistrement n’en prend, et pas lu',
};

export const NOT_JUDGED: Record<Extract<Remark, { r: 'not-judged' }>['why'], string> = {
  engine: 'l’enregistrement vient d’une autre version du moteur',
  damaged: 'des blocs étaient abîmés sur l’ordinateur',
  'too-long': 'la session prétend durer plus de huit jours, ou plus de deux où presque rien n’a été lu',
  'not-asked': 'seules signatures, chaîne et sommes ont été contrôlées',
  failed:
    'le jugement s’est interrompu. Ou l’enregistrement contient ce qui ne peut être jugé, ou ce programme a un défaut : rien n’est dit dans un sens ni dans l’autre',
};

export const CLOCK_BACK = {
  pages: (at: number, times: number) =>
    times === 1
      ? `L’horloge a reculé pendant la session, avant le bloc ${at}`
      : `L’horloge a reculé ${times} fois pendant la session, d’abord avant le bloc ${at}`,
  end: () => 'La session a fini avant d’être ouverte, à l’horloge',
  sealing: () => 'L’enregistrement a été scellé avant la fin de la session, à l’horloge',
  addition: (at: number) => `L’ajout ${at} est plus ancien que ce à quoi il s’ajoute, à l’horloge`,
} as const;

export const CLOCK_APART: Record<Extract<Remark, { r: 'clock-apart' }>['what'], string> = {
  opened: 'Le journal de contreseing a noté une autre heure d’ouverture',
  ended: 'Le journal de contreseing a noté une autre heure de fin',
  sealed: 'Il a été noté scellé avant l’heure où il dit avoir été scellé',
  'not-before': 'Il dit avoir été ouvert avant qu’un contresignataire signe ce que nomme sa première page',
  'not-after':
    'Il dit avoir été scellé après qu’un contresignataire a signé le journal avec cet enregistrement',
  device: 'À l’horloge propre du boîtier, la session a duré un autre temps qu’à celle de l’ordinateur',
  'device-step':
    'À partir d’un moment, les mesures sont venues plus tard, ou plus tôt, que ne dit l’horloge propre du boîtier, comme quand un morceau a été coupé',
  pages:
    'À l’horloge de l’ordinateur, la session a duré un autre temps, ou a été ouverte à un autre, que ne disent ses blocs',
};

export const PAPERS_APART: Record<Extract<Remark, { r: 'papers-apart' }>['what'][number], string> = {
  sensor: 'un autre capteur ou une autre étendue',
  calibration: 'un autre étalonnage',
  packer: 'un packer d’une autre pression admissible',
  resin: 'une autre résine, ou une autre fiche technique de celle-ci',
  pipe: 'un autre diamètre de la conduite',
  site: 'un autre endroit du capteur, un autre genre de ligne, de chauffage ou d’humidité',
  'air-test': 'un autre essai à l’air',
};

export const TERM: Readonly<Record<TermFault, string>> = {
  before: 'connue, et ceci a été signé avant qu’elle compte',
  after: 'connue, et ceci a été signé quand elle ne comptait plus',
  revoked: 'révoquée, et ceci a été signé après ce moment',
};

export const READ_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Lu sur un bus par une table de registres : ses mesures ne portent que l’horloge de cet ordinateur, et aucun boîtier ne surveillait une limite propre.',
  columns:
    'Ligne non contrôlée : ses mesures sont venues en texte sans contrôle, ne portent que l’horloge de cet ordinateur, et aucun boîtier ne surveillait une limite propre.',
};

export const ENTRIES = {
  setup: (n: number) => (n === 1 ? 'un Setup n’en est pas un' : `${n} Setups n’en sont pas`),
  command: (n: number) =>
    n === 1 ? 'un appui de touche n’a pas sa forme' : `${n} appuis de touche n’ont pas leur forme`,
  notice: (n: number) => (n === 1 ? 'un avis n’a pas sa forme' : `${n} avis n’ont pas leur forme`),
  event: (n: number) => (n === 1 ? 'un événement n’a pas sa forme' : `${n} événements n’ont pas leur forme`),
  map: (n: number) =>
    n === 1 ? 'une table de lecture n’en est pas une' : `${n} tables de lecture n’en sont pas`,
} as const;

export const MANIFEST: Record<Extract<Finding, { f: 'manifest' }>['why'], string> = {
  form: 'pas dans la forme d’un manifeste',
  signature: 'la signature ne tient pas',
  fingerprint: 'la clé n’est pas celle qu’il nomme',
  practice:
    'une session d’exercice a été scellée comme chantier, ce qu’aucun programme de notre part ne fait',
};

export const CONTAINER: Record<Extract<Finding, { f: 'refused' | 'container' }>['why'], string> = {
  'not-a-zip': 'pas un fichier zip',
  'not-a-record': 'pas un enregistrement de ce programme',
  version: 'd’une version plus récente du programme : en prendre une plus récente',
  compressed: 'comprimé à l’intérieur, ce qu’aucun enregistrement n’est',
  encrypted: 'chiffré',
  zip64: 'd’une taille qu’aucun enregistrement n’a',
  name: 'un nom qu’aucun enregistrement n’a',
  twice: 'un nom qui est là deux fois',
  'too-many': 'trop de fichiers à l’intérieur',
  truncated: 'coupé',
  sequence: 'des fichiers dans un autre ordre',
  header: 'pas tel qu’il a été fait (en-tête)',
  behind: 'pas tel qu’il a été fait (après la fin)',
};

export const PROOF: Record<ProofFault, string> = {
  form: 'un de ses fichiers n’a pas sa forme',
  key: 'il est d’un autre journal que celui que nomme le manifeste',
  note: 'un jalon n’est pas signé par son journal, ou pas par son contresignataire',
  inclusion: 'ce qui a été noté n’est pas dans l’arbre du jalon',
  consistency: 'un jalon n’est pas le début de l’autre : deux histoires',
  content: 'ce qui a été noté n’est pas de cet enregistrement',
  twice: 'la session a été scellée plus d’une fois',
  addition: 'un ajout a été noté que le fichier n’a pas',
  stamp: 'l’horodatage porte sur autre chose',
};

/** The same of the temperatures of a second adapter. */
export const BESIDE_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Des températures sont venues d’un deuxième bus par une table de registres : leurs heures sont celles de l’ordinateur. Ce qui en est venu est dans l’enregistrement et a été relu.',
  columns:
    'Des températures sont venues par une deuxième ligne NON CONTRÔLÉE : une ligne perturbée peut sembler juste ; leurs heures sont celles de l’ordinateur. Ce qui en est venu est dans l’enregistrement et a été relu.',
};
