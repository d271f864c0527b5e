import type { Remark, Verdict } from './findings.ts';

/** What a good verdict does not vouch for: to be said with the verdict, not behind it. */
export interface Reservations {
  /** The events are the word of whoever signed them. */
  readonly unjudged: boolean;
  /** Files as they were signed that today's program makes otherwise. */
  readonly otherwise: readonly string[];
  /** Files as they were signed that were not made again, though they were to be. */
  readonly notMade: readonly string[];
}

/** null: nothing is reserved, or the verdict says worse. */
export function reservationsOf(verdict: Verdict, remarks: readonly Remark[]): Reservations | null {
  if (verdict !== 'valid' && verdict !== 'unknown-signer') return null;
  const unjudged = remarks.find((r) => r.r === 'not-judged');
  const files = (what: 'derived-otherwise' | 'not-derived'): string[] =>
    remarks.flatMap((r) => (r.r === what ? [r.file] : []));
  const otherwise = files('derived-otherwise');
  // Whoever asked for the sums alone knows that nothing was made again.
  const notMade = unjudged?.r === 'not-judged' && unjudged.why === 'not-asked' ? [] : files('not-derived');
  const none = unjudged === undefined && otherwise.length + notMade.length === 0;
  return none ? null : { unjudged: unjudged !== undefined, otherwise, notMade };
}
