/** The simulated device's channels: which sensor stands where, sampled at its own rate, as the hello tells it. */
import { type ChannelFrame, type SuggestedPlace, THERMOCOUPLE_SIGNALS } from '../link/frames.ts';
import { createRandom } from './random.ts';
import type { Site, SiteTruth } from './site.ts';
import { type Couple, type CoupleOptions, createCouple } from './thermocouple.ts';
import { createTransducer, NOMINAL_SUPPLY_V, type Transducer, type TransducerOptions } from './transducer.ts';

export type TruePlace = 'sleeve' | 'air' | 'pipe' | 'ground' | 'manhole';
export type TrueTap = 'packer' | 'hose' | 'supply';
/** Where the tip of the cup's probe is; in the sleeve, the sleeve's is in the cup. */
export type CupTip = 'cup' | 'air' | 'sleeve';

export interface ProbeOptions extends CoupleOptions {
  /** Where the tip really is. */
  readonly at: TruePlace;
  /** What the device says of it; default: the truth, null for the manhole. */
  readonly says?: SuggestedPlace;
}

/** A second transducer on the same line. */
export interface SecondOptions {
  readonly tap: TrueTap;
  /** What the device says of it; default: the truth. */
  readonly says?: SuggestedPlace;
  readonly transducer?: TransducerOptions;
}

export interface ChannelOptions {
  readonly seed: number;
  /** Where the transducer really sits. */
  readonly tap?: TrueTap;
  /** What the device says of it; default: the truth. */
  readonly saysTap?: SuggestedPlace;
  readonly transducer?: TransducerOptions;
  /** Default: none. */
  readonly second?: SecondOptions;
  /** A thermocouple in the batch's cup; the device does not know where it is. Default: none. */
  readonly cup?: CoupleOptions;
  /** A channel with the sensor's supply. Default: for ratiometric sensors. */
  readonly supplyChannel?: boolean;
  /** 0 to 4 thermocouples. Default: sleeve and air. */
  readonly probes?: readonly ProbeOptions[];
  /** Temperature of the device's box over the air's, K. */
  readonly boxOverAirK?: number;
}

interface Channel {
  /** The hello's line without its index. */
  readonly frame: Omit<ChannelFrame, 't' | 'index'>;
  readonly periodS: number;
  nextS: number;
  lastS: number;
  counts: number;
  fresh: boolean;
  convert(dtS: number): number;
}

export interface Channels {
  readonly frames: readonly ChannelFrame[];
  readonly transducer: Transducer;
  readonly second: Transducer | null;
  readonly couples: readonly Couple[];
  readonly pressIndex: number;
  readonly supplyIndex: number | null;
  /** Converts what is due at that time; the pressure channel always. */
  convert(nowS: number): void;
  /** The tips are taken in a warm hand, or let go. */
  hold(held: boolean): void;
  /** The two transducers are plugged in for each other, or each where it belongs. */
  swapTaps(swapped: boolean): void;
  putCupTip(at: CupTip): void;
  /** Newest counts, and whether they are new since the last call of take(). */
  counts(index: number): number;
  take(): (number | null)[];
}

const TEMP_HZ = 4;
/** A palm (value from memory). */
const HAND_C = 32;
const SLOW_HZ = 2;
/** Supply converter: 0..6 V on 12 bits, µV in the hello. */
const SUPPLY_TOP_UV = 6_000_000;
const SUPPLY_RAW = 4095;

function tipC(truth: SiteTruth, at: TruePlace): number {
  switch (at) {
    case 'sleeve':
      return truth.sleeveInnerC;
    case 'air':
      return truth.gasC;
    case 'pipe':
      return truth.pipeC;
    case 'ground':
      return truth.groundC;
    case 'manhole':
      return truth.airC;
  }
}

function tapBar(truth: SiteTruth, tap: TrueTap): number {
  return tap === 'packer' ? truth.packerBar : tap === 'hose' ? truth.hoseBar : truth.supplyBar;
}

export function createChannels(site: Site, options: ChannelOptions, maxRateHz: number): Channels {
  const random = createRandom(options.seed);
  const tap = options.tap ?? 'hose';
  const transducer = createTransducer(options.transducer ?? {}, random.fork('pressure'));
  const probes = options.probes ?? [{ at: 'sleeve' }, { at: 'air' }];
  if (probes.length > 4) throw new RangeError('at most four thermocouples');
  const ratio = transducer.options.signal === 'ratio';
  const hasSupply = options.supplyChannel ?? ratio;
  const supplyIndex = hasSupply ? 1 : null;
  const junctionIndex = 1 + (hasSupply ? 1 : 0) + probes.length;
  const slow = random.fork('slow');
  let held = false;
  let swapped = false;
  let cupTip: CupTip = 'cup';
  const box = () => site.truth.airC + (options.boxOverAirK ?? 6);
  const list: Channel[] = [];
  const add = (frame: Channel['frame'], hz: number, convert: Channel['convert']) =>
    list.push({ frame, periodS: 1 / hz, nextS: 0, lastS: 0, counts: 0, fresh: false, convert });

  const addPressure = (t: Transducer, at: () => TrueTap, place: SuggestedPlace) => {
    const { signal, bits, rangeLoBar, rangeHiBar } = t.options;
    const { rawLo, rawHi, elLo, elHi } = t.scale;
    add(
      {
        quantity: 'press',
        place,
        signal,
        partner: signal === 'ratio' ? supplyIndex : null,
        bits,
        rawLo,
        rawHi,
        elLo,
        elHi,
        rangeLo: Math.round(rangeLoBar * 1e5),
        rangeHi: Math.round(rangeHiBar * 1e5),
        rateMilliHz: maxRateHz * 1000,
      },
      maxRateHz,
      (dtS) => t.sample(tapBar(site.truth, at()), dtS),
    );
  };
  const { second: other } = options;
  const otherTap = other?.tap ?? tap;
  addPressure(
    transducer,
    () => (swapped ? otherTap : tap),
    options.saysTap === undefined ? tap : options.saysTap,
  );
  if (hasSupply) {
    add(
      {
        quantity: 'supply',
        place: null,
        signal: 'voltage',
        partner: null,
        bits: 12,
        rawLo: 0,
        rawHi: SUPPLY_RAW,
        elLo: 0,
        elHi: SUPPLY_TOP_UV,
        rangeLo: 4_500_000,
        rangeHi: 5_500_000,
        rateMilliHz: 10_000,
      },
      10,
      () => Math.round(((transducer.supplyV * 1e6) / SUPPLY_TOP_UV) * SUPPLY_RAW + 0.3 * slow.normal()),
    );
  }
  const addProbe = (couple: Couple, place: SuggestedPlace, tip: () => number) =>
    add(
      {
        quantity: 'temp',
        place,
        signal: THERMOCOUPLE_SIGNALS[couple.declared],
        partner: junctionIndex,
        bits: couple.bits,
        ...couple.scale,
        rangeLo: -40_000,
        rangeHi: 200_000,
        rateMilliHz: TEMP_HZ * 1000,
      },
      TEMP_HZ,
      (dtS) => couple.sample(held ? HAND_C : tip(), box(), dtS),
    );
  const couples = probes.map((probe, i) => {
    const couple = createCouple(probe, random.fork(`probe ${i}`));
    const place = probe.says !== undefined ? probe.says : probe.at === 'manhole' ? null : probe.at;
    addProbe(couple, place, () =>
      probe.at === 'sleeve' && cupTip === 'sleeve' ? site.truth.cupC : tipC(site.truth, probe.at),
    );
    return couple;
  });
  if (probes.length > 0) {
    add(
      {
        quantity: 'junct',
        place: null,
        signal: 'digital',
        partner: null,
        bits: 16,
        rawLo: -40_000,
        rawHi: 100_000,
        elLo: -40_000,
        elHi: 100_000,
        rangeLo: -40_000,
        rangeHi: 85_000,
        rateMilliHz: SLOW_HZ * 1000,
      },
      SLOW_HZ,
      () => Math.round(box() * 1000 + 20 * slow.normal()),
    );
  }
  // Behind all others: a device that has none keeps their places.
  const second =
    other === undefined ? null : createTransducer(other.transducer ?? {}, random.fork('second pressure'));
  if (other !== undefined && second !== null)
    addPressure(second, () => (swapped ? tap : other.tap), other.says === undefined ? other.tap : other.says);
  const cupTipC = () => {
    const { cupC, airC, sleeveInnerC } = site.truth;
    return cupTip === 'cup' ? cupC : cupTip === 'air' ? airC : sleeveInnerC;
  };
  if (options.cup !== undefined) addProbe(createCouple(options.cup, random.fork('cup')), null, cupTipC);
  let first = true;
  return {
    hold(on) {
      held = on;
    },
    swapTaps(on) {
      swapped = on && second !== null;
    },
    putCupTip(at) {
      cupTip = at;
    },
    frames: list.map((c, index) => ({ t: 'C', index, ...c.frame })),
    transducer,
    second,
    couples,
    pressIndex: 0,
    supplyIndex,
    convert(nowS) {
      for (let i = 0; i < list.length; i++) {
        const c = list[i]!;
        if (!first && i > 0 && nowS < c.nextS - 1e-9) continue;
        c.counts = c.convert(first ? c.periodS : nowS - c.lastS);
        c.fresh = true;
        c.lastS = nowS;
        c.nextS = Math.max(c.nextS + c.periodS, nowS);
      }
      first = false;
    },
    counts: (index) => list[index]!.counts,
    take() {
      const out = list.map((c) => (c.fresh ? c.counts : null));
      for (const c of list) c.fresh = false;
      return out;
    },
  };
}

/** Supply over nominal as the device's own counts show it. */
export function supplyRatio(counts: number): number {
  return ((counts / SUPPLY_RAW) * SUPPLY_TOP_UV) / (NOMINAL_SUPPLY_V * 1e6);
}
