import type { Line } from '../../job/setup.ts';

/** How far the level must move before the data speak against the declared line, bar. */
const MOVED_BAR = 0.1;
/** Top-ups within ten minutes that no hand on a closed valve makes. */
const TOP_UPS = 4;
const WITHIN_S = 600;

/**
 * Whether the hold's data contradict the declared line: a regulator that feeds would not let the pressure sink,
 * one that relieves would not let it climb, and a closed line is not filled up again and again. startBar is the
 * level when the hold became still, levelBar the level now; both as seen at least a minute apart.
 */
export function lineContradicted(
  line: Line,
  startBar: number | null,
  levelBar: number | null,
  topUpsS: readonly number[],
  nowS: number,
): boolean {
  if (line === 'closed') return topUpsS.filter((t) => nowS - t <= WITHIN_S).length >= TOP_UPS;
  if (startBar === null || levelBar === null) return false;
  if (line === 'supplied-relieving') return Math.abs(levelBar - startBar) > MOVED_BAR;
  if (line === 'supplied-nonrelieving') return levelBar < startBar - MOVED_BAR;
  return false;
}
