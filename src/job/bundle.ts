import { type Documents, type JobDocumentKind, parseDocument } from './documents.ts';
import { ID } from './id.ts';
import type { DocumentIssue, Parsed } from './issues.ts';
import type { JobDocument } from './job-document.ts';
import { isBody } from './migrations.ts';
import type { PackerDocument } from './packer-document.ts';
import type { ResinDocument } from './resin-document.ts';
import type { SensorDocument } from './sensor-document.ts';

/** The job file: a job with everything it refers to, so that it stands alone. Read by the command line too. */
export const BUNDLE_SCHEMA = 'steadybar-job/1';
/** Longest text of a job file that is looked at, UTF-16 units. */
export const BUNDLE_MOST = 2_000_000;
const MOST_SENSORS = 16;
const KEYS = ['schema', 'jobId', 'job', 'packer', 'resin', 'sensors'];

export interface Named<T> {
  readonly id: string;
  readonly document: T;
}

export interface JobBundle {
  readonly jobId: string;
  readonly job: JobDocument;
  readonly packer: Named<PackerDocument> | null;
  readonly resin: Named<ResinDocument> | null;
  readonly sensors: readonly Named<SensorDocument>[];
}

/** Checks a parsed JSON value that claims to be a job file. Never throws. */
export function parseBundle(input: unknown): Parsed<JobBundle> {
  const issues: DocumentIssue[] = [];
  if (!isBody(input)) return { ok: false, issues: [{ path: '', code: 'type' }] };
  if (input.schema === undefined) return { ok: false, issues: [{ path: 'schema', code: 'missing' }] };
  if (input.schema !== BUNDLE_SCHEMA)
    return { ok: false, issues: [{ path: 'schema', code: 'version-unknown', choices: [BUNDLE_SCHEMA] }] };
  const strange = Object.keys(input).filter((k) => !KEYS.includes(k));
  if (strange.length > 0)
    issues.push({ path: '', code: 'unknown-key', choices: strange.slice(0, 10).map((k) => k.slice(0, 64)) });

  const read = <K extends JobDocumentKind>(kind: K, value: unknown, at: string): Documents[K] | null => {
    const parsed = parseDocument(kind, value);
    if (parsed.ok) return parsed.value;
    for (const i of parsed.issues) issues.push({ ...i, path: i.path === '' ? at : `${at}.${i.path}` });
    return null;
  };
  const named = <K extends JobDocumentKind>(
    kind: K,
    value: unknown,
    at: string,
  ): Named<Documents[K]> | null => {
    if (!isBody(value)) {
      issues.push({ path: at, code: 'type' });
      return null;
    }
    if (typeof value.id !== 'string' || !ID.test(value.id)) issues.push({ path: `${at}.id`, code: 'form' });
    const document = read(kind, value.document, `${at}.document`);
    return document === null ? null : { id: String(value.id), document };
  };

  const job = read('job', input.job, 'job');
  const jobId = typeof input.jobId === 'string' && ID.test(input.jobId) ? input.jobId : null;
  if (jobId === null) issues.push({ path: 'jobId', code: input.jobId === undefined ? 'missing' : 'form' });
  const packer =
    input.packer === null || input.packer === undefined ? null : named('packer', input.packer, 'packer');
  const resin =
    input.resin === null || input.resin === undefined ? null : named('resin', input.resin, 'resin');
  const list: unknown = input.sensors ?? [];
  const sensors: Named<SensorDocument>[] = [];
  if (!Array.isArray(list)) issues.push({ path: 'sensors', code: 'type' });
  else if (list.length > MOST_SENSORS)
    issues.push({ path: 'sensors', code: 'too-many', limit: MOST_SENSORS });
  else
    list.forEach((s: unknown, i) => {
      const one = named('sensor', s, `sensors.${i}`);
      if (one !== null) sensors.push(one);
    });
  if (job === null || jobId === null || issues.length > 0) return { ok: false, issues: issues.slice(0, 50) };
  return { ok: true, value: { jobId, job, packer, resin, sensors } };
}

/** Reads a job file's text: too large, not JSON, or not a bundle are all issues. */
export function readBundle(text: string): Parsed<JobBundle> {
  if (text.length > BUNDLE_MOST)
    return { ok: false, issues: [{ path: '', code: 'too-large', limit: BUNDLE_MOST }] };
  let value: unknown;
  try {
    value = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch {
    return { ok: false, issues: [{ path: '', code: 'form' }] };
  }
  return parseBundle(value);
}

/** The job file as a value ready for JSON. */
export function toBundle(bundle: JobBundle): Readonly<Record<string, unknown>> {
  return { schema: BUNDLE_SCHEMA, ...bundle };
}
