import { FIRST_BESIDE, isBeside } from '../job/beside.ts';
import { isSecondPressure } from '../job/pressure-roles.ts';
import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, HelloFrame, SampleFrame } from '../link/frames.ts';
import { STATUS } from '../link/frames.ts';
import { sampleTime, untie } from './clock.ts';
import { emfMv, seebeck } from './its90/reference.ts';
import { forgetBeside, forgetSamples, replan } from './plans.ts';
import { disagreeing, tooFast, tooFastK, watchCount } from './plausibility.ts';
import { FLAG, type Reading, type TemperatureReading } from './reading.ts';
import type { ChannelMemory, ChannelPlan, SensingState } from './state.ts';
import { hotJunction } from './thermocouple.ts';
import {
  SUPPLY_MEASURED,
  SUPPLY_UNKNOWN,
  supplySensitivity,
  temperatureBudget,
  zeroUncertainty,
} from './uncertainty.ts';
import { addToBins } from './zero.ts';

export { createSensing, type SensingState } from './state.ts';

/** Beyond the span by a thousandth a value is out of range: less is the converter's and the sensor's own scatter. */
const OVER_SPAN = 1e-3;
/** A temperature further than this share of its span outside it is no temperature. */
const FAR_OUTSIDE = 0.1;
/** The uncertainty of a thermocouple changes slowly: it is worked out again after this many K. */
const BUDGET_STEP_K = 2;
/** A ratiometric sensor on less than half of its supply says nothing. */
const LEAST_SUPPLY = 0.5;
const R3 = Math.sqrt(3);

/** Takes a Setup. Zero and warm-in-hand checks of another job are forgotten; a first job keeps those just made. */
export function applySetup(state: SensingState, setup: Setup): void {
  if (setup.jobId !== null && state.jobId !== null && setup.jobId !== state.jobId) {
    state.zero = null;
    state.secondZero = null;
    state.checked = [];
  }
  if (setup.jobId !== null) state.jobId = setup.jobId;
  state.setup = setup;
  replan(state);
}

/**
 * Takes what a device says of itself. A new boot id ties the clocks anew; another device, or other scales under the
 * same name, make zero and checks void.
 */
export function describe(state: SensingState, hello: HelloFrame, channels: readonly ChannelFrame[]): void {
  const before = state.hello;
  const other = before !== null && before.deviceId !== hello.deviceId;
  const rescaled = before !== null && JSON.stringify(state.channels) !== JSON.stringify(channels);
  if (before === null || other || before.bootId !== hello.bootId) untie(state.clock);
  state.hello = hello;
  state.channels = channels;
  if (other || rescaled) {
    state.zero = null;
    state.secondZero = null;
    state.checked = state.checked.filter(isBeside);
    forgetSamples(state);
  }
  replan(state);
}

/** Takes what a second adapter says of itself. */
export function describeBeside(
  state: SensingState,
  { deviceId }: Pick<HelloFrame, 'deviceId'>,
  channels: readonly ChannelFrame[],
): void {
  const before = state.beside;
  state.beside = { deviceId, channels };
  const same = before?.deviceId === deviceId && JSON.stringify(before.channels) === JSON.stringify(channels);
  if (before !== null && !same) forgetBeside(state);
  replan(state);
}

/** Supply and cold junction are needed by the channels that name them. V or °C; null when not to be had. */
function readPartner(plan: ChannelPlan, m: ChannelMemory, count: number | null, tS: number): void {
  if (count !== null) {
    const el = plan.el.a + plan.el.b * count;
    const known = plan.setup.signal !== 'thermocouple' && Number.isFinite(el);
    const inside = plan.setup.role === 'supply' || (el >= plan.bands.faultLo && el <= plan.bands.faultHi);
    m.value = known && inside ? plan.offset + plan.gain * (plan.value.a + plan.value.b * el) : null;
    m.atS = tS;
  } else if (m.value !== null && tS - m.atS > plan.holdS) m.value = null;
}

function readPartners(state: SensingState, frame: SampleFrame, tS: number, beside: boolean): void {
  for (const i of state.partners)
    if (isBeside(i) === beside)
      readPartner(
        state.plans[i] as ChannelPlan,
        state.memory[i] as ChannelMemory,
        frame.counts[i] ?? null,
        tS,
      );
}

interface Pressure {
  bar: number | null;
  u: number;
  flags: number;
  step: number;
}
const NO_PRESSURE: Pressure = { bar: null, u: 0, flags: FLAG.fault, step: 0 };

function readPressure(state: SensingState, index: number | null, frame: SampleFrame, tS: number): Pressure {
  const plan = index === null ? null : (state.plans[index] ?? null);
  if (index === null || plan === null) return NO_PRESSURE;
  const m = state.memory[index] as ChannelMemory;
  const isSecond = index === state.second;
  const zero = isSecond ? state.secondZero : state.zero;
  const zeroed = zero !== null;
  const count = frame.counts[index] ?? null;
  if (count === null) {
    const stands = m.value !== null && tS - m.atS <= plan.holdS;
    return {
      bar: stands ? m.value : null,
      u: m.u,
      flags: stands ? m.flags | FLAG.held : plan.flags | FLAG.fault,
      step: plan.step,
    };
  }
  let flags = plan.flags;
  let factor = 1;
  let relSupply = 0;
  if (plan.setup.signal === 'ratio') {
    relSupply = SUPPLY_UNKNOWN;
    const supply = plan.supplyV === null ? null : state.memory[plan.setup.partner ?? -1];
    const volts = supply?.value ?? null;
    if (plan.supplyV === null || volts === null) flags |= FLAG.noSupply;
    else if (volts < LEAST_SUPPLY * plan.supplyV) flags |= FLAG.fault | FLAG.supply;
    else {
      const s = state.plans[plan.setup.partner ?? -1]?.setup;
      if (s !== undefined && (volts < s.rangeLo || volts > s.rangeHi)) flags |= FLAG.supply;
      factor = plan.supplyV / volts;
      relSupply = SUPPLY_MEASURED;
    }
    if ((frame.status & STATUS.supplyLow) !== 0) flags |= FLAG.supply;
  }
  const el = (plan.el.a + plan.el.b * count) * factor;
  const indicated = plan.value.a + plan.value.b * el;
  const { bands, setup: ch } = plan;
  if (!(el >= bands.faultLo && el <= bands.faultHi)) flags |= FLAG.fault;
  else if (el < bands.measureLo || el > bands.measureHi) flags |= FLAG.outOfRange;
  else if (indicated > ch.rangeHi + OVER_SPAN * (ch.rangeHi - ch.rangeLo)) flags |= FLAG.outOfRange;
  // A converter whose last code is the span's end shows that end whatever is over it.
  else if (railed(plan, count) && indicated >= ch.rangeHi - OVER_SPAN * (ch.rangeHi - ch.rangeLo))
    flags |= FLAG.outOfRange;
  if (!zeroed) flags |= FLAG.notZeroed;
  // At its end a converter stands still, and that is another fault.
  const stuck = watchCount(m.watch, count, tS, plan.stepCounts);
  if (stuck && (flags & FLAG.fault) === 0) flags |= FLAG.stuck;
  m.count = count;
  if ((flags & FLAG.fault) !== 0) {
    m.value = null;
    return { bar: null, u: m.u, flags, step: plan.step };
  }
  const open = plan.offset + plan.gain * indicated + plan.shift;
  const bar = open - (zero?.offsetBar ?? 0);
  addToBins(isSecond ? state.secondBins : state.bins, tS, open);
  if (m.value !== null && tooFast(bar - m.value, tS - m.atS)) flags |= FLAG.rate;
  const perCount = (plan.step / plan.stepCounts) * factor;
  const uZero = zeroUncertainty(ch, zeroed, state.setup?.air.uBar);
  const uSupply = relSupply === 0 ? 0 : (supplySensitivity(ch, indicated) * relSupply) / R3;
  m.u = 2 * Math.sqrt(plan.u2 + uZero * uZero + uSupply * uSupply + m.watch.noise * perCount * perCount);
  m.value = bar;
  m.atS = tS;
  m.flags = flags;
  return { bar, u: m.u, flags, step: plan.step * factor };
}

/** A signal that is a fault at the span's upper end: far over the span, or broken. */
function isBeyondEnd(state: SensingState, channel: number, frame: SampleFrame, flags: number): boolean {
  const plan = state.plans[channel];
  const count = frame.counts[channel] ?? null;
  // Without its supply nothing is known of a ratio.
  if (!plan || count === null || (flags & FLAG.fault) === 0 || (flags & FLAG.supply) !== 0) return false;
  return plan.value.a + plan.value.b * (plan.el.a + plan.el.b * count) > plan.setup.rangeHi;
}

function readSecond(state: SensingState, frame: SampleFrame, tS: number): Pick<Reading, 'second'> {
  const { second: channel } = state;
  const role = channel === null ? null : (state.plans[channel]?.setup.role ?? null);
  if (channel === null || role === null || !isSecondPressure(role)) return {};
  const { bar, u, flags: told, step } = readPressure(state, channel, frame, tS);
  const flags = told | (isBeyondEnd(state, channel, frame, told) ? FLAG.outOfRange : 0);
  return { second: { channel, role, bar, uBar: u, flags, stepBar: step } };
}

function readTemperature(
  state: SensingState,
  index: number,
  frame: SampleFrame,
  tS: number,
): TemperatureReading {
  const plan = state.plans[index] ?? null;
  const m = state.memory[index];
  if (plan === null || m === undefined) {
    const place = state.setup?.channels.find((c) => c.index === index)?.place ?? null;
    return { channel: index, place, c: null, uC: 0, flags: FLAG.fault };
  }
  const out: TemperatureReading = {
    channel: index,
    place: plan.setup.place,
    c: null,
    uC: m.u,
    flags: plan.flags | (state.checked.includes(index) ? 0 : FLAG.unchecked),
  };
  const count = frame.counts[index] ?? null;
  if (count === null) {
    if (m.value !== null && tS - m.atS <= plan.holdS) {
      out.c = m.value;
      out.flags |= m.flags | FLAG.held;
    } else out.flags |= FLAG.fault;
    return out;
  }
  const ch = plan.setup;
  const partner = ch.partner === null ? null : (state.memory[ch.partner]?.value ?? null);
  const same = m.value !== null && m.count === count && m.partner === partner;
  const c = same ? m.value : celsius(plan, count, partner);
  if (watchCount(m.watch, count, tS, plan.stepCounts)) out.flags |= FLAG.stuck;
  const span = ch.rangeHi - ch.rangeLo;
  const outside = c === null ? 0 : Math.max(ch.rangeLo - c, c - ch.rangeHi);
  if (c === null) out.flags |= why(plan, count, partner);
  else if (outside > FAR_OUTSIDE * span) out.flags |= FLAG.outOfRange;
  else if (outside > OVER_SPAN * span) out.flags |= FLAG.outOfRange;
  m.count = count;
  m.partner = partner;
  if (c === null || outside > FAR_OUTSIDE * span) {
    m.value = null;
    return out;
  }
  if (m.value !== null && tooFastK(c - m.value, tS - m.atS)) out.flags |= FLAG.rate;
  if (!same) uncertain(state, plan, m, c, partner);
  m.value = c;
  m.atS = tS;
  m.flags = out.flags & (FLAG.rate | FLAG.outOfRange | FLAG.stuck);
  out.c = c;
  out.uC = m.u;
  return out;
}

/** °C of a count; null where it is none. */
function celsius(plan: ChannelPlan, count: number, junctionC: number | null): number | null {
  const el = plan.el.a + plan.el.b * count;
  const type = plan.setup.signal === 'thermocouple' ? plan.setup.thermocouple : null;
  let c: number | null;
  if (type !== null) {
    if (junctionC === null || railed(plan, count)) return null;
    c = hotJunction(type, el / 1e6, junctionC);
  } else if (plan.setup.signal === 'thermocouple') return null;
  else c = el >= plan.bands.faultLo && el <= plan.bands.faultHi ? plan.value.a + plan.value.b * el : null;
  return c === null ? null : plan.offset + plan.gain * c;
}

/** The converter is at one of its ends, as the burn-out current of an open probe drives it there. */
function railed(plan: ChannelPlan, count: number): boolean {
  const { rawLo, rawHi, bits } = plan.setup;
  const lo = Math.min(rawLo, rawHi);
  const hi = Math.max(rawLo, rawHi);
  // Two points inside the scale are no ends: only a pair that spans all codes tells where the converter stops.
  return (count >= hi || count <= lo) && hi - lo >= 2 ** bits - 2;
}

function why(plan: ChannelPlan, count: number, junctionC: number | null): number {
  const type = plan.setup.signal === 'thermocouple' ? plan.setup.thermocouple : null;
  if (type === null || junctionC === null || emfMv(type, junctionC) === null) return FLAG.fault;
  return railed(plan, count) || hotJunction(type, (plan.el.a + plan.el.b * count) / 1e6, junctionC) === null
    ? FLAG.open
    : FLAG.fault;
}

function uncertain(
  state: SensingState,
  plan: ChannelPlan,
  m: ChannelMemory,
  c: number,
  junctionC: number | null,
): void {
  const ch = plan.setup;
  if (ch.signal === 'thermocouple' && ch.thermocouple !== null) {
    if (m.uAtC !== null && Math.abs(c - m.uAtC) < BUDGET_STEP_K) return;
    const partner = ch.partner === null ? null : (state.plans[ch.partner]?.setup ?? null);
    const slope = seebeck(ch.thermocouple, c) ?? 0.04;
    m.perCount = Math.abs(plan.el.b) / 1e6 / slope;
    const noise = Math.sqrt(m.watch.noise) * m.perCount;
    m.u = temperatureBudget(ch, c, partner, { noise, junctionC: junctionC ?? 20 }).expanded;
    m.uAtC = c;
    return;
  }
  const perCount = plan.step / plan.stepCounts;
  m.u = 2 * Math.sqrt(plan.u2 + m.watch.noise * perCount * perCount);
}

/**
 * One sample frame → one reading, in constant time. A doubtful value is kept and flagged; a value that is none is
 * null. A count that the frame leaves out keeps the last value, flagged as held, for a second (pressure) or five.
 */
export function sense(state: SensingState, frame: SampleFrame, tUs: number): Reading {
  const tS = sampleTime(state.clock, frame.tick, tUs);
  readPartners(state, frame, tS, false);
  const p = readPressure(state, state.pressure, frame, tS);
  const temps: TemperatureReading[] = [];
  // Those of a second adapter stand as they came last: it has its own pace, and the run's clock alone.
  for (const index of state.temps)
    temps.push(readTemperature(state, index, frame, isBeside(index) ? tUs / 1e6 : tS));
  if (temps.length > 0) {
    const bad = disagreeing(temps, state.setup?.ground ?? null);
    if (bad !== 0)
      for (let i = 0; i < temps.length; i++) if (bad & (1 << i)) temps[i]!.flags |= FLAG.disagrees;
  }
  return {
    tUs,
    tS,
    seq: frame.seq,
    bar: p.bar,
    uBar: p.u,
    flags: p.flags,
    stepBar: p.step,
    ...readSecond(state, frame, tS),
    temps,
    status: frame.status,
  };
}

const NO_COUNTS: readonly null[] = new Array<null>(FIRST_BESIDE).fill(null);

/**
 * One sample frame of the second adapter → the temperatures that it converted anew. Their time is that of arrival: two devices'
 * clocks run apart, and a temperature does not ask for milliseconds.
 */
export function senseBeside(state: SensingState, frame: SampleFrame, tUs: number): TemperatureReading[] {
  const tS = tUs / 1e6;
  const moved = { ...frame, counts: [...NO_COUNTS, ...frame.counts] };
  readPartners(state, moved, tS, true);
  return state.temps
    .filter((index) => isBeside(index) && moved.counts[index] != null)
    .map((index) => readTemperature(state, index, moved, tS));
}
