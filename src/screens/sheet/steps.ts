import type { JobDocument } from '../../job/job-document.ts';
import { valueAt } from '../../job/paths.ts';
import type { SheetField } from './fields.tsx';

/**
 * The sheet in five steps, each with what the plan needs most: at most six fields. The other fields stand on the page
 * with all of them, in the parts below.
 */
export const STEPS = ['pipe', 'packer', 'resin', 'line', 'mixing'] as const;
export type Step = (typeof STEPS)[number];

export const MOST_FIELDS = 6;

export const STEP_FIELDS: Readonly<Record<Step, readonly SheetField[]>> = {
  pipe: ['title', 'site', 'defect.kind', 'defect.chainageM', 'pipe.innerMm', 'defect.infiltration'],
  packer: ['packerId', 'pressures.workingBar', 'pressures.seatBar', 'pressures.reliefBar', 'ground.waterM'],
  resin: [
    'resin.resinId',
    'resin.resinBatch',
    'resin.hardenerBatch',
    'resin.mixC',
    'ground.temperatureC',
    'heating.by',
  ],
  line: ['tap', 'line', 'wetness', 'packersOnLine', 'hose.lengthM', 'air.source'],
  mixing: ['handlingMin', 'resin.cupMassG', 'crew'],
};

export const PARTS = ['what', 'pipe', 'packer', 'pressures', 'line', 'sleeve', 'notes'] as const;
export type SheetPart = (typeof PARTS)[number];

export const PART_FIELDS: Readonly<Record<SheetPart, readonly SheetField[]>> = {
  what: [
    'title',
    'date',
    'site',
    'client',
    'reference',
    'crew',
    'defect.kind',
    'defect.chainageM',
    'defect.lengthMm',
    'defect.infiltration',
  ],
  pipe: [
    'pipe.innerMm',
    'pipe.dn',
    'pipe.wallMm',
    'pipe.material',
    'ground.waterM',
    'ground.temperatureC',
    'ground.uC',
  ],
  packer: [
    'packerId',
    'resin.resinId',
    'resin.resinBatch',
    'resin.hardenerBatch',
    'resin.mixC',
    'resin.cupMassG',
    'handlingMin',
    'heating.by',
    'heating.toC',
  ],
  pressures: [
    'pressures.workingBar',
    'pressures.seatBar',
    'pressures.seatingMarginBar',
    'pressures.reliefBar',
    'pressures.noMarginReason',
  ],
  line: [
    'tap',
    'line',
    'wetness',
    'packersOnLine',
    'otherRatedBar',
    'hose.lengthM',
    'hose.innerMm',
    'air.source',
    'air.more',
    'device.rateHz',
  ],
  sleeve: [
    'sleeve.endOverlapMm',
    'sleeve.lapMm',
    'sleeve.layers',
    'sleeve.layerMm',
    'sleeve.fabricGM2',
    'sleeve.resinRatio',
    'sleeve.wastePercent',
    'airTest.method',
    'airTest.lengthM',
  ],
  notes: ['notes'],
};

/** Codes that say that nobody knows, or that nobody looked. */
const UNKNOWN: readonly unknown[] = ['unknown', 'not-looked', 'assumed'];

/** Fields of a step that say nothing yet. A working pressure left empty is the plan's, which is an answer. */
export function unansweredIn(step: Step, document: JobDocument): readonly SheetField[] {
  return STEP_FIELDS[step].filter((field) => {
    if (field === 'pressures.workingBar') return false;
    const value = valueAt(document, field);
    return value === null || value === undefined || value === '' || UNKNOWN.includes(value);
  });
}
