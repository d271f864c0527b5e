import type { DocumentIssue, IssueCode } from '../../job/issues.ts';
import type { UnitChoice } from '../../units/display.ts';
import { type Format, METRIC } from '../create-format.ts';

/** Why an entry was not taken, said at the field. */
const ISSUE: Record<IssueCode, (issue: DocumentIssue, units: UnitChoice, f: Format) => string> = {
  missing: () => 'Missing.',
  type: () => 'Not the kind of value that belongs here.',
  blank: () => 'May not be empty.',
  'too-long': (i) => `Too long${atMost(i.limit, ' characters')}.`,
  'too-short': (i) => `Too short${atLeast(i.limit, ' characters')}.`,
  'too-many': (i) => `Too many rows${atMost(i.limit)}.`,
  'too-few': (i) => `Too few rows${atLeast(i.limit)}.`,
  'too-low': (i, units, f) =>
    i.limit === undefined ? 'Too low.' : NUMBER_FIELD.tooLow(f.boundText(i.limit, 'least', i, units)),
  'too-high': (i, units, f) =>
    i.limit === undefined ? 'Too high.' : NUMBER_FIELD.tooHigh(f.boundText(i.limit, 'most', i, units)),
  'not-whole': () => 'Must be a whole number.',
  'not-one-of': (i) => `Must be one of: ${(i.choices ?? []).join(', ')}.`,
  'unknown-key': (i) => `Unknown entries: ${(i.choices ?? []).join(', ')}.`,
  form: () => 'Letters, digits, dot, dash and underscore only.',
  characters: () => 'Contains characters that cannot be shown.',
  date: () => 'Not a date (year-month-day).',
  order: () => 'Rows must rise, none twice.',
  duplicate: () => 'The same entry stands here twice.',
  pair: () => 'Does not fit the entry beside it.',
  overlap: () =>
    'Two rows read the same registers as different values. Give each value registers of its own.',
  'past-end': () =>
    'The value would end beyond register 65535, the last there is. Registers are counted from 0: what a data sheet calls 40001 is register 0 of function 3.',
  'version-future': (i) =>
    `Made by a newer version of this program (${i.found ?? 'unknown'}, this one knows ${i.limit ?? 'less'}).`,
  'version-unknown': () => 'Carries no version that this program knows.',
  'too-large': () => 'Too large.',
};

const atLeast = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (at least ${limit}${what})`;
const atMost = (limit: number | undefined, what = ''): string =>
  limit === undefined ? '' : ` (at most ${limit}${what})`;

/** What a number field says on its own, before any document is checked. */
const NUMBER_FIELD = {
  empty: 'Type a number.',
  'not-a-number': 'Not a number.',
  grouped: 'Write the number without marks between the thousands.',
  unit: 'That unit does not belong here.',
  tooLow: (lo: string) => `Too low: at least ${lo}.`,
  tooHigh: (hi: string) => `Too high: at most ${hi}.`,
  whole: 'Must be a whole number.',
};

export const issues = (f: Format) => ({
  NUMBER_FIELD,
  /** @param units what bounds are told in */
  issueText: (issue: DocumentIssue, units: UnitChoice = METRIC): string => ISSUE[issue.code](issue, units, f),
});
