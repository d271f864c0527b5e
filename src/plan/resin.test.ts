import { describe, expect, it } from 'vitest';
import type { ResinDocument } from '../job/resin-document.ts';
import { DEMO } from '../words/testing/demo.ts';
import { Notes } from './notes.ts';
import { hardenerShare, planResin, potLifeAt } from './resin.ts';
import { planSleeve } from './sleeve.ts';

const resin = DEMO.resin!.document;
const POINTS = resin.potLife;

describe('pot life', () => {
  it('goes through the sheet\u2019s points and lies between them', () => {
    expect(potLifeAt(POINTS, 20)).toEqual({ minutes: 25, extrapolated: false });
    const at15 = potLifeAt(POINTS, 15)!;
    // Arrhenius between 45 min at 10 °C and 25 at 20 °C: near their geometric mean.
    expect(at15.minutes).toBeCloseTo(Math.sqrt(45 * 25), 0);
  });
  it('is never longer than the sheet says in the cold, and shrinks in the heat', () => {
    expect(potLifeAt(POINTS, 2)).toEqual({ minutes: 45, extrapolated: true });
    const hot = potLifeAt(POINTS, 40)!;
    expect(hot.extrapolated).toBe(true);
    expect(hot.minutes).toBeLessThan(13 / 2);
    expect(potLifeAt(POINTS.slice(1, 2), 30)!.minutes).toBeLessThan(25 / 2);
    expect(potLifeAt([], 20)).toBeNull();
  });
});

describe('hardener', () => {
  const mix = (resinParts: number, hardenerParts: number, basis: 'mass' | 'volume') =>
    hardenerShare({ ...resin, mix: { resinParts, hardenerParts, basis } } as ResinDocument);
  it('by mass and by volume', () => {
    expect(mix(100, 50, 'mass')).toBeCloseTo(1 / 3, 12);
    expect(mix(100, 200, 'volume')).toBeCloseTo((200 * 1150) / (100 * 1480 + 200 * 1150), 12);
    expect(mix(100, 0, 'volume')).toBe(0);
  });
  it('a ratio by volume without densities gives no mass', () => {
    expect(hardenerShare({ ...resin, resinDensity: null })).toBeNull();
  });
});

describe('plan', () => {
  const plan = (more: Partial<typeof DEMO.job> = {}, doc: ResinDocument | null = resin, groundC = 10) => {
    const notes = new Notes();
    const job = { ...DEMO.job, ...more };
    const sleeve = planSleeve(job, DEMO.packer!.document, 150, groundC, new Notes());
    return { resin: planResin(job, doc, sleeve, { c: groundC, uC: 2 }, notes), notes };
  };

  it('area · fabric · ratio · waste, worked by hand', () => {
    const { resin: r, notes } = plan();
    const widths = Math.PI * 148.5 + 50 + (Math.PI * 145.5 + 50);
    expect(r.massG).toBeCloseTo(((widths * 650) / 1e6) * 1050 * 1.6 * 1.1, 6);
    expect(r.hardenerG! / r.massG!).toBeCloseTo(hardenerShare(resin)!, 12);
    expect(notes.refusals).toEqual([]);
    expect(notes.warnings.map((w) => w.code)).toEqual(['pot-mass']);
  });

  it('refuses handling longer than the pot life, warns when it is tight', () => {
    expect(plan({ handlingMin: 60 }).notes.refusals.map((r) => r.code)).toEqual(['pot-life-short']);
    const spare = plan().resin.potLifeMin!;
    expect(plan({ handlingMin: spare - 2 }).notes.warnings.map((w) => w.code)).toContain('pot-life-tight');
  });

  it('says cold, expired, unnamed and unknown', () => {
    expect(plan({}, resin, 6).notes.warnings.map((w) => w.code)).toContain('cold');
    expect(plan({ date: '2028-01-01' }).notes.warnings.map((w) => w.code)).toContain('resin-expired');
    const unnamed = plan({ resin: { ...DEMO.job.resin, resinBatch: ' ', mixC: null } });
    expect(unnamed.notes.warnings.map((w) => w.code)).toEqual(
      expect.arrayContaining(['batch-missing', 'pot-life-unknown']),
    );
    // Nobody asked for the temperature by which the time since mixing is counted.
    const fromMixing = { ...resin, countsFrom: 'mixing' as const };
    const untyped = plan({ resin: { ...DEMO.job.resin, mixC: null } }, fromMixing);
    expect(untyped.notes.warnings.map((w) => w.code)).toContain('mixing-uncounted');
    expect(plan({}, fromMixing).notes.warnings.map((w) => w.code)).not.toContain('mixing-uncounted');
    expect(plan({}, { ...resin, curePoints: [] }).notes.warnings.map((w) => w.code)).toContain(
      'no-cure-points',
    );
    expect(plan({}, null).notes.warnings.map((w) => w.code)).toEqual(['no-resin']);
  });
});
