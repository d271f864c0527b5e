/** Figures that read the same in every language but for the words beside them. */

/** An upper bound is rounded up, and never to nothing: no line is tight to 0.0 mbar/min. */
export const boundUp = (mbarPerMin: number): number => Math.max(0.1, Math.ceil(mbarPerMin * 10 - 1e-9) / 10);

/** Run time to a tenth of a second, as a part of a machine's answer: always with a point. */
export function answerClock(us: number | null): string {
  if (us === null) return '?';
  const s = Math.floor(us / 1e6);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}.${String(Math.floor(us / 1e5) % 10)}`;
}
