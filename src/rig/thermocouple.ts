/** Thermocouples as wires in the field: emf against a junction, lag, and the ways in which they are wired wrong. */
import type { THERMOCOUPLE_SIGNALS } from '../link/frames.ts';
import type { Random } from './random.ts';

export type CoupleType = keyof typeof THERMOCOUPLE_SIGNALS;
export type Wiring = 'right' | 'open' | 'shorted' | 'reversed';

/**
 * Emf against 0 °C in µV, every 10 °C from −60 to 240 °C, as the NIST ITS-90 tables (SRD 60, Monograph 175)
 * print it. The rig interpolates these on purpose: the program's own reference functions are not used here.
 */
const FIRST_C = -60;
const EMF_UV: Readonly<Record<CoupleType, readonly number[]>> = {
  K: [
    -2243, -1889, -1527, -1156, -778, -392, 0, 397, 798, 1203, 1612, 2023, 2436, 2851, 3267, 3682, 4096, 4509,
    4920, 5328, 5735, 6138, 6540, 6941, 7340, 7739, 8138, 8539, 8940, 9343, 9747,
  ],
  J: [
    -2893, -2431, -1961, -1482, -995, -501, 0, 507, 1019, 1537, 2059, 2585, 3116, 3650, 4187, 4726, 5269,
    5814, 6360, 6909, 7459, 8010, 8562, 9115, 9669, 10224, 10779, 11334, 11889, 12445, 13000,
  ],
  T: [
    -2153, -1819, -1475, -1121, -757, -383, 0, 391, 790, 1196, 1612, 2036, 2468, 2909, 3358, 3814, 4279, 4750,
    5228, 5714, 6206, 6704, 7209, 7720, 8237, 8759, 9288, 9822, 10362, 10907, 11458,
  ],
  N: [
    -1509, -1269, -1023, -772, -518, -260, 0, 261, 525, 793, 1065, 1340, 1619, 1902, 2189, 2480, 2774, 3072,
    3374, 3680, 3989, 4302, 4618, 4937, 5259, 5585, 5913, 6245, 6579, 6916, 7255,
  ],
  E: [
    -3306, -2787, -2255, -1709, -1152, -582, 0, 591, 1192, 1801, 2420, 3048, 3685, 4330, 4985, 5648, 6319,
    6998, 7685, 8379, 9081, 9789, 10503, 11224, 11951, 12684, 13421, 14164, 14912, 15664, 16420,
  ],
};

/** µV of a couple between that temperature and 0 °C: cubic through the four nearest table points. −50..230 °C. */
export function emfUv(type: CoupleType, c: number): number {
  const table = EMF_UV[type];
  const x = (c - FIRST_C) / 10;
  const i = Math.min(table.length - 3, Math.max(1, Math.floor(x)));
  const f = x - i;
  const a = table[i - 1]!;
  const b = table[i]!;
  const d = table[i + 1]!;
  const e = table[i + 2]!;
  return (
    (-a * f * (f - 1) * (f - 2)) / 6 +
    (b * (f + 1) * (f - 1) * (f - 2)) / 2 -
    (d * (f + 1) * f * (f - 2)) / 2 +
    (e * (f + 1) * f * (f - 1)) / 6
  );
}

export interface CoupleOptions {
  /** What the wire is made of. */
  readonly type?: CoupleType;
  /** What the device believes it is; a wrong type is a fault of its own. Default: the same. */
  readonly declared?: CoupleType;
  readonly wiring?: Wiring;
  /** Response of the tip, s. 1-60. */
  readonly lagS?: number;
  /** Error of this wire at its tip, K at 100 K over the junction (grows with the difference). */
  readonly gainErrorK?: number;
  readonly offsetK?: number;
  /** Noise of a conversion, µV (standard deviation). */
  readonly noiseUv?: number;
  /** Converter bits over ±80 mV. 16-24. */
  readonly bits?: number;
}

export interface Couple {
  readonly declared: CoupleType;
  readonly scale: {
    readonly rawLo: number;
    readonly rawHi: number;
    readonly elLo: number;
    readonly elHi: number;
  };
  readonly bits: number;
  wiring: Wiring;
  /** Counts of a conversion dtS after the one before; tip and junction in °C. */
  sample(tipC: number, junctionC: number, dtS: number): number;
}

/** Converter's range, nV. An open couple is pulled to its top. */
const HALF_NV = 80_000_000;

export function createCouple(options: CoupleOptions, random: Random): Couple {
  const type = options.type ?? 'K';
  const bits = options.bits ?? 19;
  const lagS = options.lagS ?? 6;
  const noiseUv = options.noiseUv ?? 2;
  const noise = random.fork('couple');
  const rawHi = 2 ** (bits - 1) - 1;
  let tip = Number.NaN;
  const couple: Couple = {
    declared: options.declared ?? type,
    scale: { rawLo: -rawHi, rawHi, elLo: -HALF_NV, elHi: HALF_NV },
    bits,
    wiring: options.wiring ?? 'right',
    sample(tipC, junctionC, dtS) {
      tip = Number.isNaN(tip) || lagS <= 0 ? tipC : tip + (tipC - tip) * (1 - Math.exp(-dtS / lagS));
      const seen = tip + (options.offsetK ?? 0) + ((options.gainErrorK ?? 0) * (tip - junctionC)) / 100;
      const right = emfUv(type, seen) - emfUv(type, junctionC);
      const sign = couple.wiring === 'reversed' ? -1 : couple.wiring === 'shorted' ? 0 : 1;
      const uv = couple.wiring === 'open' ? HALF_NV / 1000 : sign * right + noiseUv * noise.normal();
      return Math.max(-rawHi, Math.min(rawHi, Math.round(((uv * 1000) / HALF_NV) * rawHi)));
    },
  };
  return couple;
}
