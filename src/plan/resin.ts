import type { JobDocument } from '../job/job-document.ts';
import type { ResinDocument } from '../job/resin-document.ts';
import type { CupSetup, ResinSetup, Setup } from '../job/setup.ts';
import { activationEnergy, arrhenius } from '../physics/cure.ts';
import { input, type Notes } from './notes.ts';
import type { SleevePlan } from './sleeve.ts';

/** Minutes to spare under which the plan warns. */
const TIGHT_MIN = 5;
/** Activation energy for a pot life beyond its table's warm end, J/mol: the high side of thermosets near 20-40 °C. */
const POT_EA = 70_000;
const ZERO_C = 273.15;

/**
 * Pot life at the mix temperature, min. Between two points of the sheet by Arrhenius; colder than the sheet the
 * coldest point's, which is the shorter; warmer by the last two points' activation energy, at least 70 kJ/mol.
 */
export function potLifeAt(
  points: ResinDocument['potLife'],
  c: number,
): { readonly minutes: number; readonly extrapolated: boolean } | null {
  const first = points[0];
  const last = points[points.length - 1];
  if (first === undefined || last === undefined) return null;
  if (c <= first.c) return { minutes: first.minutes, extrapolated: c < first.c };
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1] as { c: number; minutes: number };
    const b = points[i] as { c: number; minutes: number };
    if (c > b.c) continue;
    // log of time is straight in 1/T.
    const x = (1 / (c + ZERO_C) - 1 / (a.c + ZERO_C)) / (1 / (b.c + ZERO_C) - 1 / (a.c + ZERO_C));
    return { minutes: a.minutes * (b.minutes / a.minutes) ** x, extrapolated: false };
  }
  const before = points[points.length - 2];
  const own =
    before === undefined
      ? 0
      : activationEnergy(before.minutes / last.minutes, before.c + ZERO_C, last.c + ZERO_C);
  const ea = Math.max(POT_EA, own);
  return { minutes: last.minutes / arrhenius(ea, c + ZERO_C, last.c + ZERO_C), extrapolated: true };
}

/** Share of the mixed mass that is hardener; null where a ratio by volume lacks a density. */
export function hardenerShare(resin: ResinDocument): number | null {
  const { resinParts, hardenerParts, basis } = resin.mix;
  if (basis === 'mass' || hardenerParts === 0) return hardenerParts / (resinParts + hardenerParts);
  if (resin.resinDensity === null || resin.hardenerDensity === null) return null;
  const r = resinParts * resin.resinDensity;
  const h = hardenerParts * resin.hardenerDensity;
  return h / (r + h);
}

export interface ResinPlan {
  /** Mixed mass with waste, and the hardener in it, g. */
  readonly massG: number | null;
  readonly hardenerG: number | null;
  readonly potLifeMin: number | null;
  /** Latest minute after mixing to be seated, and what is left after the expected handling. */
  readonly seatByMin: number | null;
  readonly spareMin: number | null;
}

export function planResin(
  job: JobDocument,
  resin: ResinDocument | null,
  sleeve: SleevePlan,
  ground: Setup['ground'],
  notes: Notes,
): ResinPlan {
  if (resin === null) {
    notes.warn('no-resin');
    return { massG: null, hardenerG: null, potLifeMin: null, seatByMin: null, spareMin: null };
  }
  const byLight = resin.curedBy === 'light';
  if (byLight) notes.warn('light-cured', [], resin.name);
  else if (resin.curePoints.length === 0) notes.warn('no-cure-points', [], resin.name);
  const lowest = byLight ? null : (resin.lowestC ?? resin.curePoints[0]?.c ?? null);
  if (ground !== null && lowest !== null && ground.c - ground.uC < lowest)
    notes.warn('cold', [
      input('ground', ground.c - ground.uC, 'C'),
      input('lowest-temperature', lowest, 'C'),
    ]);
  const { expires } = resin.batch;
  if (expires !== null && job.date !== null && expires < job.date)
    notes.warn('resin-expired', [], resin.name);
  if (job.resin.resinBatch.trim() === '') notes.warn('batch-missing', [], resin.name);

  const massG = planMass(job, sleeve, notes);
  const share = hardenerShare(resin);
  let hardenerG: number | null = null;
  if (massG !== null && share === null) notes.warn('density-unknown', [], resin.name);
  else if (massG !== null && share !== null)
    hardenerG = notes.derive('hardener-mass', massG * share, 'g', [
      input('resin-mass', massG, 'g'),
      input('parts', resin.mix.resinParts, '1'),
      input('hardener-parts', resin.mix.hardenerParts, '1'),
    ]);

  const pot = job.resin.mixC === null ? null : potLifeAt(resin.potLife, job.resin.mixC);
  if (pot === null || job.resin.mixC === null) {
    if (!byLight) notes.warn('pot-life-unknown', [], resin.name);
    // What had cured before seating is counted by the pot's temperature alone.
    if (!byLight && resin.countsFrom === 'mixing' && job.resin.mixC === null)
      notes.warn('mixing-uncounted', [], resin.name);
    return { massG, hardenerG, potLifeMin: null, seatByMin: null, spareMin: null };
  }
  // Down to whole minutes: the clock that the crew looks at.
  const potLifeMin = Math.floor(pot.minutes);
  notes.derive('pot-life', potLifeMin, 'min', [input('mix-temperature', job.resin.mixC, 'C')]);
  if (pot.extrapolated) notes.warn('pot-life-extrapolated', [input('mix-temperature', job.resin.mixC, 'C')]);
  if (massG !== null && resin.potMassG !== null && massG > resin.potMassG)
    notes.warn('pot-mass', [input('resin-mass', massG, 'g'), input('parts', resin.potMassG, 'g')]);
  notes.derive('seat-by', potLifeMin, 'min', [input('pot-life', potLifeMin, 'min')]);
  let spareMin: number | null = null;
  if (job.handlingMin !== null) {
    spareMin = potLifeMin - job.handlingMin;
    const numbers = [input('pot-life', potLifeMin, 'min'), input('handling', job.handlingMin, 'min')];
    if (spareMin < 0) notes.refuse('pot-life-short', numbers);
    else if (spareMin < TIGHT_MIN) notes.warn('pot-life-tight', numbers);
  }
  return { massG, hardenerG, potLifeMin, seatByMin: potLifeMin, spareMin };
}

function planMass(job: JobDocument, sleeve: SleevePlan, notes: Notes): number | null {
  const { fabricGM2, resinRatio, wastePercent } = job.sleeve;
  if (
    fabricGM2 === null ||
    resinRatio === null ||
    sleeve.lengthMm === null ||
    sleeve.cutWidthsMm.length === 0
  ) {
    notes.warn('fabric-unknown');
    return null;
  }
  const area = (sleeve.cutWidthsMm.reduce((s, w) => s + w, 0) * sleeve.lengthMm) / 1e6;
  const mass = area * fabricGM2 * resinRatio * (1 + wastePercent / 100);
  return notes.derive('resin-mass', mass, 'g', [
    input('area', area, '1'),
    input('fabric', fabricGM2, 'g/m2'),
    input('ratio', resinRatio, '1'),
    input('waste', wastePercent, '1'),
  ]);
}

/** The part of the resin that the watch needs; null without points to cure by. */
export function resinSetup(
  resin: ResinDocument | null,
  plan: ResinPlan,
  mixC: number | null,
  cup: CupSetup | null,
): ResinSetup | null {
  if (resin === null) return null;
  return {
    name: resin.name,
    curedBy: resin.curedBy,
    criterion: resin.criterion,
    countsFrom: resin.countsFrom,
    ...(mixC === null ? {} : { potC: mixC }),
    ...(cup === null ? {} : { cup }),
    points: resin.curePoints.map((p) => ({ c: p.c, minutes: p.minutes })),
    lowestC: resin.lowestC,
    potLifeMin: plan.potLifeMin,
    exotherm: resin.exotherm,
    expectedRiseK: resin.expectedRiseK,
  };
}
