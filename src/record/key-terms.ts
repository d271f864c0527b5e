/**
 * For which times a key counts. A time is what the signature says of itself by the tablet's clock: a key that was taken
 * can sign with any time, so that a revocation holds against its holder only where something else bounds the time.
 */
export interface KeyTerm {
  /** UTC ms; null: no bound. A signature of this very moment counts. */
  readonly fromUtcMs: number | null;
  /** The first moment that does not count any more. */
  readonly untilUtcMs: number | null;
  /** Known to be in other hands from this moment on. What it signed before stays as good as it was. */
  readonly revokedUtcMs: number | null;
}

export type TermFault = 'before' | 'after' | 'revoked';

export const ALWAYS: KeyTerm = { fromUtcMs: null, untilUtcMs: null, revokedUtcMs: null };

/** Why a signature of this time does not count; null: it does. @param term undefined: without bounds */
export function termFault(term: KeyTerm | undefined, utcMs: number): TermFault | null {
  const { fromUtcMs, untilUtcMs, revokedUtcMs } = term ?? ALWAYS;
  if (revokedUtcMs !== null && utcMs >= revokedUtcMs) return 'revoked';
  if (fromUtcMs !== null && utcMs < fromUtcMs) return 'before';
  return untilUtcMs !== null && utcMs >= untilUtcMs ? 'after' : null;
}

const isMs = (v: unknown): v is number | null => v === null || Number.isSafeInteger(v);

/** What was kept or came from elsewhere; null when it is none, or bounds nothing in between. */
export function keyTermIn(v: unknown): KeyTerm | null {
  if (typeof v !== 'object' || v === null) return null;
  const { fromUtcMs, untilUtcMs, revokedUtcMs } = v as Partial<Record<keyof KeyTerm, unknown>>;
  if (!isMs(fromUtcMs) || !isMs(untilUtcMs) || !isMs(revokedUtcMs)) return null;
  if (fromUtcMs !== null && untilUtcMs !== null && untilUtcMs <= fromUtcMs) return null;
  return { fromUtcMs, untilUtcMs, revokedUtcMs };
}
