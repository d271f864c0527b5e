import { mostRows, numberAt, textAt } from '../job/documents.ts';
import type { ConditionEntry, PackerDocument } from '../job/packer-document.ts';
import { type Drift, driftOver } from '../sensing/opinion.ts';
import { input, type Notes } from './notes.ts';

/** What a run did to a packer, for its log. */
export interface Cycle {
  readonly runId: string;
  /** ISO date. */
  readonly date: string;
  readonly peakBar: number | null;
  /** Of the last hold, mbar/min; null where none could be told. */
  readonly leakMbarPerMin: number | null;
  readonly minutes: number | null;
}

/** What the hands found when it was cleaned and put away. */
export interface Found {
  readonly damage: boolean;
  readonly by: string;
  readonly note: string;
}

/** As the log can hold it, rounded to so many parts of a unit. */
function within(field: 'peakBar' | 'leakMbarPerMin' | 'minutes', v: number | null, parts: number) {
  const { lo, hi } = numberAt('packer', `conditions.0.${field}`);
  return v === null || !Number.isFinite(v) ? null : Math.round(Math.min(hi, Math.max(lo, v)) * parts) / parts;
}

/** A text as the log can hold it. */
const cut = (field: 'by' | 'note', text: string) =>
  text.slice(0, textAt('packer', `conditions.0.${field}`).most);

/** A cycle is two lines of the log: what was measured, and what the inspection found. */
export function cycleEntries(cycle: Cycle, found: Found): ConditionEntry[] {
  const { runId, date } = cycle;
  const by = cut('by', found.by);
  return [
    {
      date,
      what: 'cycle',
      peakBar: within('peakBar', cycle.peakBar, 1000),
      leakMbarPerMin: within('leakMbarPerMin', cycle.leakMbarPerMin, 100),
      minutes: within('minutes', cycle.minutes, 1),
      by,
      note: '',
      runId,
    },
    {
      date,
      what: found.damage ? 'damage' : 'inspected',
      peakBar: null,
      leakMbarPerMin: null,
      minutes: null,
      by,
      note: cut('note', found.note),
      runId,
    },
  ];
}

/** The packer with more lines in its log. A full log lets its oldest go; their cycles stay counted. */
export function withEntries(packer: PackerDocument, entries: readonly ConditionEntry[]): PackerDocument {
  const all = [...packer.conditions, ...entries];
  const gone = all.slice(0, Math.max(0, all.length - mostRows('packer', 'conditions')));
  return {
    ...packer,
    conditions: all.slice(gone.length),
    earlierCycles: packer.earlierCycles + gone.filter((c) => c.what === 'cycle').length,
  };
}

/** The packer without what was logged of a run when it was put away: taken back, or about to be logged anew. */
export const withoutRun = (packer: PackerDocument, runId: string): PackerDocument => ({
  ...packer,
  conditions: packer.conditions.filter((c) => c.runId !== runId || c.what === 'over-rated'),
});

/** What clears a packer that was over its rating. */
const INSPECTIONS: readonly ConditionEntry['what'][] = ['inspected', 'repaired'];

/** The newest entry of an over-pressure since which nobody has inspected the packer; null: there is none. */
export function overRatedUninspected({ conditions }: PackerDocument): ConditionEntry | null {
  const looked = conditions.findLastIndex((c) => INSPECTIONS.includes(c.what));
  return conditions.slice(looked + 1).findLast((c) => c.what === 'over-rated') ?? null;
}

/**
 * The packer with a line of a run that took it over its rating; the run has one, with its highest pressure. Null where the log
 * has as much already.
 */
export function withOverRated(
  packer: PackerDocument,
  { runId, date, peakBar }: { readonly runId: string; readonly date: string; readonly peakBar: number },
): PackerDocument | null {
  const peak = within('peakBar', peakBar, 1000);
  const told = packer.conditions.find((c) => c.what === 'over-rated' && c.runId === runId);
  if (told !== undefined && (told.peakBar ?? 0) >= (peak ?? 0)) return null;
  const others = packer.conditions.filter((c) => c !== told);
  return withEntries({ ...packer, conditions: others }, [
    { date, what: 'over-rated', peakBar: peak, leakMbarPerMin: null, minutes: null, by: '', note: '', runId },
  ]);
}

export interface PackerHistory {
  /** Cycles in all, those before the log among them. */
  readonly cycles: number;
  /** Cycles in the log, oldest first. */
  readonly logged: readonly ConditionEntry[];
  /** Leak over the cycles since the last repair, mbar/min. */
  readonly leak: Drift | null;
  /** Nobody has looked at it since its last cycle. */
  readonly unseen: boolean;
}

const DAY_MS = 86_400_000;
/** A step of the leak that is never called a jump: what a hold can tell from none (docs/science.md, the hold). */
const LEAST_STEP_MBAR_MIN = 0.5;

/** Packers retire on damage or on a trend: the trend of the leak over the cycles of its log. */
export function reviewPacker(packer: PackerDocument): PackerHistory {
  const { conditions } = packer;
  const logged = conditions.filter((c) => c.what === 'cycle');
  const repaired = conditions.findLastIndex((c) => c.what === 'repaired');
  const leaks = conditions
    .slice(repaired + 1)
    .flatMap((c) =>
      c.what === 'cycle' && c.leakMbarPerMin !== null
        ? [{ day: Date.parse(c.date) / DAY_MS, off: c.leakMbarPerMin }]
        : [],
    );
  const lastCycle = conditions.findLastIndex((c) => c.what === 'cycle');
  return {
    cycles: packer.earlierCycles + logged.length,
    logged,
    leak: driftOver(leaks, Number.POSITIVE_INFINITY, LEAST_STEP_MBAR_MIN),
    unseen:
      lastCycle >= 0 &&
      conditions.slice(lastCycle + 1).every((c) => c.what === 'note' || c.what === 'over-rated'),
  };
}

/** What the packer's own log says, where it should be known before mixing. */
export function planPackerHistory(packer: PackerDocument, notes: Notes): void {
  const { name } = packer;
  const state = packer.conditions.findLast(
    (c) => c.what !== 'note' && c.what !== 'cycle' && c.what !== 'over-rated',
  );
  if (packer.retired || state?.what === 'retired') notes.refuse('packer-retired', [], name);
  if (state?.what === 'damage') notes.warn('packer-damaged', [], name);
  const over = overRatedUninspected(packer);
  if (over !== null)
    notes.warn(
      'packer-over-rated',
      over.peakBar === null ? [] : [input('pressure', over.peakBar, 'bar')],
      name,
    );
  const { leak, unseen } = reviewPacker(packer);
  if (unseen) notes.warn('packer-unseen', [], name);
  if (leak !== null && leak.now > 0 && (leak.jumped || (leak.moving && (leak.perDay ?? 0) > 0)))
    notes.warn('packer-leak-grows', [input('leak', leak.now, 'mbar/min')], name);
}
