import { describe, expect, it } from 'vitest';
import type { LogEntry } from '../record/log.ts';
import { createEarlyLog, moved } from './early.ts';

const sample = (i: number): LogEntry => ({
  l: 'frame',
  tUs: i * 20_000,
  frame: { t: 'S', seq: i, tick: i * 200, counts: [i], status: 0 },
});
const command = (tUs: number, c: 'zero' | 'mixed'): LogEntry => ({ l: 'command', tUs, command: { c } });
const seqs = (entries: readonly LogEntry[]) =>
  entries.flatMap((e) => (e.l === 'frame' && e.frame.t === 'S' ? [e.frame.seq] : []));
const holes = (entries: readonly LogEntry[]) =>
  entries.flatMap((e) => (e.l === 'notice' && e.notice.n === 'gap' ? [e.notice] : []));

describe('the log before a run', () => {
  it('keeps everything while it is short', () => {
    const log = createEarlyLog(100);
    for (let i = 0; i < 100; i++) log.add(sample(i));
    expect(seqs(log.entries())).toHaveLength(100);
    expect(holes(log.entries())).toEqual([]);
  });

  it('bounds the samples, marks what it left out, and counts it', () => {
    const log = createEarlyLog(100);
    for (let i = 0; i < 1000; i++) log.add(sample(i));
    const kept = seqs(log.entries());
    expect(kept.length).toBeLessThanOrEqual(100);
    expect(kept.at(-1)).toBe(999);
    const [hole, ...more] = holes(log.entries());
    expect(more).toEqual([]);
    expect(hole).toMatchObject({ reason: 'resumed', fromUs: 0, toUs: kept[0]! * 20_000 });
    expect(hole!.lost + kept.length).toBe(1000);
  });

  it('keeps the readings that a zero was taken from, however long ago', () => {
    const log = createEarlyLog(300);
    for (let i = 0; i < 5000; i++) {
      log.add(sample(i));
      if (i === 500) log.add(command(500 * 20_000, 'zero'));
      if (i === 600) log.add(command(600 * 20_000, 'mixed'));
    }
    const entries = log.entries();
    const kept = seqs(entries);
    for (let i = 450; i <= 500; i++) expect(kept).toContain(i);
    expect(entries.filter((e) => e.l === 'command')).toHaveLength(2);
    expect(holes(entries).reduce((n, h) => n + h.lost, 0) + kept.length).toBe(5000);
    let before = -1;
    for (const e of entries) {
      expect(e.tUs).toBeGreaterThanOrEqual(before);
      before = e.tUs;
    }
  });

  it('moves an entry with the times that it names onto another clock', () => {
    const gap: LogEntry = {
      l: 'notice',
      tUs: 50,
      notice: { n: 'gap', reason: 'resumed', fromUs: 10, toUs: 50, lost: 2 },
    };
    expect(moved(gap, 5)).toEqual({ ...gap, tUs: 55, notice: { ...gap.notice, fromUs: 15, toUs: 55 } });
    expect(moved(sample(1), -20_000).tUs).toBe(0);
  });
});
