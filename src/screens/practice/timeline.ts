/** What happened in a practice run, in its order, with the numbers that the picture has too. */
import type { Debrief } from '../../evidence/messages.ts';

export type Line =
  | { readonly s: number; readonly who: 'rig'; readonly name: string }
  | {
      readonly s: number;
      readonly who: 'sign';
      readonly sign: Extract<Debrief['signs'][number], { by: 'instrument' }>;
    }
  | {
      readonly s: number;
      readonly who: 'ear';
      readonly sign: Extract<Debrief['signs'][number], { by: 'ear' }>;
    }
  | { readonly s: number; readonly who: 'hand'; readonly name: string; readonly value: number | null };

/** So much of what hands did before it went wrong is told, s. */
const BEFORE_S = 30;
export const MOST_LINES = 40;

/** All of it, oldest first; of a run in which nothing went wrong the hands alone. */
export function timelineOf(told: Debrief): readonly Line[] {
  const fromS = told.faultS === null ? -Infinity : told.faultS - BEFORE_S;
  const lines: Line[] = [
    ...told.faults.map((f): Line => ({ s: f.s, who: 'rig', name: f.name })),
    ...told.signs.map(
      (sign): Line =>
        sign.by === 'instrument' ? { s: sign.s, who: 'sign', sign } : { s: sign.s, who: 'ear', sign },
    ),
    ...told.hands
      .filter((h) => h.s >= fromS)
      .map((h): Line => ({ s: h.s, who: 'hand', name: h.name, value: h.value })),
  ];
  return lines.sort((a, b) => a.s - b.s);
}

/** The stretch that the picture shows: what happened, with a little before and behind it. */
export function spanOf(
  told: Debrief,
  lines: readonly Line[],
): { readonly fromS: number; readonly toS: number } {
  const [first, last] = [lines[0]?.s ?? 0, lines.slice(0, MOST_LINES).at(-1)?.s ?? told.lastS];
  const fromS = Math.max(0, Math.min(first, told.faultS ?? first) - 20);
  return { fromS, toS: Math.max(fromS + 30, Math.min(told.lastS, last + 40)) };
}
