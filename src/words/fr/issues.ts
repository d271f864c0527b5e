import type { DocumentIssue, IssueCode } from '../../job/issues.ts';
import type { UnitChoice } from '../../units/display.ts';
import { type Format, METRIC } from '../create-format.ts';

/** Why an entry was not taken, said at the field. */
const ISSUE: Record<IssueCode, (issue: DocumentIssue, units: UnitChoice, f: Format) => string> = {
  missing: () => 'Manque.',
  type: () => 'Pas le genre de valeur attendu ici.',
  blank: () => 'Ne peut rester vide.',
  'too-long': (i) => `Trop long${atMost(i.limit, ' caractères')}.`,
  'too-short': (i) => `Trop court${atLeast(i.limit, ' caractères')}.`,
  'too-many': (i) => `Trop de lignes${atMost(i.limit)}.`,
  'too-few': (i) => `Pas assez de lignes${atLeast(i.limit)}.`,
  'too-low': (i, units, f) =>
    i.limit === undefined ? 'Trop bas.' : NUMBER_FIELD.tooLow(f.boundText(i.limit, 'least', i, units)),
  'too-high': (i, units, f) =>
    i.limit === undefined ? 'Trop haut.' : NUMBER_FIELD.tooHigh(f.boundText(i.limit, 'most', i, units)),
  'not-whole': () => 'Doit être un nombre entier.',
  'not-one-of': (i) => `Doit être l’un de : ${(i.choices ?? []).join(', ')}.`,
  'unknown-key': (i) => `Entrées inconnues : ${(i.choices ?? []).join(', ')}.`,
  form: () => 'Lettres, chiffres, point, tiret et souligné seulement.',
  characters: () => 'Contient des caractères qui ne peuvent être affichés.',
  date: () => 'Pas une date (année-mois-jour).',
  order: () => 'Les lignes doivent monter, sans doublon.',
  duplicate: () => 'La même entrée est là deux fois.',
  pair: () => 'Ne va pas avec l’entrée d’à côté.',
  overlap: () =>
    'Deux lignes lisent les mêmes registres comme des valeurs différentes. Donner à chaque valeur ses propres registres.',
  'past-end': () =>
    'La valeur finirait après le registre 65535, le dernier. Les registres se comptent à partir de 0 : ce qu’une fiche technique appelle 40001 est le registre 0 de la fonction 3.',
  'version-future': (i) =>
    `Fait par une version plus récente de ce programme (${i.found ?? 'inconnue'}, celui-ci connaît ${i.limit ?? 'moins'}).`,
  'version-unknown': () => 'Ne porte aucune version connue de ce programme.',
  'too-large': () => 'Trop gros.',
};

const atLeast = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (au moins ${limit}${what})`;
const atMost = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (au plus ${limit}${what})`;

/** What a number field says on its own, before any document is checked. */
const NUMBER_FIELD = {
  empty: 'Saisir un nombre.',
  'not-a-number': 'Pas un nombre.',
  grouped: 'Écrire le nombre sans séparer les milliers.',
  unit: 'Cette unité n’a rien à faire ici.',
  tooLow: (lo: string) => `Trop bas : au moins ${lo}.`,
  tooHigh: (hi: string) => `Trop haut : au plus ${hi}.`,
  whole: 'Doit être un nombre entier.',
};

export const issues = (f: Format) => ({
  NUMBER_FIELD,
  /** @param units what bounds are told in */
  issueText: (issue: DocumentIssue, units: UnitChoice = METRIC): string => ISSUE[issue.code](issue, units, f),
});
