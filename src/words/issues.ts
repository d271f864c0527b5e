import type { DocumentIssue, IssueCode } from '../job/issues.ts';

/** Why an entry was not taken, said at the field. */
const ISSUE: Record<IssueCode, (issue: DocumentIssue) => string> = {
  missing: () => 'Missing.',
  type: () => 'Not the kind of value that belongs here.',
  blank: () => 'May not be empty.',
  'too-long': (i) => `Too long${bound('at most', i.limit, 'characters')}.`,
  'too-short': (i) => `Too short${bound('at least', i.limit, 'characters')}.`,
  'too-many': (i) => `Too many rows${bound('at most', i.limit)}.`,
  'too-few': (i) => `Too few rows${bound('at least', i.limit)}.`,
  'too-low': (i) => `Too low${bound('at least', i.limit)}.`,
  'too-high': (i) => `Too high${bound('at most', i.limit)}.`,
  'not-whole': () => 'Must be a whole number.',
  'not-one-of': (i) => `Must be one of: ${(i.choices ?? []).join(', ')}.`,
  'unknown-key': (i) => `Unknown entries: ${(i.choices ?? []).join(', ')}.`,
  form: () => 'Letters, digits, dot, dash and underscore only.',
  characters: () => 'Contains characters that cannot be shown.',
  date: () => 'Not a date (year-month-day).',
  order: () => 'Rows must rise, none twice.',
  duplicate: () => 'The same entry stands here twice.',
  pair: () => 'Does not fit the entry beside it.',
  'version-future': (i) =>
    `Made by a newer version of this program (${i.found ?? 'unknown'}, this one knows ${i.limit ?? 'less'}).`,
  'version-unknown': () => 'Carries no version that this program knows.',
  'too-large': () => 'Too large.',
};

function bound(word: string, limit: number | undefined, what = ''): string {
  return limit === undefined ? '' : ` (${word} ${limit}${what === '' ? '' : ` ${what}`})`;
}

export function issueText(issue: DocumentIssue): string {
  return ISSUE[issue.code](issue);
}

/** What a number field says on its own, before any document is checked. */
export const NUMBER_FIELD = {
  empty: 'Type a number.',
  'not-a-number': 'Not a number.',
  grouped: 'Write the number without marks between the thousands.',
  unit: 'That unit does not belong here.',
  tooLow: (lo: string) => `Too low: at least ${lo}.`,
  tooHigh: (hi: string) => `Too high: at most ${hi}.`,
  whole: 'Must be a whole number.',
} as const;
