/**
 * Means over equal lengths of time, at a bounded number: when the list is full, neighbours are merged and the
 * length doubles, so that an hour and a night cost the same. Serves every regression of the hold.
 */
export interface Blocks {
  /** Length of a block, s. */
  lengthS: number;
  /** Middle of each block, s. */
  t: number[];
  y: number[];
  fromS: number | null;
  sumT: number;
  sumY: number;
  n: number;
}

const FULL = 240;

export function createBlocks(lengthS: number): Blocks {
  return { lengthS, t: [], y: [], fromS: null, sumT: 0, sumY: 0, n: 0 };
}

/** Takes a value; true when a block was completed by it. */
export function blocksAdd(b: Blocks, tS: number, y: number): boolean {
  let closed = false;
  if (b.fromS !== null && tS - b.fromS >= b.lengthS) {
    b.t.push(b.sumT / b.n);
    b.y.push(b.sumY / b.n);
    b.fromS = null;
    closed = true;
    if (b.t.length >= FULL) halve(b);
  }
  if (b.fromS === null) {
    b.fromS = tS;
    b.sumT = 0;
    b.sumY = 0;
    b.n = 0;
  }
  b.sumT += tS;
  b.sumY += y;
  b.n++;
  return closed;
}

function halve(b: Blocks): void {
  const half = b.t.length >> 1;
  for (let i = 0; i < half; i++) {
    b.t[i] = (b.t[2 * i]! + b.t[2 * i + 1]!) / 2;
    b.y[i] = (b.y[2 * i]! + b.y[2 * i + 1]!) / 2;
  }
  b.t.length = half;
  b.y.length = half;
  b.lengthS *= 2;
}
