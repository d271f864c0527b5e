import type * as z from 'zod/mini';
import type { Kind } from '../units/display.ts';
import { type Fields, fieldAt } from './describe.ts';

/**
 * Why a document was refused. The words come from the catalogue; here only the code and its numbers.
 *
 * missing · type (wrong kind of value) · blank · too-long/too-short (text, limit) · too-many/too-few (rows, limit) ·
 * too-low/too-high (number, limit) · not-whole · not-one-of (choices) · unknown-key (keys) · form (id or text that
 * does not match its pattern) · characters (control or direction marks) · date · order (a table must ascend) ·
 * duplicate · overlap (registers that two rows read) · past-end (registers beyond the last) · pair (two fields contradict each other) · version-future · version-unknown · too-large (whole document).
 */
export type IssueCode =
  | 'missing'
  | 'type'
  | 'blank'
  | 'too-long'
  | 'too-short'
  | 'too-many'
  | 'too-few'
  | 'too-low'
  | 'too-high'
  | 'not-whole'
  | 'not-one-of'
  | 'unknown-key'
  | 'form'
  | 'characters'
  | 'date'
  | 'order'
  | 'duplicate'
  | 'pair'
  | 'overlap'
  | 'past-end'
  | 'version-future'
  | 'version-unknown'
  | 'too-large';

export interface DocumentIssue {
  /** Dotted path from the document's root ('ratings.0.ratedBar'); '' is the document itself. */
  readonly path: string;
  readonly code: IssueCode;
  /** The bound that was passed, or the newest version known. */
  readonly limit?: number;
  /** What the bound is told in, where the number has a unit: its kind, or the one unit that it is always told in. */
  readonly kind?: Kind;
  readonly unit?: string;
  /** The document's version where the code is version-…. */
  readonly found?: number;
  /** What would have been accepted, or the keys that nobody knows. */
  readonly choices?: readonly string[];
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly DocumentIssue[] };

/** More would help nobody. */
const MOST_ISSUES = 50;
const RULES = new Set<string>([
  'characters',
  'blank',
  'date',
  'order',
  'duplicate',
  'pair',
  'overlap',
  'past-end',
]);

function translate(issue: z.core.$ZodIssue, at: string, fields: Fields): DocumentIssue {
  switch (issue.code) {
    case 'too_big':
      return {
        path: at,
        code: issue.origin === 'string' ? 'too-long' : issue.origin === 'array' ? 'too-many' : 'too-high',
        limit: Number(issue.maximum),
        ...toldIn(fields, at),
      };
    case 'too_small':
      return {
        path: at,
        code: issue.origin === 'string' ? 'too-short' : issue.origin === 'array' ? 'too-few' : 'too-low',
        limit: Number(issue.minimum),
        ...toldIn(fields, at),
      };
    case 'invalid_type':
      if (issue.expected === 'int') return { path: at, code: 'not-whole' };
      return { path: at, code: issue.input === undefined ? 'missing' : 'type' };
    case 'invalid_value':
      return { path: at, code: 'not-one-of', choices: issue.values.map(String) };
    case 'unrecognized_keys':
      return { path: at, code: 'unknown-key', choices: issue.keys.slice(0, 10).map((k) => k.slice(0, 64)) };
    case 'invalid_format':
      return { path: at, code: 'form' };
    case 'custom': {
      const code: unknown = issue.params?.code;
      return { path: at, code: typeof code === 'string' && RULES.has(code) ? (code as IssueCode) : 'form' };
    }
    default:
      return { path: at, code: 'type' };
  }
}

function toldIn(fields: Fields, at: string): Pick<DocumentIssue, 'kind' | 'unit'> {
  const field = fieldAt(fields, at);
  if (field?.is !== 'number') return {};
  if (field.kind !== undefined) return { kind: field.kind };
  return field.unit === undefined ? {} : { unit: field.unit };
}

/** The parser's issues as codes, at most 50. @param fields the schema's own, for the units of bounds */
export function toIssues(issues: readonly z.core.$ZodIssue[], fields: Fields): DocumentIssue[] {
  return issues
    .slice(0, MOST_ISSUES)
    .map((issue) => translate(issue, issue.path.map(String).join('.'), fields));
}
