import { isBeside, ownChannel } from '../job/beside.ts';
import { gaugeShiftBar } from '../job/gauge-kind.ts';
import { isPressureRole, isSecondPressure } from '../job/pressure-roles.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { ChannelFrame } from '../link/frames.ts';
import { createCountWatch } from './plausibility.ts';
import { FLAG } from './reading.ts';
import { countsAStep, electrical, nominal, signalBands } from './signal.ts';
import type { ChannelMemory, ChannelPlan, SensingState } from './state.ts';
import { suggestBeside, suggestChannels } from './suggest.ts';
import { pressureBudget, stepValue, temperatureBudget } from './uncertainty.ts';
import { keepZero } from './zero.ts';

/** A pressure without a new conversion stands for a second, another value for five, or for five conversions. */
const HOLD_S = { pressure: 1, other: 5, conversions: 5 };

const square = (x: number): number => x * x;

/** A calibration belongs to device + channel + sensor: that of another device or channel is none. */
function owned(ch: ChannelSetup, { hello, beside }: SensingState): ChannelSetup {
  const c = ch.calibration;
  if (c === null) return ch;
  const deviceId = (isBeside(ch.index) ? beside?.deviceId : hello?.deviceId) ?? null;
  const foreign = c.channel !== ownChannel(ch.index) || (deviceId !== null && c.deviceId !== deviceId);
  return foreign ? { ...ch, calibration: null } : ch;
}

function holdOf(ch: ChannelSetup, frame: ChannelFrame | undefined): number {
  const least = isPressureRole(ch.role) ? HOLD_S.pressure : HOLD_S.other;
  const period = frame !== undefined && frame.rateMilliHz > 0 ? 1000 / frame.rateMilliHz : 0;
  return Math.max(least, HOLD_S.conversions * period);
}

function planOf(
  ch: ChannelSetup,
  all: readonly ChannelSetup[],
  frame: ChannelFrame | undefined,
  setup: Setup | null,
  suggested: boolean,
): ChannelPlan | null {
  const el = electrical(ch);
  // A thermocouple's range is no straight line: emf is what it delivers.
  const value = ch.signal === 'thermocouple' ? { a: 0, b: 1 } : nominal(ch);
  if (el === null || value === null || ch.role === 'unused') return null;
  const partner = all.find((c) => c.index === ch.partner);
  const supplied = ch.signal === 'ratio' && partner?.role === 'supply';
  let flags = suggested ? FLAG.uncalibrated : 0;
  let u2 = 0;
  if (isPressureRole(ch.role)) {
    if (ch.calibration === null) flags |= FLAG.uncalibrated;
    if (ch.signal === 'ratio' && !supplied) flags |= FLAG.noSupply;
    // Zero, supply and noise change with the reading and are added there.
    for (const row of pressureBudget(ch, 0, supplied).rows)
      if (row.code !== 'zero' && row.code !== 'supply' && row.code !== 'noise') u2 += square(row.u);
  } else if (ch.role === 'temperature' && ch.signal !== 'thermocouple') {
    if (ch.calibration === null) flags |= FLAG.uncalibrated;
    u2 = square(temperatureBudget(ch, 20, null).combined);
  }
  return {
    setup: ch,
    el,
    value,
    bands: signalBands(ch.spanElLo, ch.spanElHi),
    offset: ch.calibration?.offset ?? 0,
    gain: ch.calibration?.gain ?? 1,
    shift: isPressureRole(ch.role) ? gaugeShiftBar(ch.gaugeKind, setup) : 0,
    supplyV: supplied && partner !== undefined ? (partner.rangeLo + partner.rangeHi) / 2 : null,
    flags,
    stepCounts: countsAStep(ch),
    step: ch.signal === 'thermocouple' ? 0 : stepValue(ch),
    u2,
    holdS: holdOf(ch, frame),
  };
}

function createMemory(): ChannelMemory {
  return {
    count: null,
    value: null,
    atS: 0,
    flags: 0,
    u: 0,
    partner: null,
    uAtC: null,
    perCount: 0,
    watch: createCountWatch(),
  };
}

/** Forgets everything that was learnt from the device's samples: another one, or the same with other scales. */
export function forgetSamples(state: SensingState): void {
  state.memory = state.plans.map((_, i) =>
    isBeside(i) ? (state.memory[i] ?? createMemory()) : createMemory(),
  );
  state.bins.length = 0;
  state.secondBins.length = 0;
}

/**
 * Works the plans out anew from the Setup, or where it names no channels from what the device suggests. The memory of
 * a channel is kept when its scale is unchanged.
 */
export function replan(state: SensingState): void {
  const { setup } = state;
  const lines = state.beside?.channels ?? [];
  const suggested = setup === null || setup.channels.length === 0;
  const named = suggested ? [...suggestChannels(state.channels), ...suggestBeside(lines)] : setup.channels;
  const channels = named.map((c) => owned(c, state));
  const count = Math.max(state.channels.length, ...channels.map((c) => c.index + 1), 0);
  const before = state.plans;
  const plans: (ChannelPlan | null)[] = new Array<ChannelPlan | null>(count).fill(null);
  for (const ch of channels)
    plans[ch.index] = planOf(
      ch,
      channels,
      (isBeside(ch.index) ? lines : state.channels).find((f) => f.index === ownChannel(ch.index)),
      setup,
      suggested,
    );
  state.plans = plans;
  const own = channels.filter((c) => !isBeside(c.index) && plans[c.index]);
  state.pressure = own.find((c) => c.role === 'pressure')?.index ?? null;
  state.second = own.find((c) => isSecondPressure(c.role))?.index ?? null;
  state.temps = channels.filter((c) => c.role === 'temperature').map((c) => c.index);
  state.partners = plans.flatMap((plan, i) =>
    plan?.setup.role === 'supply' || plan?.setup.role === 'junction' ? [i] : [],
  );
  state.memory = plans.map((plan, i) => {
    const old = state.memory[i];
    const same = JSON.stringify(before[i] ?? null) === JSON.stringify(plan);
    return old !== undefined && same ? old : createMemory();
  });
  const isOther = (index: number | null) =>
    JSON.stringify(before[index ?? -1] ?? null) !== JSON.stringify(plans[index ?? -1] ?? null);
  if (isOther(state.pressure)) state.bins.length = 0;
  if (isOther(state.second)) state.secondBins.length = 0;
  keepZero(state);
}

/** Another second adapter, or the same with other scales: what was learnt from the one before it is void. */
export function forgetBeside(state: SensingState): void {
  state.memory = state.memory.map((m, i) => (isBeside(i) ? createMemory() : m));
  state.checked = state.checked.filter((i) => !isBeside(i));
}
