/**
 * A second pressure beside the one that the guard goes by: at the regulator's outlet, or a cross-check at the packer. Each alone
 * is what it is without the other: the second has a guard of its own, which speaks where the first is lost. Plain data.
 */
import type { SecondPressure } from '../../job/codes.ts';
import { spanEndBar } from '../../job/gauge-kind.ts';
import type { Setup } from '../../job/setup.ts';
import type { Reading } from '../../sensing/reading.ts';
import type { PairPath } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import {
  createGuard,
  type GuardContext,
  type GuardState,
  type GuardVerdict,
  guardReading,
  guardReset,
  guardVerdict,
} from '../guard/guard.ts';
import { bar3 } from '../round.ts';
import { isDown, isFilling } from '../stages/stages.ts';
import { apartForS, createDoubts, type Doubts, doubtsBreak, doubtsReading } from './doubt.ts';
import { mustAgree } from './must-agree.ts';
import {
  createOutlet,
  type Outlet,
  outletBreak,
  outletReading,
  outletTurned,
  outletZeroed,
} from './outlet.ts';
import { pathOf } from './path.ts';
import {
  asReading,
  createSecond,
  type SecondSignal,
  secondBreak,
  secondMean,
  secondNow,
  secondReading,
  secondRole,
} from './second.ts';

export interface Pair {
  signal: SecondSignal;
  /** null: no second pressure was read yet. */
  guard: GuardState | null;
  verdict: GuardVerdict | null;
  outlet: Outlet;
  doubts: Doubts;
  /** What lies between the two in a fill; null: nothing is known. */
  path: PairPath | null;
  /** What the packer surely held when a cross-check showed it last, bar; 0: nothing that is known. */
  heldBar: number;
}

/** @param setup in force; null: none */
export const createPair = (setup: Setup | null): Pair => ({
  signal: createSecond(secondRole(setup)),
  guard: null,
  verdict: null,
  outlet: createOutlet(),
  doubts: createDoubts(),
  path: null,
  heldBar: 0,
});

/** Where a guard that has the second pressure alone would have its sensor. */
const TAP: { readonly [S in SecondPressure]: GuardContext['tap'] } = {
  'outlet-pressure': 'supply',
  'check-pressure': 'packer',
};

export interface PairContext {
  readonly setup: Setup | null;
  readonly guard: GuardContext;
  /** The pressure that the guard goes by: median of three, and its U; null: it is lost. */
  readonly bar: number | null;
  readonly uBar: number;
  /** Its slope with the standard deviation, bar/s; null: not known. */
  readonly motion: { readonly rate: number; readonly sd: number } | null;
  readonly still: boolean;
  /** The proof of the supply watches what has locked up behind the open valve. */
  readonly proves: boolean;
  /** The supply is being proved, or what was proved is left in the hose. */
  readonly inHose: boolean;
}

/** A slope this many of its standard deviations over zero is sure of them. */
const SURE = 3;

/** Takes a sample, before or after the guard has taken its own part of it. */
export function pairReading(
  p: Pair,
  reading: Reading,
  ctx: PairContext,
  emit: (event: WatchEvent) => void,
): void {
  const { role: before } = p.signal;
  const end = before === null ? null : spanEndBar(ctx.setup, before);
  const fresh = secondReading(p.signal, reading, end);
  const { role, bar: level, median, uBar: secondU } = p.signal;
  if (!fresh || role === null || reading.second === undefined) return;
  p.guard ??= createGuard();
  // A sensor at the packer sees no hose: what rises there is the packer's.
  const hoseRise = role === 'outlet-pressure' && ctx.guard.hoseRise === true;
  const guard = { ...ctx.guard, tap: TAP[role], doubtful: false, hoseRise };
  guardReading(p.guard, asReading(reading, reading.second, level), guard);
  p.verdict = guardVerdict(p.guard, guard);
  if (secondMean(p.signal, reading.tUs) !== null) p.heldBar = surelyHolds(p, reading.tUs);
  // What stands still by itself tells nothing of the line; its level counts for the ceiling.
  if (median === null || p.signal.stuck) {
    p.path = null;
    return;
  }
  const { stage, limits } = ctx.guard;
  if (role === 'outlet-pressure') {
    const preparing = stage === 'prepare';
    const stood = outletReading(p.outlet, reading.tS, median, {
      limits,
      uBar: secondU,
      preparing,
      still: ctx.still,
    });
    if (stood !== null) emit({ tUs: reading.tUs, e: 'outlet-stood', bar: bar3(stood) });
  }
  if (ctx.bar === null) return;
  together(p, reading, role, median, ctx.bar, ctx);
}

function together(
  p: Pair,
  reading: Reading,
  role: SecondPressure,
  secondBar: number,
  bar: number,
  ctx: PairContext,
): void {
  const uBar = Math.hypot(ctx.uBar, p.signal.uBar);
  const { motion, setup, guard } = ctx;
  const supplied = setup?.line === 'supplied-relieving' || setup?.line === 'supplied-nonrelieving';
  const { stage } = guard;
  const secondRate = p.verdict?.view.rateBarPerS ?? 0;
  doubtsReading(p.doubts, {
    tS: reading.tS,
    role,
    bar,
    secondBar,
    uBar,
    risesBarPerS: motion === null ? 0 : Math.max(0, motion.rate - SURE * motion.sd),
    movesBarPerS: Math.max(Math.abs(motion?.rate ?? 0), Math.abs(secondRate)),
    preparing: stage === 'prepare' && !ctx.inHose,
    down: isDown(stage),
    mustAgree: mustAgree({
      role,
      tap: guard.tap,
      stage,
      gapBar: bar - secondBar,
      secondRate,
      still: ctx.still && (p.verdict?.still ?? false),
      inHose: ctx.inHose,
      joined: ctx.proves || (supplied && stage === 'hold'),
    }),
  });
  if (role !== 'outlet-pressure') return;
  const filling = isFilling(guard.stage) && motion !== null;
  p.path = filling
    ? pathOf({
        bar,
        outletBar: secondBar,
        uBar,
        rate: motion.rate,
        sd: motion.sd,
        stoodBar: p.outlet.stood?.bar ?? null,
      })
    : null;
}

/** Nothing is carried across a break in the readings. */
export function pairBreak(p: Pair): void {
  secondBreak(p.signal);
  if (p.guard !== null) guardReset(p.guard);
  p.verdict = null;
  outletBreak(p.outlet);
  doubtsBreak(p.doubts);
  p.path = null;
}

/** A new zero moves every level by the same, bar; readings from before it are of the old one. */
export function pairZeroed(p: Pair, offsetBar: number): void {
  secondBreak(p.signal);
  if (p.signal.bar !== null) p.signal.bar -= offsetBar;
  outletZeroed(p.outlet, offsetBar);
}

/** Said: the regulator was set anew. */
export const pairTurned = (p: Pair): void => outletTurned(p.outlet);

/**
 * The level that counts for the ceiling beside the guard's own, bar: a cross-check at the packer always, where the higher counts; the
 * outlet where the guard's own is lost and air may go from it to the packer, since that may be as high: one that has stood under the ceiling,
 * since what a hand throttles stands over it by what it is. null: none counts.
 */
export function levelBeside(p: Pair, isMainLost: boolean, mayFlow: boolean, tUs: number): number | null {
  const counts = p.signal.role === 'check-pressure' || (isMainLost && mayFlow && p.outlet.stoodUnder);
  return counts ? secondNow(p.signal, tUs) : null;
}

/** A jump of the cross-check itself looks like a rise for less than this, s. */
const NO_JUMP_S = 2.5;

/** A cross-check at the packer stands over what the guard goes by, and has for a while: that one does not see what comes in. @param bar of the guard */
export const seesMore = ({ signal, doubts }: Pair, bar: number, tS: number): boolean =>
  signal.role === 'check-pressure' && (signal.median ?? 0) > bar && apartForS(doubts, tS) >= NO_JUMP_S;

/** What a packer surely holds by a cross-check of its own, bar: its mean of a second, less its U. 0: nothing that is known. */
export function surelyHolds(p: Pair, tUs: number): number {
  if (p.signal.role !== 'check-pressure') return 0;
  return Math.max(0, (secondMean(p.signal, tUs) ?? 0) - p.signal.uBar);
}
