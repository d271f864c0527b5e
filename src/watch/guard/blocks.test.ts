import { describe, expect, it } from 'vitest';
import { createRow, rowMerge, rowPush, rowTrim } from './blocks.ts';

describe('block means', () => {
  it('are of one size and keep the mean of time and pressure', () => {
    const row = createRow();
    for (let i = 0; i < 40; i++) rowPush(row, i * 0.05, 1 + i * 0.001, 0.2, 0.05);
    expect(row.n.every((n) => n === 4)).toBe(true);
    expect(row.t[0]).toBeCloseTo(0.075, 12);
    expect(row.p[0]).toBeCloseTo(1.0015, 12);
    expect(row.t.length).toBe(10);
  });

  it('a sample wider than the block is a block', () => {
    const row = createRow();
    for (let i = 0; i < 5; i++) expect(rowPush(row, i * 0.1, 1, 0.05, 0.1)).toBe(true);
    expect(row.n).toEqual([1, 1, 1, 1, 1]);
  });

  it('merging keeps the sums, the order, and the rise of a block small', () => {
    const row = createRow();
    for (let i = 0; i < 240; i++) rowPush(row, i * 0.05, i < 60 ? 1 : 1 + 0.02 * (i - 60), 0.2, 0.05);
    const before = row.p.reduce((s, p, i) => s + p * row.n[i]!, 0);
    rowMerge(row, 64, 0.04, 100);
    const after = row.p.reduce((s, p, i) => s + p * row.n[i]!, 0);
    expect(after).toBeCloseTo(before, 9);
    expect(row.t.length).toBeLessThan(60);
    // The flat part merged, the steep one did not.
    expect(row.n[0]).toBe(8);
    expect(row.n[row.n.length - 1]).toBe(4);
    for (let i = 1; i < row.t.length; i++) expect(row.t[i]!).toBeGreaterThan(row.t[i - 1]!);
  });

  it('never grows past its bound', () => {
    const row = createRow();
    for (let i = 0; i < 5000; i++) {
      rowPush(row, i * 0.05, i * 0.1, 0.05, 0.05);
      if (row.t.length > 50) rowMerge(row, 44, 0.04, 100);
    }
    expect(row.t.length).toBeLessThanOrEqual(50);
    rowTrim(row, 10);
    expect(row.t.length).toBe(10);
    const newest = row.t[9]!;
    for (let i = 0; i < 1000; i++) {
      rowPush(row, 1000 + i * 0.05, 1, 0.05, 0.05);
      rowTrim(row, 10);
      expect(row.t.length).toBeGreaterThanOrEqual(10);
      expect(row.t.length).toBeLessThan(15);
      expect([row.p.length, row.n.length]).toEqual([row.t.length, row.t.length]);
    }
    expect(row.t.at(-1)).toBeGreaterThan(newest);
  });
});
