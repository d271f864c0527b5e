/** Timing helpers of the bench. Ratios inside one run count; absolute figures are this machine's. */

import { bits32 } from '../../src/estimate/testing/random.ts';

export const now = () => performance.now();

/** CPU time of this process so far, ms: on a busy machine the clock counts what others do. */
export function cpuMs(): number {
  const used = process.cpuUsage();
  return (used.user + used.system) / 1000;
}

/** Best of `rounds` runs of `work`, in ms: the least disturbed one on a noisy machine. */
export function best(rounds: number, work: () => void): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rounds; i++) {
    const t = now();
    work();
    least = Math.min(least, now() - t);
  }
  return least;
}

/** The p-quantile (0…1) of the values, nearest rank. */
export function quantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(p * sorted.length) - 1))] ?? Number.NaN;
}

export interface Row {
  readonly what: string;
  readonly value: string;
  /** The baseline of the same run, or the goal. */
  readonly beside: string;
  /** null where there is no goal. */
  readonly met: boolean | null;
}

export function print(title: string, rows: readonly Row[]): void {
  console.log(`\n${title}`);
  const width = Math.max(...rows.map((r) => r.what.length));
  const mid = Math.max(...rows.map((r) => r.value.length));
  for (const r of rows) {
    const mark = r.met === null ? ' ' : r.met ? '✓' : '✗';
    console.log(`  ${mark} ${r.what.padEnd(width)}  ${r.value.padStart(mid)}  ${r.beside}`);
  }
}

/** Uniform in [0, 1) from a seed, so that each run of the bench measures the same bytes. */
export function random(seed: number): () => number {
  const next = bits32(seed);
  return () => next() / 4294967296;
}

/** The bench's own compiler wraps named functions in a helper that a page does not have: this is that helper. */
export const NAMES = 'globalThis.__name ??= (f) => f;';
