import { openItems } from '../../job/check-answers.ts';
import type { Moment } from '../../job/checklist.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { valueAt } from '../../job/paths.ts';
import type { SheetField } from './fields.tsx';

/**
 * The sheet in five steps, in the order of the work. The first asks what a run needs: which packer, its diameter, tap and line,
 * working pressure, resin. Then comes what the others of the crew ask for when their turn is there: the survey, the line, what
 * is mixed, and what only the record needs. At most six fields stand open in a step; the rest of it is folded behind them.
 */
export const STEPS = ['run', 'pipe', 'line', 'mixing', 'record'] as const;
export type Step = (typeof STEPS)[number];

export const MOST_FIELDS = 6;

export const STEP_FIELDS: Readonly<Record<Step, readonly SheetField[]>> = {
  run: ['packerId', 'pipe.innerMm', 'tap', 'line', 'pressures.workingBar', 'resin.resinId'],
  pipe: [
    'title',
    'defect.kind',
    'defect.chainageM',
    'defect.lengthMm',
    'defect.infiltration',
    'ground.waterM',
  ],
  line: [
    'pressures.reliefBar',
    'pressures.seatBar',
    'wetness',
    'packersOnLine',
    'hose.lengthM',
    'air.source',
  ],
  mixing: [
    'resin.resinBatch',
    'resin.hardenerBatch',
    'resin.mixC',
    'handlingMin',
    'ground.temperatureC',
    'heating.by',
  ],
  record: ['site', 'client', 'reference', 'date', 'crew', 'notes'],
};

/** What is asked beside them, by whoever needs it. */
export const STEP_MORE: Readonly<Record<Step, readonly SheetField[]>> = {
  run: ['pressures.seatingMarginBar', 'pressures.noMarginReason'],
  pipe: ['pipe.dn', 'pipe.wallMm', 'pipe.material'],
  line: ['otherRatedBar', 'hose.innerMm', 'air.more', 'device.rateHz'],
  mixing: [
    'ground.uC',
    'heating.toC',
    'resin.cupMassG',
    'sleeve.endOverlapMm',
    'sleeve.lapMm',
    'sleeve.layers',
    'sleeve.layerMm',
    'sleeve.fabricGM2',
    'sleeve.resinRatio',
    'sleeve.wastePercent',
  ],
  record: ['airTest.method', 'airTest.lengthM'],
};

/** The step that asks for a field. */
export const stepOf = (field: SheetField): Step =>
  STEPS.find((step) => STEP_FIELDS[step].includes(field) || STEP_MORE[step].includes(field)) ?? 'run';

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

/** Items of the checklist that stand in a step: nobody is asked before mixing what the camera sees after the repair. */
export const STEP_MOMENTS: Readonly<Partial<Record<Step, readonly Moment[]>>> = {
  mixing: ['arrival', 'mixing', 'air'],
  record: ['let-down', 'after'],
};

/** How many items of a step's moments there are. */
export const itemsIn = (step: Step, { checklist }: JobDocument): number =>
  checklist.items.filter((i) => STEP_MOMENTS[step]?.includes(i.at)).length;

const openIn = (step: Step, { checklist, answers }: JobDocument): number =>
  openItems(checklist, answers, STEP_MOMENTS[step] ?? []).length;

/** How many of them are answered. */
export const answeredIn = (step: Step, document: JobDocument): number =>
  itemsIn(step, document) - openIn(step, document);

/** Codes that say that nobody knows, or that nobody looked. */
const UNKNOWN: readonly unknown[] = ['unknown', 'not-looked', 'assumed'];

/** Fields of a step that say nothing yet. A working pressure left empty is the plan's, which is an answer. */
export function unansweredIn(step: Step, document: JobDocument): readonly SheetField[] {
  return STEP_FIELDS[step].filter((field) => {
    if (field === 'pressures.workingBar') return false;
    // Notes are nobody's duty.
    if (field === 'notes') return false;
    const value = valueAt(document, field);
    return value === null || value === undefined || value === '' || UNKNOWN.includes(value);
  });
}

/** Answers without which no run is possible as it is meant: tap and line are one. */
export const ANSWERS = 5;

/** How many of them are given. */
export function answersGiven(document: JobDocument): number {
  const open = unansweredIn('run', document);
  const missing = open.filter((field) => field !== 'line').length;
  const lineAlone = open.includes('line') && !open.includes('tap') ? 1 : 0;
  return ANSWERS - missing - lineAlone;
}

/** Nothing of the step is left to be said or looked at. */
export const isStepDone = (step: Step, document: JobDocument): boolean =>
  unansweredIn(step, document).length === 0 && openIn(step, document) === 0;
