import type { ChannelSetup } from '../job/setup.ts';
import type { SensingState, Zero, ZeroBin } from './state.ts';
import { stepValue, UNKNOWN_AIR_U } from './uncertainty.ts';

/** Length of a bin and how many are kept: a second, or at slow rates the last few readings. */
const BIN_S = 0.1;
const BINS = 12;
const WINDOW_S = 1.05;
const LEAST_READINGS = 3;

export function addToBins(bins: ZeroBin[], tS: number, bar: number): void {
  const last = bins[bins.length - 1];
  if (last !== undefined && tS - last.s < BIN_S) {
    last.n++;
    last.sum += bar;
    if (bar < last.min) last.min = bar;
    if (bar > last.max) last.max = bar;
    return;
  }
  if (bins.length >= BINS) bins.shift();
  bins.push({ s: tS, n: 1, sum: bar, min: bar, max: bar });
}

/**
 * Furthest that a zero may be taken from: 1 % of the span, between 20 and 50 mbar. Beyond it something is wrong that
 * a zero would hide (line under pressure, wrong range), and the sensor is refused before mixing. An absolute or
 * sealed sensor shows the air pressure there, which is known with its own expanded uncertainty only.
 */
export function zeroLimitBar(
  ch: Pick<ChannelSetup, 'rangeLo' | 'rangeHi' | 'gaugeKind'>,
  airUBar = 0,
): number {
  const own = Math.min(0.05, Math.max(0.02, 0.01 * Math.abs(ch.rangeHi - ch.rangeLo)));
  return ch.gaugeKind === 'absolute' || ch.gaugeKind === 'sealed' ? own + airUBar : own;
}

const limitOf = (state: SensingState, ch: ChannelSetup): number =>
  zeroLimitBar(ch, state.setup?.air.uBar ?? UNKNOWN_AIR_U);

export type ZeroRefusal =
  | 'no-channel' // no usable pressure channel
  | 'no-reading' // fewer than three good readings in the last second
  | 'not-still' // the line moves: it is not open
  | 'too-far'; // beyond the limit

export interface ZeroResult {
  readonly taken: boolean;
  /** What the open line reads, bar; null when nothing was read. */
  readonly offsetBar: number | null;
  readonly limitBar: number | null;
  readonly reason: ZeroRefusal | null;
}

/**
 * Takes the zero from the readings of the last second (at slow rates from the last three to five), with the coupling
 * seen open. Nothing changes when it is refused. That no run is on is the caller's to see to.
 */
export function zero(state: SensingState): ZeroResult {
  const [result, taken] = judged(state, state.pressure, state.bins, state.zero);
  if (taken !== null) state.zero = taken;
  return result;
}

/** The same of the second pressure, where its line stands at the air's own pressure too. */
export function zeroSecond(state: SensingState): ZeroResult {
  const [result, taken] = judged(state, state.second, state.secondBins, state.secondZero);
  if (taken !== null) state.secondZero = taken;
  return result;
}

/** What a zero of that channel would be now; null: it is refused. */
function judged(
  state: SensingState,
  index: number | null,
  kept: readonly ZeroBin[],
  known: Zero | null,
): readonly [ZeroResult, Zero | null] {
  const refuse = (reason: ZeroRefusal, offsetBar: number | null, limitBar: number | null) =>
    [{ taken: false, offsetBar, limitBar, reason }, null] as const;
  const plan = index === null ? null : state.plans[index];
  if (index === null || !plan) return refuse('no-channel', null, null);
  const limit = limitOf(state, plan.setup);
  const value = state.memory[index]?.value ?? null;
  const last = kept[kept.length - 1];
  if (value === null || last === undefined) return refuse('no-reading', null, limit);
  let bins = kept.filter((b) => last.s - b.s <= WINDOW_S);
  if (bins.length < LEAST_READINGS) bins = kept.filter((b) => last.s - b.s <= 30).slice(-5);
  const n = bins.reduce((s, b) => s + b.n, 0);
  if (n < LEAST_READINGS) return refuse('no-reading', null, limit);
  const mean = bins.reduce((s, b) => s + b.sum, 0) / n;
  const means = bins.map((b) => b.sum / b.n);
  const noise = Math.sqrt(state.memory[index]?.watch.noise ?? 0) * (plan.step / plan.stepCounts);
  const still = Math.max(0.004, 2 * stepValue(plan.setup), 5 * noise);
  if (Math.max(...means) - Math.min(...means) > still) return refuse('not-still', mean, limit);
  if (Math.abs(mean) > limit) return refuse('too-far', mean, limit);
  const before = known?.offsetBar ?? 0;
  const indicated = (mean - plan.shift - plan.offset) / plan.gain;
  const taken: Zero = {
    deviceId: state.hello?.deviceId ?? null,
    channel: index,
    el: (indicated - plan.value.a) / plan.value.b,
    offsetBar: mean,
  };
  // The value in memory is of the old zero; the next sample must not look like a jump.
  const m = state.memory[index];
  if (m !== undefined && m.value !== null) m.value -= mean - before;
  return [{ taken: true, offsetBar: mean, limitBar: limit, reason: null }, taken];
}

/**
 * After another Setup or hello: the same zeros through the present scale. One is void on another device, channel or signal,
 * and where the new scale puts it beyond the limit.
 */
export function keepZero(state: SensingState): void {
  state.zero = kept(state, state.zero, state.pressure);
  state.secondZero = kept(state, state.secondZero, state.second);
}

function kept(state: SensingState, z: Zero | null, index: number | null): Zero | null {
  const plan = index === null ? null : state.plans[index];
  if (z === null || !plan) return z;
  const other = z.deviceId !== null && state.hello !== null && z.deviceId !== state.hello.deviceId;
  if (other || index !== z.channel) return null;
  const offsetBar = plan.offset + plan.gain * (plan.value.a + plan.value.b * z.el) + plan.shift;
  return Math.abs(offsetBar) > limitOf(state, plan.setup) ? null : { ...z, offsetBar };
}
