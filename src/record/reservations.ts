import type { Remark, Verdict } from './findings.ts';

/** By what else that the record holds a Setup, its papers or a time is contradicted. */
export type ApartFrom = 'device' | 'papers' | 'clock';

/** What a good verdict does not vouch for: to be said with the verdict, not behind it. */
export interface Reservations {
  /** The events are the word of whoever signed them. */
  readonly unjudged: boolean;
  /** Making something again broke off: the record holds what this program can't follow, or this program has a fault. */
  readonly failed: boolean;
  /** Files as they were signed that today's program makes otherwise. */
  readonly otherwise: readonly string[];
  /** Files as they were signed that were not made again, though they were to be. */
  readonly notMade: readonly string[];
  readonly apart: readonly ApartFrom[];
}

const unjudgedIn = (remarks: readonly Remark[]) => remarks.find((r) => r.r === 'not-judged');

/** Whoever asked for the sums alone knows that nothing was made again. */
function notMadeOf(remarks: readonly Remark[]): readonly string[] {
  if (unjudgedIn(remarks)?.why === 'not-asked') return [];
  return remarks.flatMap((r) => (r.r === 'not-derived' ? [r.file] : []));
}

/** Something was to be derived again and was not: of it the record is no more than its signer's word. */
export function isUnderived(remarks: readonly Remark[]): boolean {
  const unjudged = unjudgedIn(remarks);
  return (unjudged !== undefined && unjudged.why !== 'not-asked') || notMadeOf(remarks).length > 0;
}

const APART = {
  'device-limit': 'device',
  'device-counts': 'device',
  'papers-apart': 'papers',
  'clock-apart': 'clock',
} as const satisfies Partial<Record<Remark['r'], ApartFrom>>;

const isApart = (r: Remark['r']): r is keyof typeof APART => r in APART;

/** null: nothing is reserved, or the verdict says worse. */
export function reservationsOf(verdict: Verdict, remarks: readonly Remark[]): Reservations | null {
  if (
    verdict !== 'valid' &&
    verdict !== 'practice' &&
    verdict !== 'not-derived' &&
    verdict !== 'unknown-signer'
  )
    return null;
  const unjudged = unjudgedIn(remarks);
  const failed = remarks.some((r) =>
    r.r === 'not-judged' ? r.why === 'failed' : r.r === 'not-derived' && r.failed,
  );
  const otherwise = remarks.flatMap((r) => (r.r === 'derived-otherwise' ? [r.file] : []));
  const notMade = notMadeOf(remarks);
  const apart = [...new Set(remarks.flatMap(({ r }) => (isApart(r) ? [APART[r]] : [])))].sort();
  const none = unjudged === undefined && otherwise.length + notMade.length + apart.length === 0;
  return none ? null : { unjudged: unjudged !== undefined, failed, otherwise, notMade, apart };
}
