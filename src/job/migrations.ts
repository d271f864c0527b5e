import type { DocumentIssue } from './issues.ts';

export type Body = Readonly<Record<string, unknown>>;

export const isBody = (v: unknown): v is Body => typeof v === 'object' && v !== null && !Array.isArray(v);

export type Migration = (old: Body) => Body;
/** steps[i] turns version i + 1 into i + 2; the newest version is steps.length + 1. */
export type Migrations = readonly Migration[];
/** The steps that lead to version V from its first: one less than there are versions. */
export type StepsTo<V extends number, S extends Migrations = readonly []> = [
  ...S,
  unknown,
]['length'] extends V
  ? S
  : StepsTo<V, readonly [...S, Migration]>;

export type Migrated =
  | { readonly ok: true; readonly body: Body; readonly from: number }
  | { readonly ok: false; readonly issue: DocumentIssue };

/** Brings a document to its newest version. A later one is refused: guessing at it could lose what it says. */
export function migrate(body: Body, steps: Migrations): Migrated {
  const newest = steps.length + 1;
  const found = Object.hasOwn(body, 'version') ? body.version : undefined;
  if (found === undefined) return { ok: false, issue: { path: 'version', code: 'missing' } };
  if (typeof found !== 'number' || !Number.isInteger(found) || found < 1)
    return { ok: false, issue: { path: 'version', code: 'version-unknown', limit: newest } };
  if (found > newest)
    return { ok: false, issue: { path: 'version', code: 'version-future', limit: newest, found } };
  let now = body;
  for (let v = found; v < newest; v++) {
    const step = steps[v - 1];
    if (step === undefined) throw new Error(`no migration from version ${v}`);
    now = { ...step(now), version: v + 1 };
  }
  return { ok: true, body: now, from: found };
}
