import type { DocumentIssue, IssueCode } from '../../job/issues.ts';
import type { UnitChoice } from '../../units/display.ts';
import { type Format, METRIC } from '../create-format.ts';

const ISSUE: Record<IssueCode, (issue: DocumentIssue, units: UnitChoice, f: Format) => string> = {
  missing: () => 'Falta.',
  type: () => 'No es la clase de valor que va aquí.',
  blank: () => 'No puede quedar vacío.',
  'too-long': (i) => `Demasiado largo${atMost(i.limit, ' caracteres')}.`,
  'too-short': (i) => `Demasiado corto${atLeast(i.limit, ' caracteres')}.`,
  'too-many': (i) => `Demasiadas filas${atMost(i.limit)}.`,
  'too-few': (i) => `Faltan filas${atLeast(i.limit)}.`,
  'too-low': (i, units, f) =>
    i.limit === undefined ? 'Demasiado bajo.' : NUMBER_FIELD.tooLow(f.boundText(i.limit, 'least', i, units)),
  'too-high': (i, units, f) =>
    i.limit === undefined ? 'Demasiado alto.' : NUMBER_FIELD.tooHigh(f.boundText(i.limit, 'most', i, units)),
  'not-whole': () => 'Tiene que ser un número entero.',
  'not-one-of': (i) => `Tiene que ser uno de: ${(i.choices ?? []).join(', ')}.`,
  'unknown-key': (i) => `Entradas desconocidas: ${(i.choices ?? []).join(', ')}.`,
  form: () => 'Solo letras, cifras, punto, guion y guion bajo.',
  characters: () => 'Contiene caracteres que no se pueden mostrar.',
  date: () => 'No es una fecha (año-mes-día).',
  order: () => 'Las filas tienen que ir subiendo, ninguna dos veces.',
  duplicate: () => 'La misma entrada está aquí dos veces.',
  pair: () => 'No encaja con la entrada de al lado.',
  overlap: () =>
    'Dos filas leen los mismos registros como valores distintos. Dar a cada valor sus propios registros.',
  'past-end': () =>
    'El valor acabaría después del registro 65535, el último que hay. Los registros se cuentan desde 0: lo que una ficha técnica llama 40001 es el registro 0 de la función 3.',
  'version-future': (i) =>
    `Hecho por una versión más nueva de este programa (${i.found ?? 'desconocida'}, esta conoce la ${i.limit ?? 'anterior'}).`,
  'version-unknown': () => 'No lleva ninguna versión que este programa conozca.',
  'too-large': () => 'Demasiado grande.',
};

const atLeast = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (al menos ${limit}${what})`;
const atMost = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (como máximo ${limit}${what})`;

const NUMBER_FIELD = {
  empty: 'Escribir un número.',
  'not-a-number': 'No es un número.',
  grouped: 'Escribir el número sin separar los millares.',
  unit: 'Esa unidad no va aquí.',
  tooLow: (lo: string) => `Demasiado bajo: al menos ${lo}.`,
  tooHigh: (hi: string) => `Demasiado alto: como máximo ${hi}.`,
  whole: 'Tiene que ser un número entero.',
};

export const issues = (f: Format) => ({
  NUMBER_FIELD,
  /** @param units what bounds are told in */
  issueText: (issue: DocumentIssue, units: UnitChoice = METRIC): string => ISSUE[issue.code](issue, units, f),
});
