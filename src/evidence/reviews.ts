/** What a person decided about a record: kept beside it, never in it, and never exchanged. */
import type { DocumentStore, StoredDocument } from '../record/stores/store.ts';
import type { EvidenceDeps } from './deps.ts';
import { EvidenceError } from './faults.ts';
import { REVIEW_STATUSES, type ReviewStatus, type StatusLine } from './messages.ts';

const isStatus = (v: unknown): v is ReviewStatus => REVIEW_STATUSES.some((s) => s === v);
const MOST_LINES = 200;
const REASON_MOST = 500;
const BY_MOST = 80;

const isLine = (v: unknown): v is StatusLine => {
  const l = v as Partial<StatusLine> | null;
  return (
    typeof l === 'object' &&
    l !== null &&
    isStatus(l.status) &&
    typeof l.reason === 'string' &&
    typeof l.by === 'string' &&
    typeof l.utcMs === 'number'
  );
};

/** A list of decisions as it rests, taken to the letter; null where a line is none. */
export function reviewIn(
  body: unknown,
): { readonly version: 1; readonly lines: readonly StatusLine[] } | null {
  const b = body as { version?: unknown; lines?: unknown } | null;
  if (b?.version !== 1 || !Array.isArray(b.lines) || b.lines.length > MOST_LINES) return null;
  if (!b.lines.every((l) => isLine(l) && l.reason.length <= REASON_MOST && l.by.length <= BY_MOST))
    return null;
  const lines = (b.lines as StatusLine[]).map(({ status, reason, by, utcMs }) => ({
    status,
    reason,
    by,
    utcMs,
  }));
  return { version: 1, lines };
}

const linesIn = (body: unknown): readonly StatusLine[] => {
  const lines = (body as { lines?: unknown } | null)?.lines;
  return Array.isArray(lines) ? lines.filter(isLine) : [];
};

/** Oldest first. @param id of the record: refText() */
export async function statusesOf(documents: DocumentStore, id: string): Promise<readonly StatusLine[]> {
  return linesIn((await documents.get('review', id))?.body);
}

/** The newest status of every record that has one. @param reviews all documents of the kind 'review' */
export function newestStatuses(reviews: readonly StoredDocument[]): ReadonlyMap<string, StatusLine> {
  const found = new Map<string, StatusLine>();
  for (const { id, body } of reviews) {
    const last = linesIn(body).at(-1);
    if (last !== undefined) found.set(id, last);
  }
  return found;
}

/**
 * @param isPlain whether nothing about the record asks for a reason; asked for only where none was given
 * @throws EvidenceError 'bad-request' without a name, or for a rejection without a reason; 'reason-needed' for an
 * acceptance without one of a record that is not plain
 */
export async function setStatus(
  deps: EvidenceDeps,
  id: string,
  line: { readonly status: ReviewStatus; readonly reason: string; readonly by: string },
  isPlain: () => Promise<boolean>,
): Promise<readonly StatusLine[]> {
  const reason = line.reason.trim().slice(0, REASON_MOST);
  const by = line.by.trim().slice(0, BY_MOST);
  if (!isStatus(line.status) || by === '' || (line.status === 'rejected' && reason === ''))
    throw new EvidenceError('bad-request', 'a status needs a name, a rejection its reason');
  if (line.status === 'released' && reason === '' && !(await isPlain()))
    throw new EvidenceError('reason-needed', 'a record with exceptions is accepted for a reason');
  const resting = await deps.documents.get('review', id);
  const lines = linesIn(resting?.body);
  if (lines.length >= MOST_LINES) throw new EvidenceError('bad-request', 'the list of statuses is full');
  const next = [...lines, { status: line.status, reason, by, utcMs: deps.utcMs() }];
  await deps.documents.put({
    kind: 'review',
    id,
    revision: resting?.revision ?? 0,
    savedUtcMs: deps.utcMs(),
    body: { version: 1, lines: next },
  });
  return next;
}
