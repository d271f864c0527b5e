import { loadavg } from 'node:os';
import { scanRun } from '../../src/record/reader.ts';
import { captureOf } from '../../src/record/testing/capture.ts';
import { sleep } from '../e2e/stage.ts';
import {
  complaints,
  type Expected,
  isCalm,
  isComplete,
  type Shown,
  type Sounded,
  witnessed,
} from './expect.ts';
import type { Fault } from './fault.ts';
import { compareBytes, lostBetween } from './lost-bytes.ts';
import { inTime, nowMs, type Site } from './site.ts';
import { calm, finishRun, startRun, WALK, type WalkStage, walkTo } from './walk.ts';

/** What came of one fault at one stage. */
export interface Cell {
  readonly fault: string;
  readonly stage: WalkStage;
  readonly expected: Expected;
  readonly shown: readonly Shown[];
  readonly sounded: readonly Sounded[];
  /** From the end of the fault until the reading was good again and nothing stood to be acknowledged, ms; null: not in 12 s. */
  readonly backMs: number | null;
  /** Bytes that the line took and the record does not hold; null: the record could not be read. */
  readonly lostBytes: number | null;
  /** What does not meet the expectation; none: it passed. */
  readonly complaints: readonly string[];
  /** Load of the machine (1 min) when it was looked at. */
  readonly load: number;
  /** What was complained of at a first look, beside other sites. */
  readonly first?: { readonly complaints: readonly string[]; readonly load: number };
}

/** So long after what was waited for more may still come, ms. */
const TAIL_MS = 250;
/** Looked on for this long past an expectation's time, so that 'late' is told from 'never', ms. */
const PATIENCE_MS = 3000;
const BACK_MS = 12_000;
/** Longest that anything of a cell may take, ms: the steps to its stage, the fault itself, the end of the run. */
const STEP_MS = 60_000;
/** The line's newest bytes are still on their way when a run is ended, ms. */
const ON_THE_WAY_MS = 400;

interface Looked extends Omit<Cell, 'lostBytes'> {
  /** Places in the tap between which the fault was. */
  readonly from: number;
  readonly to: number;
}

/** Load of the machine, 1 min. */
export const loadNow = (): number => Math.round(loadavg()[0]! * 10) / 10;

function lookMs(e: Expected): number {
  return isCalm(e) ? e.forMs : Math.max(e.withinMs + PATIENCE_MS, e.never?.forMs ?? 0);
}

/** Makes the fault at the stage in which the run is, looks, takes it back. */
async function look(site: Site, fault: Fault, stage: WalkStage): Promise<Looked> {
  const expected = fault.expects(stage);
  const from = site.taken();
  const load = loadNow();
  await site.mark();
  const called = nowMs();
  const begunMs = (await fault.inject(site, stage)) ?? called;
  const mostMs = lookMs(expected);
  const leastMs = isCalm(expected) ? mostMs : (expected.never?.forMs ?? 0);
  let seen = witnessed(await site.noted(), begunMs);
  while (nowMs() - begunMs < mostMs) {
    if (nowMs() - begunMs > leastMs && isComplete(expected, seen)) break;
    await sleep(80);
    seen = witnessed(await site.noted(), begunMs);
  }
  await sleep(TAIL_MS);
  seen = witnessed(await site.noted(), begunMs);
  const clearedMs = nowMs();
  await fault.clear(site, stage);
  const isBack = await calm(site, BACK_MS);
  return {
    fault: fault.name,
    stage,
    expected,
    shown: seen.shown,
    sounded: seen.sounded,
    backMs: isBack ? Math.round(nowMs() - clearedMs) : null,
    complaints: complaints(expected, seen),
    load,
    from,
    to: site.taken(),
  };
}

/** Marks that the record of a run must bear. */
function marksOf(file: Uint8Array): Set<string> {
  const marks = new Set<string>();
  scanRun(file, {
    event(e) {
      if (e.e === 'gap') marks.add(`gap ${e.reason}`);
      if (e.e === 'device') marks.add(`device ${e.what}`);
    },
  });
  return marks;
}

/** Ends the run, and lays its record over what the line took. */
async function settle(site: Site, fault: Fault, looked: readonly Looked[]): Promise<Cell[]> {
  const until = site.taken();
  await sleep(ON_THE_WAY_MS);
  const file = await finishRun(site);
  const tap = site.tap();
  const compared = compareBytes(tap, Buffer.from(await captureOf(file)));
  const tail = Math.max(0, until - compared.to);
  const losses = tail === 0 ? compared.losses : [...compared.losses, { at: compared.to, bytes: tail }];
  const marks = marksOf(file);
  const missing = (fault.recorded ?? [])
    .filter((m) => !marks.has(m))
    .map((m) => `the record names no '${m}'`);
  return looked.map(({ from, to, ...cell }, i) => {
    // What was lost on the way to a stage belongs to the fault before it.
    const upTo = looked[i + 1]?.from ?? Math.max(to, until);
    return {
      ...cell,
      lostBytes: lostBetween(losses, from, upTo),
      complaints: [...cell.complaints, ...missing],
    };
  });
}

/** A look whose run could not be ended: nobody knows what its record holds. */
function unread({ from: _from, to: _to, ...cell }: Looked, why: readonly string[]): Cell {
  return { ...cell, lostBytes: null, complaints: [...cell.complaints, ...why] };
}

function neverLooked(fault: Fault, stage: WalkStage): Looked {
  return {
    fault: fault.name,
    stage,
    expected: fault.expects(stage),
    shown: [],
    sounded: [],
    backMs: null,
    complaints: [],
    load: loadNow(),
    from: 0,
    to: 0,
  };
}

/** What went wrong, and of the browser driver's log what it waited for. */
export function messageOf(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  const awaited = /waiting for ([^\n]*)/.exec(text)?.[1];
  return `${text.split('\n')[0]!.slice(0, 120)}${awaited === undefined ? '' : ` (for ${awaited.slice(0, 100)})`}`;
}

/**
 * A fault at these stages: one run after the other as far as it goes, each walked through the stages in order. Where a
 * run cannot go on (something stays that bars the way) the next stage begins a new one.
 * @param site the one that is there, or a new one @param spoilt called after a failure: the site is not to be used again
 */
export async function runFault(
  site: () => Promise<Site>,
  fault: Fault,
  stages: readonly WalkStage[],
  spoilt: () => Promise<void>,
): Promise<Cell[]> {
  const cells: Cell[] = [];
  const left = WALK.filter((s) => stages.includes(s) && (fault.stages ?? WALK).includes(s));
  while (left.length > 0) {
    const looked: Looked[] = [];
    let at: WalkStage = left[0]!;
    try {
      const here = await site();
      await inTime(startRun(here), STEP_MS, 'start');
      await fault.before?.(here);
      while (left.length > 0) {
        at = left[0]!;
        await inTime(walkTo(here, at), STEP_MS, 'the way there');
        left.shift();
        looked.push(await inTime(look(here, fault, at), STEP_MS, 'the look'));
        if (looked.at(-1)!.backMs === null) break;
      }
      cells.push(...(await inTime(settle(here, fault, looked), STEP_MS, 'the end')));
    } catch (error) {
      const why = messageOf(error);
      cells.push(
        ...looked.map((l, i) => unread(l, i === looked.length - 1 ? [`its run broke off: ${why}`] : [])),
      );
      if (!looked.some((l) => l.stage === at)) {
        left.splice(0, left.length, ...left.filter((s) => s !== at));
        cells.push(unread(neverLooked(fault, at), [`the walk broke off: ${why}`]));
      }
      await spoilt();
    }
  }
  return cells;
}
