import type { JobDocument } from '../job/job-document.ts';

/** The day's repairs: job sheets, each with how far its work has come. Pure; what runs is told by the caller. */

/** In the order of the work. `left-open`: recorded once, not closed, and nobody watches it now. */
export const REPAIR_STATES = [
  'planned',
  'left-open',
  'running',
  'cure-reached',
  'ended',
  'sealed',
  'sent',
] as const;
export type RepairState = (typeof REPAIR_STATES)[number];

/** A run as the list knows it. */
export interface DayRun {
  readonly runId: string;
  readonly jobId: string | null;
  readonly title: string;
  readonly practice: boolean;
  readonly state: 'open' | 'interrupted' | 'ended';
  readonly openedUtcMs: number;
  readonly sealedUtcMs?: number;
  readonly sentUtcMs?: number;
}

export interface DaySheet {
  readonly id: string;
  readonly document: JobDocument;
}

export interface Repair<S extends DaySheet = DaySheet, R extends DayRun = DayRun> {
  readonly sheet: S;
  /** Its newest run that is no practice; null: none yet. */
  readonly run: R | null;
  readonly state: RepairState;
}

export interface DayNow {
  /** The computer's own date, ISO, and when it began, UTC, ms. */
  readonly today: string;
  readonly sinceUtcMs: number;
  /** The run that is recorded here now, and whether its cure time is reached. */
  readonly running: { readonly runId: string; readonly jobId: string | null } | null;
  readonly cureReached: boolean;
}

export interface Day<S extends DaySheet = DaySheet, R extends DayRun = DayRun> {
  /** Today's, in the crew's order. */
  readonly repairs: readonly Repair<S, R>[];
  /** All others, those still to come first, then the newest. */
  readonly others: readonly Repair<S, R>[];
}

const jobOf = ({ document: job }: DaySheet): JobDocument => job;

export function stateOf(sheetId: string, run: DayRun | null, now: DayNow): RepairState {
  if (now.running?.jobId === sheetId) return now.cureReached ? 'cure-reached' : 'running';
  if (run === null) return 'planned';
  if (run.state === 'open') return 'left-open';
  if (run.sealedUtcMs === undefined) return 'ended';
  return run.sentUtcMs === undefined ? 'sealed' : 'sent';
}

/**
 * A sheet is today's when it is dated so, when it was run today, or while it runs.
 * @param order ids of sheets as the crew put them; the others follow, those begun first, then by position
 */
export function dayOf<S extends DaySheet, R extends DayRun>(
  sheets: readonly S[],
  runs: readonly R[],
  now: DayNow,
  order: readonly string[],
): Day<S, R> {
  const newest = new Map<string, R>();
  for (const run of runs) {
    if (run.practice || run.jobId === null) continue;
    const known = newest.get(run.jobId);
    if (known === undefined || run.openedUtcMs > known.openedUtcMs) newest.set(run.jobId, run);
  }
  const repairs = sheets.map((sheet): Repair<S, R> => {
    const run = newest.get(sheet.id) ?? null;
    return { sheet, run, state: stateOf(sheet.id, run, now) };
  });
  const isToday = ({ sheet, run, state }: Repair): boolean =>
    jobOf(sheet).date === now.today ||
    state === 'running' ||
    state === 'cure-reached' ||
    (run !== null && run.openedUtcMs >= now.sinceUtcMs);
  const place = new Map(order.map((id, i) => [id, i]));
  const rank = (r: Repair): readonly number[] => [
    place.get(r.sheet.id) ?? Number.POSITIVE_INFINITY,
    r.run?.openedUtcMs ?? Number.POSITIVE_INFINITY,
    jobOf(r.sheet).defect.chainageM ?? Number.POSITIVE_INFINITY,
  ];
  const byOrder = (a: Repair, b: Repair): number => {
    const [x, y] = [rank(a), rank(b)];
    // Two that are nowhere leave no number between them.
    const at = x.findIndex((v, i) => v !== y[i]);
    if (at >= 0) return x[at]! < y[at]! ? -1 : 1;
    return a.sheet.id < b.sheet.id ? -1 : 1;
  };
  const isToCome = ({ sheet }: Repair): boolean => (jobOf(sheet).date ?? '') > now.today;
  return {
    repairs: repairs.filter(isToday).sort(byOrder),
    // The list that comes in is the newest first, and a sort keeps it so.
    others: repairs.filter((r) => !isToday(r)).sort((a, b) => Number(isToCome(b)) - Number(isToCome(a))),
  };
}

/** The order with one sheet a place further up (−1) or down (1); null: it stands there already. */
export function moved(ids: readonly string[], id: string, by: -1 | 1): readonly string[] | null {
  const at = ids.indexOf(id);
  const other = ids[at + by];
  if (at < 0 || other === undefined) return null;
  return ids.map((x, i) => (i === at ? other : i === at + by ? id : x));
}
