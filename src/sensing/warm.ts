import type { Place } from '../job/setup.ts';
import type { SensingState } from './state.ts';

/** A household thermometer in the hand beside the probe: ±1 K, expanded. */
const THERMOMETER_U_K = 1;
/** Hand and cold junction must differ by this much: a shorted probe reads the junction, a reversed one mirrors it. */
const APART_K = 5;

export type WarmRefusal =
  | 'no-probe' // no channel at that place
  | 'no-reading'
  | 'too-close' // the hand is no warmer than the junction: a shorted or reversed probe would pass
  | 'differs';

export interface WarmResult {
  readonly passed: boolean;
  readonly channel: number | null;
  /** Probe minus thermometer, K. */
  readonly differenceK: number | null;
  readonly limitK: number | null;
  readonly reason: WarmRefusal | null;
}

/**
 * Warm-in-hand check of the probe at a place against a thermometer, °C. Passing takes the 'unchecked' flag away;
 * failing puts it back.
 */
export function warmCheck(state: SensingState, place: Place, thermometerC: number): WarmResult {
  const index = state.temps.find((i) => state.plans[i]?.setup.place === place);
  const plan = index === undefined ? null : state.plans[index];
  if (index === undefined || !plan)
    return { passed: false, channel: null, differenceK: null, limitK: null, reason: 'no-probe' };
  const m = state.memory[index];
  const fail = (reason: WarmRefusal, differenceK: number | null, limitK: number | null): WarmResult => {
    state.checked = state.checked.filter((i) => i !== index);
    return { passed: false, channel: index, differenceK, limitK, reason };
  };
  if (m === undefined || m.value === null || !Number.isFinite(thermometerC))
    return fail('no-reading', null, null);
  const limitK = Math.hypot(m.u, THERMOMETER_U_K);
  const differenceK = m.value - thermometerC;
  if (Math.abs(differenceK) > limitK) return fail('differs', differenceK, limitK);
  if (plan.setup.signal === 'thermocouple') {
    const junction = plan.setup.partner === null ? null : (state.memory[plan.setup.partner]?.value ?? null);
    if (junction === null) return fail('no-reading', differenceK, limitK);
    // Reversed, the reading would be as far on the other side: the two must be told apart by more than the limit.
    if (Math.abs(thermometerC - junction) < Math.max(APART_K, limitK))
      return fail('too-close', differenceK, limitK);
  }
  if (!state.checked.includes(index)) state.checked = [...state.checked, index].sort((a, b) => a - b);
  return { passed: true, channel: index, differenceK, limitK, reason: null };
}
