import { describe, expect, it } from 'vitest';
import { createMemoryFile } from './memory-file.ts';

describe('a file in memory', () => {
  it('gives back what was appended, over the seams of its blocks and behind a cut', () => {
    const file = createMemoryFile();
    let all = new Uint8Array(0);
    const append = (n: number, seed: number): void => {
      const more = Uint8Array.from({ length: n }, (_, i) => (i * 31 + seed) & 0xff);
      file.append(more);
      const longer = new Uint8Array(all.length + n);
      longer.set(all);
      longer.set(more, all.length);
      all = longer;
    };
    [5, 0, 1_048_570, 3, 2_500_000, 7].forEach(append);
    expect(file.size).toBe(all.length);
    for (const [from, n] of [
      [0, 10],
      [1_048_570, 12],
      [1_048_576, 1],
      [0, all.length],
      [all.length - 3, 3],
      [all.length, 0],
    ] as const)
      expect(Buffer.compare(file.read(from, n), all.subarray(from, from + n))).toBe(0);
    // No more than there is.
    expect(file.read(all.length - 3, 10).length).toBe(3);
    file.truncate(1_048_577);
    all = all.slice(0, 1_048_577);
    append(9, 1);
    expect(Buffer.compare(file.read(0, file.size), all)).toBe(0);
    file.truncate(0);
    expect(file.read(0, 5).length).toBe(0);
  });
});
