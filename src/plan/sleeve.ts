import type { JobDocument } from '../job/job-document.ts';
import type { PackerDocument } from '../job/packer-document.ts';
import { around } from '../job/packer-table.ts';
import { head } from '../physics/water.ts';
import { input, type Notes } from './notes.ts';
import { bucklingThickness, ovalityFactor, stressThickness } from './thickness.ts';

/** Least sound pipe past each end of the defect, mm (100-200 is common practice, no source). */
const LEAST_OVERLAP_MM = 100;

/**
 * Usable length by diameter with the inextensible meridian: as the packer grows, its quarter-round shoulders (radius
 * that of the pipe) take π/2 of the growth in radius from each end: π/2 · ΔD in all. Between two marks straight from
 * one to the other (the model is a straight line too); beyond the marks by the model from the nearest one. The ends
 * are free to draw in.
 */
export function usableLength(rows: PackerDocument['usable'], diameterMm: number): number | null {
  const { below, above } = around(rows, diameterMm);
  if (below !== null && above !== null) {
    const width = above.diameterMm - below.diameterMm;
    if (width === 0) return below.lengthMm;
    return below.lengthMm + ((above.lengthMm - below.lengthMm) * (diameterMm - below.diameterMm)) / width;
  }
  const end = below ?? above;
  return end === null ? null : Math.max(0, end.lengthMm - (Math.PI / 2) * (diameterMm - end.diameterMm));
}

/** Width of each layer's cut, outermost first: π · (D − its own mean depth · 2) + lap, mm. */
export function cutWidths(diameterMm: number, layers: number, layerMm: number, lapMm: number): number[] {
  return Array.from({ length: layers }, (_, i) => Math.PI * (diameterMm - (2 * i + 1) * layerMm) + lapMm);
}

export interface SleevePlan {
  readonly lengthMm: number | null;
  readonly usableMm: number | null;
  readonly layers: number;
  /** Pressed thickness of all layers, mm. */
  readonly thicknessMm: number | null;
  /** Cut width of each layer, outermost first, mm. */
  readonly cutWidthsMm: readonly number[];
  /** Thickness that the check of ASTM F1216 X1 asks for, mm. */
  readonly checkMm: number | null;
}

export function planSleeve(
  job: JobDocument,
  packer: PackerDocument | null,
  diameterMm: number | null,
  groundC: number,
  notes: Notes,
): SleevePlan {
  const { sleeve, defect } = job;
  let lengthMm: number | null = null;
  if (defect.lengthMm === null) notes.warn('defect-unknown');
  else
    lengthMm = notes.derive('sleeve-length', defect.lengthMm + 2 * sleeve.endOverlapMm, 'mm', [
      input('defect', defect.lengthMm, 'mm'),
      input('overlap', sleeve.endOverlapMm, 'mm'),
    ]);
  if (sleeve.endOverlapMm < LEAST_OVERLAP_MM)
    notes.warn('overlap-short', [input('overlap', sleeve.endOverlapMm, 'mm')]);

  const usableMm = planUsable(packer, diameterMm, notes);
  if (lengthMm !== null && usableMm !== null && lengthMm > usableMm)
    notes.refuse('sleeve-too-long', [input('length', lengthMm, 'mm'), input('length-above', usableMm, 'mm')]);

  const { layers, layerMm } = sleeve;
  let thicknessMm: number | null = null;
  let cuts: number[] = [];
  if (layerMm !== null) {
    thicknessMm = notes.derive('sleeve-thickness', layers * layerMm, 'mm', [
      input('layers', layers, '1'),
      input('layer', layerMm, 'mm'),
    ]);
    if (diameterMm !== null && layers * layerMm * 2 < diameterMm) {
      cuts = cutWidths(diameterMm, layers, layerMm, sleeve.lapMm);
      // The mean of the layers is π·(D − t) with t the whole thickness.
      notes.derive('cut-width', Math.PI * (diameterMm - thicknessMm) + sleeve.lapMm, 'mm', [
        input('diameter', diameterMm, 'mm'),
        input('thickness', thicknessMm, 'mm'),
        input('lap', sleeve.lapMm, 'mm'),
      ]);
    }
  }
  const checkMm = planThickness(job, diameterMm, groundC, thicknessMm, notes);
  return { lengthMm, usableMm, layers, thicknessMm, cutWidthsMm: cuts, checkMm };
}

function planUsable(packer: PackerDocument | null, diameterMm: number | null, notes: Notes): number | null {
  if (packer === null || diameterMm === null) return null;
  const usable = usableLength(packer.usable, diameterMm);
  if (usable === null) {
    notes.warn('usable-unknown', [], packer.name);
    return null;
  }
  const { below, above } = around(packer.usable, diameterMm);
  const inputs = [input('diameter', diameterMm, 'mm')];
  if (below !== null)
    inputs.push(input('mark-below', below.diameterMm, 'mm'), input('length-below', below.lengthMm, 'mm'));
  if (above !== null && above !== below)
    inputs.push(input('mark-above', above.diameterMm, 'mm'), input('length-above', above.lengthMm, 'mm'));
  return notes.derive('usable-length', usable, 'mm', inputs);
}

function planThickness(
  job: JobDocument,
  diameterMm: number | null,
  groundC: number,
  planned: number | null,
  notes: Notes,
): number | null {
  const t = job.thickness;
  if (t === null) return null;
  const level = job.ground.waterM;
  if (diameterMm === null || level === null) {
    notes.warn('thickness-unknown');
    return null;
  }
  const pressure = head(level, Math.min(40, Math.max(0, groundC))) / 1e6;
  const modulus = t.modulusMPa * t.longTermShare;
  const strength = t.strengthMPa * t.longTermShare;
  const common = [
    input('diameter', diameterMm, 'mm'),
    input('pressure', pressure, 'MPa'),
    input('safety-factor', t.safetyFactor, '1'),
    input('ovality', t.ovalityPercent, '1'),
  ];
  const shared = {
    diameter: diameterMm,
    pressure,
    safetyFactor: t.safetyFactor,
    ovality: t.ovalityPercent,
  };
  const buckling = bucklingThickness({ ...shared, modulus, poisson: t.poisson, enhancement: t.enhancement });
  notes.derive('thickness-buckling', buckling, 'mm', [
    ...common,
    input('modulus', modulus, 'MPa'),
    input('poisson', t.poisson, '1'),
    input('enhancement', t.enhancement, '1'),
    input('ovality-factor', ovalityFactor(t.ovalityPercent), '1'),
  ]);
  const stress = stressThickness({ ...shared, strength });
  notes.derive('thickness-stress', stress, 'mm', [...common, input('strength', strength, 'MPa')]);
  const needed = Math.max(buckling, stress);
  const has = planned ?? t.thicknessMm;
  if (planned !== null && Math.abs(planned - t.thicknessMm) > 0.05 * planned)
    notes.warn('thickness-differs', [input('thickness', planned, 'mm'), input('layer', t.thicknessMm, 'mm')]);
  if (has < needed)
    notes.warn('thickness-short', [input('thickness', has, 'mm'), input('layer', needed, 'mm')]);
  return needed;
}
