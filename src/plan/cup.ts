import type { ResinDocument } from '../job/resin-document.ts';
import type { ChannelSetup, CupMark, CupSetup } from '../job/setup.ts';
import { input, type Notes } from './notes.ts';

/** What the resin's document knows of cups like this job's. */

/** One batch's mark may differ from another's of the same resin in such a cup by this, 1 s (docs/science.md) ... */
const USUAL_SCATTER = 0.08;
/** ... a belief that weighs as much as so many batches. */
const BELIEF = 3;
/** A mark is of cups up to so many times as full, or as empty: mass moves it. */
const LIKE = 1.5;

/** The middle of what earlier batches told, with its scatter; null: there are none. */
export function markOf(
  batches: readonly { readonly mark: number; readonly riseK: number }[],
): CupMark | null {
  const n = batches.length;
  if (n === 0) return null;
  const logs = batches.map((b) => Math.log(b.mark));
  const mean = logs.reduce((sum, l) => sum + l, 0) / n;
  const squares = logs.reduce((sum, l) => sum + (l - mean) ** 2, 0);
  const one = (BELIEF * USUAL_SCATTER ** 2 + squares) / (BELIEF + n - 1);
  return {
    age: Math.exp(mean),
    // Of the next batch against the mean of those: its own scatter and the mean's.
    scatter: Math.sqrt(one * (1 + 1 / n)),
    riseK: Math.min(...batches.map((b) => b.riseK)),
    batches: n,
  };
}

/**
 * The cup of this job; null: no probe stands in one, or its mass was not typed. Without the temperature at mixing nobody could tell
 * whether the probe is in it, so that no mark is used.
 */
export function planCup(
  resin: ResinDocument | null,
  used: { readonly mixC: number | null; readonly cupMassG: number | null },
  channels: readonly ChannelSetup[],
  notes: Notes,
): CupSetup | null {
  if (resin === null || !channels.some((c) => c.role === 'temperature' && c.place === 'cup')) return null;
  const { mixC, cupMassG } = used;
  const alike = resin.cupMarks.filter(
    ({ massG }) => cupMassG !== null && massG <= LIKE * cupMassG && cupMassG <= LIKE * massG,
  );
  const mark = mixC === null ? null : markOf(alike);
  if (mark === null)
    notes.warn('cup-coarse', cupMassG === null ? [] : [input('cup-mass', cupMassG, 'g')], resin.name);
  return cupMassG === null ? null : { massG: cupMassG, mark };
}

/** How many marks a document keeps. */
export const MOST_MARKS = 20;

type Kept = ResinDocument['cupMarks'][number];

export const withoutMark = (resin: ResinDocument, runId: string): ResinDocument => ({
  ...resin,
  cupMarks: resin.cupMarks.filter((m) => m.runId !== runId),
});

/** The resin with what the cup of a run has shown, once however often it is kept. */
export const withMark = (resin: ResinDocument, mark: Kept & { readonly runId: string }): ResinDocument => ({
  ...resin,
  cupMarks: [...withoutMark(resin, mark.runId).cupMarks, mark],
});
