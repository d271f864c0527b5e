import { describe, expect, it } from 'vitest';
import { DEMO } from '../words/testing/demo.ts';
import { Notes } from './notes.ts';
import { cutWidths, planSleeve, usableLength } from './sleeve.ts';

const MARKS = [
  { diameterMm: 100, lengthMm: 1260 },
  { diameterMm: 150, lengthMm: 1180 },
];
const packer = DEMO.packer!.document;

describe('usable length', () => {
  it('between two marks (1260 mm at 100, 1180 at 150: common practice, no source)', () => {
    expect(usableLength(MARKS, 100)).toBe(1260);
    expect(usableLength(MARKS, 150)).toBe(1180);
    expect(usableLength(MARKS, 125)).toBe(1220);
  });
  it('the inextensible meridian takes 78.5 mm for 50 mm (computed): within 2 mm of the marks', () => {
    const one = usableLength(MARKS.slice(0, 1), 150)!;
    expect(1260 - one).toBeCloseTo(78.5, 1);
    expect(Math.abs(one - 1180)).toBeLessThan(2);
    expect(usableLength(MARKS, 160)).toBeCloseTo(1180 - 15.7, 1);
    expect(usableLength(MARKS, 90)).toBeCloseTo(1260 + 15.7, 1);
  });
  it('no marks, no length; never under nothing', () => {
    expect(usableLength([], 150)).toBeNull();
    expect(usableLength([{ diameterMm: 100, lengthMm: 100 }], 1000)).toBe(0);
  });
});

describe('sleeve', () => {
  const plan = (more: Partial<typeof DEMO.job> = {}) => {
    const notes = new Notes();
    return { sleeve: planSleeve({ ...DEMO.job, ...more }, packer, 150, 10, notes), notes };
  };

  it('covers the defect and sound pipe on both ends', () => {
    const { sleeve, notes } = plan();
    expect(sleeve.lengthMm).toBe(350 + 2 * 150);
    expect(sleeve.usableMm).toBe(1130);
    expect(notes.refusals).toEqual([]);
    expect(notes.derivations.find((d) => d.code === 'sleeve-length')).toMatchObject({
      value: 650,
      unit: 'mm',
      inputs: [
        { name: 'defect', value: 350 },
        { name: 'overlap', value: 150 },
      ],
    });
  });

  it('layers lie inside each other: their mean is π·(D − t)', () => {
    const widths = cutWidths(150, 2, 1.5, 50);
    expect(widths[0]).toBeCloseTo(Math.PI * 148.5 + 50, 9);
    expect(widths[1]).toBeCloseTo(Math.PI * 145.5 + 50, 9);
    expect((widths[0]! + widths[1]!) / 2).toBeCloseTo(Math.PI * (150 - 3) + 50, 9);
  });

  it('refuses a sleeve longer than the marks', () => {
    const { notes } = plan({ defect: { ...DEMO.job.defect, lengthMm: 900 } });
    expect(notes.refusals.map((r) => r.code)).toEqual(['sleeve-too-long']);
  });

  it('says when little sound pipe is covered, or nothing is known', () => {
    expect(plan({ sleeve: { ...DEMO.job.sleeve, endOverlapMm: 60 } }).notes.warnings[0]?.code).toBe(
      'overlap-short',
    );
    expect(plan({ defect: { ...DEMO.job.defect, lengthMm: null } }).notes.warnings[0]?.code).toBe(
      'defect-unknown',
    );
  });

  it('checks the thickness with long-term properties and says when it is short', () => {
    const thickness = {
      thicknessMm: 3,
      modulusMPa: 3000,
      strengthMPa: 45,
      longTermShare: 0.5,
      safetyFactor: 2,
      poisson: 0.3,
      enhancement: 7,
      ovalityPercent: 2,
    };
    const deep = plan({ thickness, ground: { ...DEMO.job.ground, waterM: 12 } });
    expect(deep.sleeve.checkMm).toBeGreaterThan(2.5);
    const shallow = plan({ thickness });
    expect(shallow.sleeve.checkMm).toBeLessThan(deep.sleeve.checkMm!);
    expect(shallow.notes.warnings.map((w) => w.code)).not.toContain('thickness-short');
    const thin = plan({ thickness, ground: { ...DEMO.job.ground, waterM: 30 } });
    expect(thin.notes.warnings.map((w) => w.code)).toContain('thickness-short');
    const dry = plan({ thickness, ground: { ...DEMO.job.ground, waterM: null } });
    expect(dry.notes.warnings.map((w) => w.code)).toContain('thickness-unknown');
  });
});
