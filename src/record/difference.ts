/** Shorter than this the words are not worth the views on them. */
const LEAST = 64;

/** Where two stretches of bytes differ first; null when they don't. A shorter one differs where it ends. */
export function firstDifference(a: Uint8Array, b: Uint8Array): number | null {
  const n = Math.min(a.length, b.length);
  let i = 0;
  if (n >= LEAST && ((a.byteOffset | b.byteOffset) & 3) === 0) {
    const words = n >> 2;
    const x = new Int32Array(a.buffer, a.byteOffset, words);
    const y = new Int32Array(b.buffer, b.byteOffset, words);
    let w = 0;
    while (w < words && x[w] === y[w]) w++;
    i = 4 * w;
  }
  while (i < n && a[i] === b[i]) i++;
  return i < n || a.length !== b.length ? i : null;
}
