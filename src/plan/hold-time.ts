import type { ResinSetup, Setup } from '../job/setup.ts';

/** A row of the data sheet that a hold may go by. */
export interface SheetRow {
  /** °C */
  readonly c: number;
  readonly minutes: number;
}

/**
 * The data sheet's own row for a hold by the watch alone: the one at the ground's coldest likely temperature, or the next colder one. Nothing
 * is read between two rows, so that it is rather too long than too short (common practice, no source). The live count knows more; this is for
 * paper.
 * @param ground its temperature, °C, and expanded uncertainty (k = 2), K
 * @returns null where the sheet has no such row, the resin cures by light, or the ground's temperature is not known
 */
export function holdByWatch(resin: ResinSetup | null, ground: Setup['ground']): SheetRow | null {
  if (resin === null || resin.curedBy === 'light' || ground === null) return null;
  const coldestC = ground.c - ground.uC;
  if (resin.lowestC !== null && coldestC < resin.lowestC) return null;
  return resin.points.findLast((point) => point.c <= coldestC) ?? null;
}
