/** A small fixed slice of the campaign of proofs, with bounds that the full one (docs/validation.md) keeps with room. */
import { describe, expect, it } from 'vitest';
import type { Kind, WorldName } from './fills-scenario.ts';
import { type ProofRecord, type Way, workProof } from './proofs.ts';
import { shareUsed } from './proofs-run.ts';
import { quantile } from './stats.ts';

const run = (kind: Kind, way: Way, count: number, world: WorldName = 'common'): ProofRecord[] =>
  Array.from({ length: count }, (_, i) => workProof({ world, kind, way, seed: 430_001 + i }));

describe('campaign of proofs, a slice', () => {
  it('a regulator that is set too high is told before the packer is coupled', () => {
    const all = [...run('high', 'sound', 5), ...run('high', 'sound', 5, 'quick')];
    expect(all.filter((r) => r.seen === 'over-ceiling')).toHaveLength(10);
  });

  it('one that creeps is told before, too', () => {
    const all = run('creep', 'creeping', 5);
    expect(all.filter((r) => r.seen === 'creeps' || r.seen === 'over-ceiling')).toHaveLength(5);
  });

  it('one that is moved later is told with most of its time, and no good fill is cried at', () => {
    const creep = run('creep', 'sound', 8).flatMap((r) => (r.fill === null ? [] : [r.fill]));
    const used = creep.flatMap((f) => shareUsed(f, f.provedS) ?? []);
    expect(used.length).toBeGreaterThan(4);
    expect(quantile(used, 0.5)).toBeGreaterThan(0.93);
    const good = run('normal', 'sound', 8).flatMap((r) => (r.fill?.under ? [r.fill] : []));
    expect(good.length).toBeGreaterThan(5);
    expect(good.filter((f) => !Number.isNaN(f.provedS))).toEqual([]);
  });

  it('sites whose air network did not settle, a few tenths of a pascal from its solution, are played', () => {
    // The one while it was proved, the other in the fill after it.
    for (const seed of [410_725, 410_893]) {
      const r = workProof({ world: 'common', kind: 'normal', way: 'sound', seed });
      expect([r.ended, r.fill === null]).toEqual(['proved', false]);
    }
  });

  it('what is no proof is never taken for one: the packer on the hose, an open or a leaking end', () => {
    for (const way of ['packer-on', 'open-end', 'leaky-end'] as const)
      expect(run('normal', way, 4).map((r) => r.ended)).not.toContain('proved');
  });
});
