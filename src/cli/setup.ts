import { DEFAULT_REACTION } from '../job/reaction.ts';
import type { ChannelSetup, Limits, Setup } from '../job/setup.ts';
import { fault } from './fault.ts';
import type { ReplayOptions } from './options.ts';

/** U of the reading (k = 2) where neither the command line nor a job says one, bar. */
export const DEFAULT_U_BAR = 0.015;

const mbar = (bar: number): number => Math.round(bar * 1e6) / 1e6;

/**
 * Limits from the command line alone. Working at the ceiling with no cue is assumed where no working pressure is
 * given; a working pressure over the ceiling is working without margin (the urgent limit is then rated itself).
 */
export function limitsOf(ratedBar: number, uBar: number, workingBar: number | null): Limits {
  const below = mbar(ratedBar - uBar);
  const noMargin = workingBar !== null && workingBar > below;
  return {
    ratedBar,
    uBar,
    ceilingBar: noMargin ? ratedBar : below,
    workingBar: workingBar ?? below,
    seatBar: null,
    floorBar: null,
    headBar: null,
    freeInflationBar: null,
    seatingMarginBar: 0,
    noMargin: noMargin ? { reason: 'given on the command line' } : null,
    cue: workingBar !== null,
  };
}

/** The setup of a trace of which nothing is known but what the options say. */
export function plainSetup(options: ReplayOptions, channels: readonly ChannelSetup[], rateHz: number): Setup {
  const { ratedBar, workingBar } = options;
  const uBar = options.uBar ?? DEFAULT_U_BAR;
  if (ratedBar !== null && !(ratedBar - uBar > 0)) throw fault((f) => f.noCeiling(ratedBar, uBar));
  return {
    number: 1,
    practice: false,
    jobId: null,
    limits: ratedBar === null ? null : limitsOf(ratedBar, uBar, workingBar),
    tap: options.tap ?? 'hose',
    line: options.line ?? 'unknown',
    channels,
    air: { bar: 1.01325, uBar: 0.05, source: 'assumed' },
    ground: null,
    volume: null,
    pipe: null,
    resin: null,
    reaction: DEFAULT_REACTION,
    rateHz,
  };
}

/** What the command line says overrules the job; within a run the plan's own numbers stay otherwise. */
export function overruled(setup: Setup, options: ReplayOptions): Setup {
  const was = setup.limits;
  const ratedBar = options.ratedBar ?? was?.ratedBar ?? null;
  const changed = options.ratedBar !== null || options.uBar !== null || options.workingBar !== null;
  let limits = was;
  if (changed) {
    if (ratedBar === null) throw fault((f) => f.noRated);
    const uBar = options.uBar ?? was?.uBar ?? DEFAULT_U_BAR;
    const before = was?.workingBar ?? null;
    // Another rated pressure takes a working pressure that no longer fits under it down to its ceiling.
    const fits = before !== null && (before <= ratedBar - uBar || options.ratedBar === null);
    const workingBar = options.workingBar ?? (fits ? before : null);
    if (workingBar !== null && workingBar > ratedBar) throw fault((f) => f.workingOver(workingBar, ratedBar));
    limits = {
      ...limitsOf(ratedBar, uBar, workingBar),
      cue: options.workingBar !== null || (was?.cue ?? false),
      seatBar: was?.seatBar ?? null,
      floorBar: was?.floorBar ?? null,
      headBar: was?.headBar ?? null,
      freeInflationBar: was?.freeInflationBar ?? null,
      seatingMarginBar: was?.seatingMarginBar ?? 0,
    };
  }
  return { ...setup, limits, tap: options.tap ?? setup.tap, line: options.line ?? setup.line };
}
