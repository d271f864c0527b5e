/**
 * Share ψ of its choked flow that a restriction passes at a pressure ratio r = p2/p1 (absolute, 0…1), after ISO 6358-1: 1 up to
 * the critical ratio b (0…1), √(1 − ((r − b)/(1 − b))²) over it, 0 where nothing drives it.
 */
export function subsonicShare(r: number, b: number): number {
  if (r <= b) return 1;
  if (r >= 1) return 0;
  const x = (r - b) / (1 - b);
  return Math.sqrt(1 - x * x);
}
