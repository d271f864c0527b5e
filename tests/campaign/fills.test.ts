/**
 * A small fixed slice of the campaign of fills, with bounds that the full one (docs/validation.md) keeps with room.
 * Seeds are fixed, so that the figures are the same each time; the bounds are what must never be lost.
 */
import { describe, expect, it } from 'vitest';
import { type FillRecord, type FillSet, type FillTask, workTask } from './fills.ts';
import type { Kind } from './fills-scenario.ts';
import { holds, score } from './fills-score.ts';
import { quantile } from './stats.ts';

const done = new Map<string, FillRecord[]>();

/** Records of a kind, simulated once for all tests that look at them. */
function run(kind: Kind, count: number, set: FillSet = 'main'): FillRecord[] {
  const out: FillRecord[] = done.get(`${set} ${kind}`) ?? [];
  if (out.length > 0) return out;
  done.set(`${set} ${kind}`, out);
  for (let i = 1; i <= count; i++) {
    const task: FillTask = { set, kind, seed: 300_000 + i, biasU: null, again: false };
    out.push(workTask(task));
  }
  return out;
}

describe('campaign of fills, a slice', () => {
  it('normal fills and fills by hand raise no false alarm', () => {
    for (const kind of ['normal', 'hand'] as const) {
      const s = score(run(kind, 36));
      expect(s.under).toBeGreaterThan(30);
      expect(s.falseUrgent).toBe(0);
    }
  });

  it('a regulator set too high is told in time, long before the thresholds', () => {
    const records = run('high', 24);
    const s = score(records);
    expect(s.over).toBe(24);
    expect(s.missed).toBe(0);
    expect(quantile(s.lead, 0)).toBeGreaterThan(0.5);
    expect(quantile(s.lead, 0.5)).toBeGreaterThan(6);
    expect(quantile(s.lead, 0.5)).toBeGreaterThan(1.3 * quantile(s.leadNinety, 0.5));
    const named = records.map(holds).filter((h) => h !== null);
    expect(named.filter((h) => h).length / named.length).toBeGreaterThan(0.8);
  });

  it('a creeping regulator is told in time', () => {
    const s = score(run('creep', 24));
    expect(s.missed).toBe(0);
    expect(quantile(s.lead, 0)).toBeGreaterThan(1.5);
    expect(quantile(s.lead, 0.5)).toBeGreaterThan(1.3 * quantile(s.leadNinety, 0.5));
  });

  it('a supply that is stuck open is told as soon as no hand explains it', () => {
    const s = score(run('stuck', 24));
    expect(s.over).toBe(24);
    expect(s.missed).toBe(0);
    expect(quantile(s.share, 0.5)).toBeGreaterThan(0.8);
  });

  it('on quick lines nothing passes rated without a word, and few hands are cried at', () => {
    for (const kind of ['high', 'stuck'] as const) {
      const records = run(kind, 60, 'quick');
      expect(records.filter((r) => r.slopeBarPerS > 0.2).length).toBeGreaterThan(6);
      const s = score(records);
      expect(s.missed).toBe(0);
      expect(quantile(s.lead, 0)).toBeGreaterThan(0.03);
    }
    const hands = score(run('hand', 120, 'quick'));
    expect(hands.under).toBeGreaterThan(110);
    expect(hands.falseUrgent / hands.under).toBeLessThan(0.03);
  });

  it('is never later than the plain threshold at the ceiling', () => {
    for (const kind of ['high', 'stuck'] as const)
      for (const r of run(kind, 24))
        if (!Number.isNaN(r.verdict.ceilingS)) expect(r.verdict.atS).toBeLessThanOrEqual(r.verdict.ceilingS);
  });
});
