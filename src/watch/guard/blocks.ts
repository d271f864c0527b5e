/**
 * Means of neighbouring cleaned samples. Two rows of them are kept: short blocks (0.05 s or a sample) over the
 * last few seconds, for what happens now, and blocks of 0.2 s over the whole stretch of a fill, merged in pairs
 * as they age, for where it is going. Both rows have a fixed length, so a reading costs the same after 12 h.
 */

/** Plain data; the lists run in step, oldest first. */
export interface BlockRow {
  t: number[];
  p: number[];
  /** Samples in the block. */
  n: number[];
  /** The block being filled. */
  sumT: number;
  sumP: number;
  count: number;
  startT: number;
}

export function createRow(): BlockRow {
  return { t: [], p: [], n: [], sumT: 0, sumP: 0, count: 0, startT: 0 };
}

export function clearRow(row: BlockRow): void {
  row.t.length = 0;
  row.p.length = 0;
  row.n.length = 0;
  row.sumT = 0;
  row.sumP = 0;
  row.count = 0;
}

/**
 * Adds a sample; true when a block was completed and appended. A block is full when the next sample would lie
 * past its width, judged by the typical period, so that blocks of one stream have one size.
 */
export function rowPush(row: BlockRow, t: number, p: number, width: number, period: number): boolean {
  if (row.count === 0) row.startT = t;
  // Sums about the first time of the block keep digits after days of run time.
  row.sumT += t - row.startT;
  row.sumP += p;
  row.count++;
  if (t - row.startT + 1.5 * period < width) return false;
  row.t.push(row.startT + row.sumT / row.count);
  row.p.push(row.sumP / row.count);
  row.n.push(row.count);
  row.sumT = 0;
  row.sumP = 0;
  row.count = 0;
  return true;
}

/** Drops so many of the oldest. */
export function rowDrop(row: BlockRow, drop: number): void {
  row.t.splice(0, drop);
  row.p.splice(0, drop);
  row.n.splice(0, drop);
}

/** Drops the oldest once half as many again as `most` are there, so that at least `most` remain: seldom, not at each block. */
export function rowTrim(row: BlockRow, most: number): void {
  if (row.t.length >= most + (most >> 1)) rowDrop(row, row.t.length - most);
}

/**
 * Merges pairs in the older half, and drops from the oldest what is still too many. The mean of a curved stretch
 * lies off the curve by (rise of the block)²/(48 · rise still to come), so a block's rise is bounded.
 */
export function rowMerge(row: BlockRow, most: number, rise: number, longest: number): void {
  const half = row.t.length >> 1;
  const t: number[] = [];
  const p: number[] = [];
  const n: number[] = [];
  let i = 0;
  while (i < half) {
    const m = row.n[i]! + row.n[i + 1]!;
    if (i + 1 < half && m <= longest && Math.abs(row.p[i + 1]! - row.p[i]!) * 2 <= rise) {
      t.push((row.t[i]! * row.n[i]! + row.t[i + 1]! * row.n[i + 1]!) / m);
      p.push((row.p[i]! * row.n[i]! + row.p[i + 1]! * row.n[i + 1]!) / m);
      n.push(m);
      i += 2;
    } else {
      t.push(row.t[i]!);
      p.push(row.p[i]!);
      n.push(row.n[i]!);
      i++;
    }
  }
  row.t = t.concat(row.t.slice(i));
  row.p = p.concat(row.p.slice(i));
  row.n = n.concat(row.n.slice(i));
  if (row.t.length > most) rowDrop(row, row.t.length - most);
}
