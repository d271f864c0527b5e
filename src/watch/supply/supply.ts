import type { Limits, Setup } from '../../job/setup.ts';
import type { LineEnd } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import type { SupplyWord } from '../inputs.ts';
import { bar3, boundedTo } from '../round.ts';
import { createRecent, type Recent, recentAdd, recentClear } from '../signal/recent.ts';
import { judgeSupply } from './judge.ts';
import { beginProof, isHoseRise, PACE, proofEnds, proofReading, proofWord, RISEN_BAR } from './proof.ts';
import { supplyEvent } from './proof-event.ts';
import { createRise, type Rise, riseAdd, riseTimeS } from './rise.ts';
import type { Outcome, Proof, ProofContext, ProvedSupply } from './types.ts';

type Emit = (event: WatchEvent) => void;

/** What the run knows of its supply. Plain data. */
export interface Supply {
  proof: Proof | null;
  proved: ProvedSupply | null;
  /**
   * The guard has seen a hose fill: what it learnt of it is none of the packer's, and what stands in the hose has come in as it was
   * announced. 'doubted': a packer may be on it.
   */
  hoseSeen: 'none' | 'hose' | 'doubted';
  /** The supply is proved, or its proof is over, and this is left in the hose: the lowest level since, bar. null: nothing is known to be. */
  leftBar: number | null;
  /** The first fill after a proof, held against it; null: none is being looked at. */
  fill: Rise | null;
  /** The last second of medians of three: a spike is no move of a regulator. */
  recent: Recent;
  /** Since when a fill stands still under what was proved, s, and whether it was told. */
  elsewhereS: number | null;
  elsewhereTold: boolean;
}

export const createSupply = (): Supply => ({
  proof: null,
  proved: null,
  hoseSeen: 'none',
  leftBar: null,
  fill: null,
  recent: createRecent(),
  elsewhereS: null,
  elsewhereTold: false,
});

export const proofContext = (setup: Setup | null, uBar: number | null, tUs: number): ProofContext => ({
  tUs,
  limits: setup?.limits ?? null,
  uBar: uBar ?? 0,
  beforeValve: setup?.tap === 'supply',
});

function settle(s: Supply, outcome: Outcome): void {
  if (outcome === 'goes-on') return;
  if (outcome === 'over') s.proof = null;
  else s.proved = outcome;
}

export function supplyProve(
  s: Supply,
  end: LineEnd,
  inPrepare: boolean,
  startBar: number | null,
  ctx: ProofContext,
  emit: Emit,
): void {
  const proof = beginProof(end, inPrepare, startBar, ctx, emit);
  if (proof === null) return;
  s.proof = proof;
  s.hoseSeen = 'hose';
  s.leftBar = null;
  s.proved = null;
  s.fill = null;
}

/** What was proved holds no longer. */
function voidIt(s: Supply, reason: 'turned' | 'device' | 'fill-as-fast', tUs: number, emit: Emit): void {
  if (s.proved === null) return;
  s.proved = null;
  s.fill = null;
  emit(supplyEvent(tUs, 'void', { reason }));
}

export function supplySaid(
  s: Supply,
  said: SupplyWord,
  bar: number | null,
  ctx: ProofContext,
  emit: Emit,
): void {
  if (said === 'turned' && (s.proof === null || s.proof.phase === 'vent')) voidIt(s, 'turned', ctx.tUs, emit);
  if (s.proof === null) return;
  settle(s, proofWord(s.proof, said, bar, ctx.tUs, emit));
  if (said === 'packer-on') s.hoseSeen = 'doubted';
  if (said === 'slow-valve') s.hoseSeen = 'hose';
}

/** What is left in the hose of a proof, which nobody doubts to have been one's. */
function followLeft(s: Supply, leftBar: number, bar: number): void {
  if (bar > leftBar + RISEN_BAR) {
    // It is to be let down, and air comes in: whatever is on the hose, this was not announced.
    s.leftBar = null;
    s.proof = null;
    s.hoseSeen = 'doubted';
  } else s.leftBar = bar < RISEN_BAR ? null : Math.min(leftBar, bar);
}

/** A proof is over, and nobody doubts that what stands in the line is a hose's alone, bar. */
export function supplyLeaves(s: Supply, bar: number): void {
  if (bar >= RISEN_BAR) s.leftBar ??= bar;
}

/** What the line reads is a hose's behind a closed end, as far as anybody can tell: no packer holds it. */
export const isHoseAlone = (s: Supply): boolean =>
  s.leftBar !== null || (s.proof?.phase !== 'vent' && isHoseRise(s.proof));

/** Another sensor, another scale or another place of it: its levels cannot be held against what was proved. */
export function supplyDevice(s: Supply, tUs: number, emit: Emit): void {
  if (s.proof !== null) proofEnds(s.proof, 'device', tUs, emit);
  s.proof = null;
  s.leftBar = null;
  voidIt(s, 'device', tUs, emit);
}

/** Readings are missing. What was proved stands. */
export function supplyGap(s: Supply, tUs: number, emit: Emit): void {
  if (s.proof !== null) {
    proofEnds(s.proof, 'gap', tUs, emit);
    s.proof = null;
    s.hoseSeen = 'doubted';
  }
  s.fill = null;
  s.leftBar = null;
  recentClear(s.recent);
}

export function supplyStage(s: Supply, isUp: boolean, tUs: number, emit: Emit): void {
  if (s.proof !== null) proofEnds(s.proof, 'stage', tUs, emit);
  s.proof = null;
  s.leftBar = null;
  s.elsewhereS = null;
  s.elsewhereTold = false;
  if (!isUp || s.proved === null) s.fill = null;
  else if (s.proved.paceS !== null) s.fill ??= createRise();
}

/** What was proved, by the limits in force now. */
export function supplyLimits(s: Supply, limits: Limits | null): void {
  if (s.proved !== null && limits !== null)
    s.proved = { ...s.proved, ...judgeSupply(s.proved, limits, s.proved.uBar) };
}

/** A new zero moves every level by the same. */
export function supplyZeroed(s: Supply, offsetBar: number): void {
  recentClear(s.recent);
  if (s.proved === null) return;
  const { lockUp } = s.proved;
  s.proved = {
    ...s.proved,
    lockUp: {
      value: lockUp.value - offsetBar,
      low: lockUp.low - offsetBar,
      high: lockUp.high - offsetBar,
    },
  };
}

/** A fill this much slower than the proof has a packer behind it; any faster, and the packer was on the hose at the proof. */
const FILL_SLOWER = 2;

function followFill(s: Supply, tS: number, bar: number, tUs: number, emit: Emit): void {
  const { fill, proved } = s;
  if (fill === null || proved === null || proved.paceS === null) return;
  const fromBar = PACE.from * proved.lockUp.value;
  riseAdd(fill, tS, bar);
  // It did not begin with an empty packer: no time of it says what is behind the valve.
  const partly = fill.p[0]! > fromBar;
  const took = riseTimeS(fill, fromBar, PACE.to * proved.lockUp.value);
  if (took === null && !partly) return;
  s.fill = null;
  if (!partly && took !== null && took < FILL_SLOWER * proved.paceS) voidIt(s, 'fill-as-fast', tUs, emit);
  else s.proved = { ...proved, paceS: null };
}

/** A fill that stands still for so long is told, s; it stands under lock-up by more than this, bar, beside 2 U. */
const ELSEWHERE_S = 10;
const ELSEWHERE_BAR = 0.05;
/** A seat pause or a step of a hand stands lower than this share of lock-up: it was meant. */
const NEARLY = 0.75;

function followRest(s: Supply, tS: number, bar: number, still: boolean, tUs: number, emit: Emit): void {
  const { proved } = s;
  const under =
    proved !== null &&
    still &&
    bar < proved.lockUp.low - Math.max(ELSEWHERE_BAR, 2 * proved.uBar) &&
    bar > NEARLY * proved.lockUp.value;
  if (!under) s.elsewhereS = null;
  else s.elsewhereS ??= tS;
  if (s.elsewhereTold || s.elsewhereS === null || tS - s.elsewhereS < ELSEWHERE_S) return;
  s.elsewhereTold = true;
  emit(supplyEvent(tUs, 'elsewhere', { bar: bar3(bar), lockUpBar: boundedTo(proved!.lockUp, 3) }));
}

/** Where nobody proves or has proved the supply there is nothing to follow. */
export const isSupplyFollowed = (s: Supply): boolean =>
  s.proof !== null || s.proved !== null || s.leftBar !== null;

/**
 * Takes a usable reading.
 * @param bar median of three
 * @param filling a stage in which air is let in
 * @param still nothing flows
 */
export function supplyReading(
  s: Supply,
  tS: number,
  bar: number,
  filling: boolean,
  still: boolean,
  ctx: ProofContext,
  emit: Emit,
): void {
  recentAdd(s.recent, ctx.tUs, bar);
  if (s.proof !== null) {
    const { proof } = s;
    settle(s, proofReading(proof, tS, bar, ctx, emit));
    if (proof.askedUs !== null) s.hoseSeen = 'doubted';
    else if (s.proof?.phase === 'vent') s.leftBar ??= bar;
  } else if (filling) {
    followFill(s, tS, bar, ctx.tUs, emit);
    followRest(s, tS, bar, still, ctx.tUs, emit);
  }
  if (s.leftBar !== null) followLeft(s, s.leftBar, bar);
}
