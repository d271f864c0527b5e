import type * as z from 'zod/mini';
import { type BenchDocument, benchMigrations, benchSchema } from './bench-document.ts';
import { type ChecklistDocument, checklistMigrations, checklistSchema } from './checklist-document.ts';
import { describe, type Field, type Fields, fieldAt } from './describe.ts';
import type { NumberBounds } from './fields.ts';
import { type DocumentIssue, type Parsed, toIssues } from './issues.ts';
import { type JobDocument, jobMigrations, jobSchema } from './job-document.ts';
import { type Body, migrate, type StepsTo } from './migrations.ts';
import { type PackerDocument, packerMigrations, packerSchema } from './packer-document.ts';
import {
  type ColumnMap,
  columnMapMigrations,
  columnMapSchema,
  type ReadingMap,
  type RegisterMap,
  registerMapMigrations,
  registerMapSchema,
} from './reading-map.ts';
import { type ResinDocument, resinMigrations, resinSchema } from './resin-document.ts';
import { type SensorDocument, sensorMigrations, sensorSchema } from './sensor-document.ts';
import { type SettingsDocument, settingsMigrations, settingsSchema } from './settings-document.ts';

export interface Documents {
  readonly job: JobDocument;
  readonly packer: PackerDocument;
  readonly resin: ResinDocument;
  readonly sensor: SensorDocument;
  readonly settings: SettingsDocument;
  readonly registers: RegisterMap;
  readonly columns: ColumnMap;
  readonly checklist: ChecklistDocument;
  readonly bench: BenchDocument;
}
export type JobDocumentKind = keyof Documents;

const SCHEMAS: { readonly [K in JobDocumentKind]: z.ZodMiniType<Documents[K]> } = {
  job: jobSchema,
  packer: packerSchema,
  resin: resinSchema,
  sensor: sensorSchema,
  settings: settingsSchema,
  registers: registerMapSchema,
  columns: columnMapSchema,
  checklist: checklistSchema,
  bench: benchSchema,
};

const MIGRATIONS: { readonly [K in JobDocumentKind]: StepsTo<Documents[K]['version']> } = {
  job: jobMigrations,
  packer: packerMigrations,
  resin: resinMigrations,
  sensor: sensorMigrations,
  settings: settingsMigrations,
  registers: registerMapMigrations,
  columns: columnMapMigrations,
  checklist: checklistMigrations,
  bench: benchMigrations,
};

/** Every number, text, code, flag and list of a kind of document, as its schema has them. */
export const FIELDS: { readonly [K in JobDocumentKind]: Fields } = {
  job: describe(jobSchema),
  packer: describe(packerSchema),
  resin: describe(resinSchema),
  sensor: describe(sensorSchema),
  settings: describe(settingsSchema),
  registers: describe(registerMapSchema),
  columns: describe(columnMapSchema),
  checklist: describe(checklistSchema),
  bench: describe(benchSchema),
};

/** @throws RangeError where the kind has no such field there: a path that the compiler did not see */
function made<I extends Field['is']>(kind: JobDocumentKind, path: string, is: I): Field & { readonly is: I } {
  const field = fieldAt(FIELDS[kind], path);
  if (field?.is !== is) throw new RangeError(`${kind}.${path} is no ${is}`);
  return field as Field & { readonly is: I };
}

/** What the number at a path of a document may be, and what it is told in. */
export const numberAt = (kind: JobDocumentKind, path: string): NumberBounds & { readonly open: boolean } =>
  made(kind, path, 'number');

/** The codes that may stand at a path, in the order in which a form offers them. */
export const codesAt = (kind: JobDocumentKind, path: string): readonly (string | number)[] =>
  made(kind, path, 'code').codes;

/** Longest text, UTF-16 units, and whether it may be null. */
export const textAt = (
  kind: JobDocumentKind,
  path: string,
): { readonly most: number; readonly open: boolean } => made(kind, path, 'text');

/** Most rows of a list. */
export const mostRows = (kind: JobDocumentKind, path: string): number => made(kind, path, 'rows').most;

export const isDocumentKind = (kind: string): kind is JobDocumentKind => Object.hasOwn(SCHEMAS, kind);

const refuse = (issue: DocumentIssue): { ok: false; issues: DocumentIssue[] } => ({
  ok: false,
  issues: [issue],
});

/** More members than any document can hold: a hostile one is not even looked at. */
const MOST_MEMBERS = 20_000;

function tooLarge(input: object): boolean {
  const open: object[] = [input];
  let members = 0;
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const values: unknown[] = Object.values(at);
    members += values.length;
    if (members > MOST_MEMBERS) return true;
    for (const v of values) if (typeof v === 'object' && v !== null) open.push(v);
  }
  return false;
}

/**
 * Checks anything that claims to be a document and brings it to the newest version. Never throws; the value is a
 * fresh copy that holds nothing but what the schema names.
 */
export function parseDocument<K extends JobDocumentKind>(kind: K, input: unknown): Parsed<Documents[K]> {
  if (typeof input !== 'object' || input === null || Array.isArray(input))
    return refuse({ path: '', code: 'type' });
  if (tooLarge(input)) return refuse({ path: '', code: 'too-large', limit: MOST_MEMBERS });
  const migrated = migrate(input as Body, MIGRATIONS[kind]);
  if (!migrated.ok) return refuse(migrated.issue);
  const result = SCHEMAS[kind].safeParse(migrated.body, { reportInput: true });
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, issues: toIssues(result.error.issues, FIELDS[kind]) };
}

/** Checks anything that claims to be a reading map of either kind. Never throws. */
export function parseReadingMap(input: unknown): Parsed<ReadingMap> {
  const is = (input as { is?: unknown } | null)?.is;
  if (is !== 'registers' && is !== 'columns')
    return refuse({ path: 'is', code: 'not-one-of', choices: ['registers', 'columns'] });
  return parseDocument(is, input);
}
