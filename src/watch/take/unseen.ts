import { passUnseen } from '../alarms/operator.ts';
import { cureLay, cureWitness } from '../cure/cure.ts';
import type { WatchState } from '../state.ts';

/** Samples that went on for so long after the jump had nothing missing: the clock was set, µs. */
const SET_US = 10e6;
/** With no sample for so long after the jump there is none that could tell, µs. */
const UNTOLD_US = 30e6;
/** A shorter stretch without readings is told as a gap alone, s. */
const LEAST_SLEEP_S = 10;
/** Two clocks read at different ends of a line differ by less than this, s. */
const LEAST_S = 1;

export function clockJumped(w: WatchState, seconds: number): void {
  w.unseen.jump = { atUs: w.tUs, seconds: seconds + (w.unseen.jump?.seconds ?? 0) };
}

/** Asleep on a run clock that went on: nothing of the time is missing, but nothing was watched. */
export function sleptThrough(w: WatchState, fromUs: number, toUs: number): void {
  const seconds = (toUs - fromUs) / 1e6;
  if (seconds < LEAST_SLEEP_S) return;
  w.unseen.sleptUs = w.tUs;
  w.unseen.sleptS = seconds;
}

/** The run lay from one time on its clock to another. */
export function runLay(w: WatchState, fromUs: number, toUs: number): void {
  const seconds = Math.max(0, toUs - fromUs) / 1e6;
  w.unseen.layS += seconds;
  if (w.cure !== null) cureLay(w.cure, w.tUs, seconds);
}

/**
 * The first sample after missing ones.
 * @param deviceS time since the sample before it by the device's clock, s; null: that clock did not run on
 * @param runS the same by the run clock
 */
export function witnessed(w: WatchState, deviceS: number | null, runS: number): void {
  const { jump, layS } = w.unseen;
  w.unseen.jump = null;
  w.unseen.layS = 0;
  if (deviceS === null) {
    if (jump !== null) slept(w, jump.seconds);
    return;
  }
  const over = deviceS - runS;
  const moreS = over >= LEAST_S ? over : 0;
  if (jump !== null) slept(w, moreS);
  else if (layS > 0) pass(w, moreS);
  if (w.cure === null) return;
  // By both clocks, as far as there are two.
  const sleepS = jump === null ? 0 : Math.min(moreS, Math.max(0, jump.seconds));
  // Of what the device tells, the run clock has counted all but the time that the run lay.
  const lainS = Math.min(layS, Math.max(0, deviceS - (runS - layS)));
  cureWitness(w.cure, lainS + sleepS, w.setup);
}

/** As time goes on without a word: the clock was set, or nobody will tell. */
export function settleUnseen(w: WatchState): void {
  const { jump } = w.unseen;
  if (jump === null) return;
  const frameUs = w.signal.lastFrameUs;
  const heard = frameUs !== null && frameUs > jump.atUs;
  if (w.tUs - jump.atUs < (heard ? SET_US : UNTOLD_US)) return;
  w.unseen.jump = null;
  if (!heard) slept(w, jump.seconds);
}

function slept(w: WatchState, seconds: number): void {
  if (seconds < LEAST_S) return;
  w.unseen.sleptUs = w.tUs;
  w.unseen.sleptS = seconds;
  pass(w, seconds);
}

function pass(w: WatchState, seconds: number): void {
  if (seconds <= 0) return;
  w.unseenS += seconds;
  passUnseen(w.alarms, seconds);
}
