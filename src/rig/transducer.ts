/** A pressure transducer and its converter, with the errors that real ones have. */
import type { Random } from './random.ts';

export type TransducerSignal = 'ratio' | 'current' | 'voltage' | 'digital';

export interface TransducerOptions {
  /** Default 'ratio': 10-90 % of its supply. 'current' 4-20 mA, 'voltage' 0-10 V, 'digital' in Pa. */
  readonly signal?: TransducerSignal;
  /** Span, bar gauge. Default 0..6. */
  readonly rangeLoBar?: number;
  readonly rangeHiBar?: number;
  /** Converter, 10-24 bits over its whole electrical range (ELECTRICAL). Default 12. */
  readonly bits?: number;
  /** Zero error, bar, and gain, 1 = true. */
  readonly offsetBar?: number;
  readonly gain?: number;
  /** Bow at mid span, bar. */
  readonly bowBar?: number;
  /** White noise of one conversion, bar (standard deviation). Default 0.0015. */
  readonly noiseBar?: number;
  /** Slow wander, bar (standard deviation), and its time constant, s. */
  readonly wanderBar?: number;
  readonly wanderTauS?: number;
  /** Spikes: mean number a minute, and their size, bar (either sign, half to one and a half times this). */
  readonly spikesPerMin?: number;
  readonly spikeBar?: number;
  /** First-order lag of sensor and filter, s. */
  readonly lagS?: number;
}

const DEFAULTS: Required<TransducerOptions> = {
  signal: 'ratio',
  rangeLoBar: 0,
  rangeHiBar: 6,
  bits: 12,
  offsetBar: 0,
  gain: 1,
  bowBar: 0,
  noiseBar: 0.0015,
  wanderBar: 0,
  wanderTauS: 20,
  spikesPerMin: 0,
  spikeBar: 0.5,
  lagS: 0.005,
};

/** Supply for which a ratiometric sensor is made, and the converter's own reference, V. */
export const NOMINAL_SUPPLY_V = 5;

/**
 * What the converter's counts 0..2^bits − 1 stand for, in the protocol's electrical unit: µA, ppm of the nominal
 * supply, µV; and where the sensor's span begins and ends on it. A digital sensor's ends depend on its span.
 */
export const ELECTRICAL = {
  current: { lo: 0, hi: 25_000, spanLo: 4_000, spanHi: 20_000, floor: 3_800, top: 20_500 },
  ratio: { lo: 0, hi: 1_000_000, spanLo: 100_000, spanHi: 900_000, floor: 40_000, top: 960_000 },
  voltage: { lo: 0, hi: 11_000_000, spanLo: 0, spanHi: 10_000_000, floor: 0, top: 10_800_000 },
} as const;

/** The converter's two points and the span in electrical units, as the hello tells them. */
export interface Scale {
  readonly rawLo: number;
  readonly rawHi: number;
  readonly elLo: number;
  readonly elHi: number;
  readonly spanElLo: number;
  readonly spanElHi: number;
}

export interface Transducer {
  readonly options: Required<TransducerOptions>;
  readonly scale: Scale;
  /** Supply at the sensor, V: a ratiometric one follows it. */
  supplyV: number;
  /** Error that has come on since, beside the options' own, bar. */
  shiftBar: number;
  /** Wire broken: no current, no voltage; a digital one repeats its last word. */
  broken: boolean;
  /** Counts of a conversion dtS after the one before, at that true gauge pressure (bar). */
  sample(trueBar: number, dtS: number): number;
  /** Counts that a perfect sensor at nominal supply would give: for limits and tests. */
  countsAt(bar: number): number;
}

export function createTransducer(given: TransducerOptions, random: Random): Transducer {
  const options = { ...DEFAULTS, ...given };
  const { signal, rangeLoBar, rangeHiBar } = options;
  if (!(options.bits >= 8 && options.bits <= 24)) throw new RangeError('transducer bits must be 8-24');
  if (!(rangeHiBar > rangeLoBar)) throw new RangeError('transducer range must ascend');
  const span = rangeHiBar - rangeLoBar;
  const el =
    signal === 'digital'
      ? {
          lo: Math.round((rangeLoBar - 0.1 * span) * 1e5),
          hi: Math.round((rangeHiBar + 0.1 * span) * 1e5),
          spanLo: Math.round(rangeLoBar * 1e5),
          spanHi: Math.round(rangeHiBar * 1e5),
          floor: Math.round((rangeLoBar - 0.1 * span) * 1e5),
          top: Math.round((rangeHiBar + 0.1 * span) * 1e5),
        }
      : ELECTRICAL[signal];
  const rawHi = 2 ** options.bits - 1;
  const elPerBar = (el.spanHi - el.spanLo) / span;
  const noise = random.fork('noise');
  const spikes = random.fork('spikes');
  let lagged = Number.NaN;
  let wander = options.wanderBar * noise.normal();
  let untilSpikeS =
    options.spikesPerMin > 0 ? spikes.exponential(60 / options.spikesPerMin) : Number.POSITIVE_INFINITY;
  let last = 0;

  const electrical = (bar: number) => el.spanLo + (bar - rangeLoBar) * elPerBar;
  const count = (value: number) =>
    Math.min(rawHi, Math.max(0, Math.round(((value - el.lo) / (el.hi - el.lo)) * rawHi)));

  const transducer: Transducer = {
    options,
    scale: { rawLo: 0, rawHi, elLo: el.lo, elHi: el.hi, spanElLo: el.spanLo, spanElHi: el.spanHi },
    supplyV: NOMINAL_SUPPLY_V,
    broken: false,
    shiftBar: 0,
    sample(trueBar, dtS) {
      const { lagS } = options;
      lagged =
        Number.isNaN(lagged) || lagS <= 0
          ? trueBar
          : lagged + (trueBar - lagged) * (1 - Math.exp(-dtS / lagS));
      if (options.wanderBar > 0) {
        const keep = Math.exp(-dtS / options.wanderTauS);
        wander = wander * keep + options.wanderBar * Math.sqrt(1 - keep * keep) * noise.normal();
      }
      const x = (lagged - rangeLoBar) / span;
      let bar =
        options.offsetBar +
        transducer.shiftBar +
        options.gain * lagged +
        options.bowBar * 4 * x * (1 - x) +
        wander;
      if (options.noiseBar > 0) bar += options.noiseBar * noise.normal();
      untilSpikeS -= dtS;
      if (untilSpikeS <= 0) {
        bar += options.spikeBar * spikes.range(0.5, 1.5) * (spikes.chance(0.5) ? 1 : -1);
        untilSpikeS = spikes.exponential(60 / options.spikesPerMin);
      }
      if (transducer.broken) return signal === 'digital' ? last : 0;
      // The sensor's own electronics end a little outside its span.
      let value = Math.min(el.top, Math.max(el.floor, electrical(bar)));
      if (signal === 'ratio') value *= transducer.supplyV / NOMINAL_SUPPLY_V;
      last = count(value);
      return last;
    },
    countsAt: (bar) => count(electrical(bar)),
  };
  return transducer;
}
