import { AIR_TESTS, type AirTestMethod } from './codes.ts';
import { TYPICAL_PER_K, warmthBarPerK } from './sensor-warmth.ts';
import type { AirTestSetup, ChannelSetup } from './setup.ts';

/**
 * Air test of the finished repair: pressures, times and allowed drop by the method, and what a sensor's difference of two
 * readings is worth. EN 1610 is written for new pipelines (owners borrow it), ASTM F1417 for installed plastic gravity pipe.
 * The plan, the watch and whoever verifies a record go by these same numbers: none of them stands in a Setup.
 */

export type En1610Method = 'LA' | 'LB' | 'LC' | 'LD';
export const AIR_TEST_METHODS = AIR_TESTS.filter((m) => m !== 'none');
export type { AirTestMethod, AirTestSetup };

/** Gauge pressures in bar, times in s. */
export interface AirTestSpec {
  /** The drop is timed from here. */
  readonly startBar: number;
  /** Brought up to this first and left to stabilise. */
  readonly initialBar: number;
  readonly stabiliseS: number;
  /** Never above. */
  readonly mostBar: number;
  readonly seconds: number;
  /** Allowed drop. */
  readonly dropBar: number;
  /** At the test pressure, valve shut, before the time begins: the air takes the wall's temperature again. */
  readonly settleS: number;
}

/** Test pressure and allowed drop, mbar (EN 1610 Table 3, values from memory). */
const EN1610: { readonly [M in En1610Method]: readonly [p0: number, drop: number] } = {
  LA: [10, 2.5],
  LB: [50, 10],
  LC: [100, 15],
  LD: [200, 15],
};
/** Over 0.058 the table's coefficient does not go. */
const KP_CAP = 0.058;
/** First brought to a tenth more, and held there for about five minutes (EN 1610, 13.2, from memory). */
const EN1610_OVER = 1.1;
const EN1610_STABILISE_S = 300;

export const BAR_PER_PSI = 0.068_947_572_931_7;
/**
 * F1417 brings the pipe to 4 psi over groundwater, waits two minutes, and times a drop of 0.5 psi from 3.5 psi (values
 * from memory).
 */
const F1417 = { initialPsi: 4, startPsi: 3.5, dropPsi: 0.5, stabiliseS: 120 } as const;
/** No more than this is put on plugs, whatever the groundwater (ASTM F1417: 9 psi; value from memory). */
export const PLUGS_MOST_BAR = 9 * BAR_PER_PSI;
/** So far over the first pressure a hand may come: a share of the test pressure, and bar (common practice, no source). */
const MOST_SHARE = 0.1;
const MOST_OVER_BAR = 0.004;
/** A second of settling for so many mm of pipe: air in a wider one takes the wall's temperature slower, s. */
const SETTLE_MM_S = 7;
const SETTLE = { leastS: 20, mostS: 120 } as const;

/** Kp of EN 1610: 12/DN (16/DN for dry concrete) with its cap. DN in mm. */
export const en1610Kp = (dn: number, dryConcrete = false): number =>
  Math.min(KP_CAP, (dryConcrete ? 16 : 12) / dn);

/**
 * Test time of EN 1610 in min: t = ln(p0 / (p0 − Δp)) / Kp, rounded as the table is: to half a minute up to five, else to
 * a minute. DN in mm, 50-3000.
 */
export function en1610Minutes(method: En1610Method, dn: number, dryConcrete = false): number {
  const [p0, drop] = EN1610[method];
  const t = Math.log(p0 / (p0 - drop)) / en1610Kp(dn, dryConcrete);
  return t <= 5 ? Math.round(t * 2) / 2 : Math.round(t);
}

/**
 * Test time of ASTM F1417 in s for a drop of 0.5 psi: half of T = 0.085 · D · K / Q with Q = 0.0015 and
 * K = max(1, 0.000419 · D · L). D in inches, L in feet. (Formula from memory; it reproduces the standard's table.)
 */
export function f1417Seconds(diameterIn: number, lengthFt: number): number {
  const k = Math.max(1, 0.000_419 * diameterIn * lengthFt);
  return (0.5 * 0.085 * diameterIn * k) / 0.0015;
}

/** The numbers of the test; null where the method asks for a length that is not known. */
export function airTestSpec({ method, mm, lengthM, headBar }: AirTestSetup): AirTestSpec | null {
  const settleS = Math.min(SETTLE.mostS, Math.max(SETTLE.leastS, mm / SETTLE_MM_S));
  if (method === 'F1417') {
    if (lengthM === null) return null;
    const head = headBar ?? 0;
    const initialBar = F1417.initialPsi * BAR_PER_PSI + head;
    return {
      startBar: F1417.startPsi * BAR_PER_PSI + head,
      initialBar,
      stabiliseS: F1417.stabiliseS,
      mostBar: Math.min(PLUGS_MOST_BAR, initialBar + F1417.dropPsi * BAR_PER_PSI),
      seconds: f1417Seconds(mm / 25.4, lengthM / 0.3048),
      dropBar: F1417.dropPsi * BAR_PER_PSI,
      settleS,
    };
  }
  const [p0, drop] = EN1610[method];
  const startBar = p0 / 1000;
  const initialBar = EN1610_OVER * startBar;
  return {
    startBar,
    initialBar,
    stabiliseS: EN1610_STABILISE_S,
    mostBar: initialBar + Math.max(MOST_OVER_BAR, MOST_SHARE * startBar),
    // Wet concrete counts as the others do, and whether it is wet is not known: the longer time is taken.
    seconds: en1610Minutes(method, mm) * 60,
    dropBar: drop / 1000,
    settleS,
  };
}

/** Groundwater asks for more than plugs may hold. */
export const isOverPlugs = ({ initialBar, mostBar }: AirTestSpec): boolean => initialBar > mostBar;

/** Share of the allowed drop that the sensor's expanded uncertainty may be (EN 1610: 10 % of Δp, from memory). */
export const U_SHARE = 0.1;

/** The sensor's own warmth may change by so much a minute of a test, and by so much in any, K (common practice, no source). */
const WARMTH_K_MIN = 0.2;
const WARMTH_LEAST_K = 0.4;
const WARMTH_MOST_K = 2;
const warmthK = (seconds: number): number =>
  Math.min(WARMTH_MOST_K, Math.max(WARMTH_LEAST_K, (WARMTH_K_MIN * seconds) / 60));

/** What of a sensor's slope may be off beside its stated accuracy: a bow makes it steeper here than there (common practice, no source). */
const SLOPE_SHARE = 0.01;
/** What its supply may change by within a test, share: read beside it, and not (common practice, no source). */
const SUPPLY = { read: 0.0002, unread: 0.001 } as const;

const R3 = Math.sqrt(3);
const R6 = Math.sqrt(6);

type Reads = Pick<
  ChannelSetup,
  | 'signal'
  | 'bits'
  | 'rawLo'
  | 'rawHi'
  | 'elLo'
  | 'elHi'
  | 'spanElLo'
  | 'spanElHi'
  | 'rangeLo'
  | 'rangeHi'
  | 'uSensor'
> &
  Partial<Pick<ChannelSetup, 'perKelvin' | 'calibration'>>;

/** bar a unit of the signal. */
const slopeOf = (ch: Reads): number => (ch.rangeHi - ch.rangeLo) / (ch.spanElHi - ch.spanElLo);

/** One step of the converter, bar. */
function stepBar(ch: Reads): number {
  const codes = Math.min(Math.abs(ch.rawHi - ch.rawLo), 2 ** ch.bits);
  return Math.abs((slopeOf(ch) * (ch.elHi - ch.elLo) * (ch.calibration?.gain ?? 1)) / codes);
}

/**
 * Expanded uncertainty (k = 2) of the difference of two readings of one sensor within a test, bar: resolution at both ends, its
 * own warmth between them, its slope over the drop, its supply. Its zero and its calibration's offset cancel. Noise and the air's
 * temperature are none of the sensor's (JCGM 100; the components are taken as independent).
 */
export function differenceU(
  ch: Reads,
  { seconds, startBar, dropBar }: AirTestSpec,
  supplied: boolean,
): number {
  const span = Math.abs(ch.rangeHi - ch.rangeLo);
  const slope = SLOPE_SHARE + (ch.calibration == null ? ch.uSensor / span : 0);
  // A ratiometric reading follows its supply with all that it stands over its own zero signal.
  const overZero = startBar - (ch.rangeLo - slopeOf(ch) * ch.spanElLo);
  const supply = ch.signal === 'ratio' ? overZero * (supplied ? SUPPLY.read : SUPPLY.unread) : 0;
  const u = Math.hypot(
    stepBar(ch) / R6,
    (warmthBarPerK(ch) * warmthK(seconds)) / R3,
    (slope * dropBar) / R3,
    supply / R3,
  );
  return 2 * u;
}

/** What sensor would do for a test: the widest span of a usual one, and the coarsest step, bar. */
export function sensorFor({ seconds, dropBar }: AirTestSpec): {
  readonly spanBar: number;
  readonly stepBar: number;
} {
  // Four fifths of what is allowed for its warmth, half of it for its resolution: together with its slope they fill it.
  const u = (U_SHARE * dropBar) / 2;
  return {
    spanBar: (0.8 * u * R3) / (TYPICAL_PER_K * warmthK(seconds)),
    stepBar: 0.5 * u * R6,
  };
}
