import { describe, expect, it } from 'vitest';
import { fitLine } from '../../estimate/line.ts';
import { blocksAdd, createBlocks } from './blocks.ts';

describe('blocks', () => {
  it('keep a straight line straight, however long it gets, at a bounded number', () => {
    for (const hours of [0.02, 1, 12]) {
      const b = createBlocks(2);
      const n = Math.round(hours * 3600 * 5);
      for (let k = 0; k < n; k++) blocksAdd(b, k / 5, 3 - 0.001 * (k / 5));
      expect(b.t.length).toBeLessThan(240);
      expect(b.t.length).toBeGreaterThan(20);
      expect(fitLine(b.t, b.y)!.slope).toBeCloseTo(-0.001, 9);
    }
  });
});
