import type { ResinSetup } from '../../job/setup.ts';
import { ageFactor } from '../../physics/cure.ts';

/**
 * Cure time against temperature from the points of a data sheet: ln t = a + Ea/R · (1/T − 1/Tm), weighted least
 * squares with a prior on the activation energy, so that one or two points still have honest bounds.
 *
 * Prior: Ea = 60 ± 10 kJ/mol (1 s), that is 40-80 kJ/mol as 95 %. Redox-cured unsaturated polyesters lie at 40-60
 * kJ/mol (J. Appl. Polym. Sci. 102, 2006, 1870, abstract); epoxies somewhat higher. 'Doubling per 10 °C' is 48-51
 * kJ/mol and not conservative in the cold. Pot life depends on the mass in the cup and never enters.
 */
export interface SheetFit {
  /** Weighted mean of 1/T of the points, 1/K: there level and slope are independent. */
  readonly centre: number;
  /** ln(minutes) at the centre, and its variance. */
  readonly logMin: number;
  readonly varLog: number;
  /** Ea/R, K, and its variance. */
  readonly slope: number;
  readonly varSlope: number;
  /** Under this there is no credit, °C. */
  readonly lowestC: number;
  /** The hottest point, °C. */
  readonly hottestC: number;
  /** What the sheet's times end with; the fit's times do the same. */
  readonly criterion: ResinSetup['criterion'];
}

/** Molar gas constant, J/(mol·K), CODATA 2018 (exact). */
export const GAS_R = 8.314462618;
export const ZERO_C = 273.15;
const EA_PRIOR = 60e3 / GAS_R;
const EA_SD = 10e3 / GAS_R;
/** A maker's own times scatter by this much (1 s, common practice) ... */
const SCATTER = 0.03;
/** ... and are printed as round numbers: steps of minutes that are looked for in the table. */
const ROUND_TO = [60, 30, 20, 15, 10, 5] as const;
/** A single '60 min' is no proof of rounding to hours: the step is taken as no more than this share of a time. */
const COARSEST = 1 / 8;
/** Weight of the belief that scatter is as stated, in degrees of freedom, against what the points themselves say. */
const BELIEF = 4;
/** The lower bound earns no more than at this much over the hottest point: no sheet speaks of such heat, K. */
const OVER_HOTTEST_K = 10;

/** Standard uncertainty of the logarithm of each time. */
function roundingOf(minutes: readonly number[]): number[] {
  const step = ROUND_TO.find((r) => minutes.every((m) => m % r === 0)) ?? 1;
  return minutes.map((m) => Math.hypot(SCATTER, Math.min(step, m * COARSEST) / m / Math.sqrt(12)));
}

/** null where the sheet gives no usable point. */
export function fitSheet(resin: ResinSetup): SheetFit | null {
  const points = resin.points.filter(
    (p) => p.minutes > 0 && Number.isFinite(p.minutes) && Number.isFinite(p.c) && p.c > -ZERO_C,
  );
  if (points.length === 0) return null;
  const n = points.length;
  const x = points.map((p) => 1 / (p.c + ZERO_C));
  const y = points.map((p) => Math.log(p.minutes));
  const w = roundingOf(points.map((p) => p.minutes)).map((u) => 1 / (u * u));
  let sw = 0;
  let swx = 0;
  let swy = 0;
  for (let i = 0; i < n; i++) {
    sw += w[i]!;
    swx += w[i]! * x[i]!;
    swy += w[i]! * y[i]!;
  }
  const centre = swx / sw;
  const logMin = swy / sw;
  let sxx = 0;
  let sxy = 0;
  for (let i = 0; i < n; i++) {
    const dx = x[i]! - centre;
    sxx += w[i]! * dx * dx;
    sxy += w[i]! * dx * (y[i]! - logMin);
  }
  const prior = 1 / (EA_SD * EA_SD);
  const posterior = (inflate: number) => {
    const precision = sxx / inflate + prior;
    return { slope: (sxy / inflate + EA_PRIOR * prior) / precision, varSlope: 1 / precision };
  };
  // Points that lie off the line more than scatter and rounding explain widen everything.
  let inflate = 1;
  if (n > 2) {
    const { slope } = posterior(1);
    let chi2 = 0;
    for (let i = 0; i < n; i++) chi2 += w[i]! * (y[i]! - logMin - slope * (x[i]! - centre)) ** 2;
    inflate = Math.max(1, (BELIEF + chi2) / (BELIEF + n - 2));
  }
  const cs = points.map((p) => p.c);
  return {
    centre,
    logMin,
    varLog: inflate / sw,
    ...posterior(inflate),
    lowestC: resin.lowestC ?? Math.min(...cs),
    hottestC: Math.max(...cs),
    criterion: resin.criterion,
  };
}

/**
 * Minutes to the sheet's criterion at c °C, moved by k standard deviations: k = 2 waits longer, −2 is the hopeful
 * end, 0 the middle. `sdC` is the standard uncertainty of the temperature, K: independent of the fit's, so the two
 * are combined in quadrature (GUM). Infinity below the sheet's lowest temperature.
 */
export function cureMinutes(fit: SheetFit, c: number, k: number, sdC = 0): number {
  if (c < fit.lowestC) return Number.POSITIVE_INFINITY;
  const t = (k > 0 ? Math.min(c, fit.hottestC + OVER_HOTTEST_K) : c) + ZERO_C;
  const dx = 1 / t - fit.centre;
  const perK = fit.slope / (t * t);
  const sd = Math.sqrt(fit.varLog + dx * dx * fit.varSlope + perK * perK * sdC * sdC);
  return Math.exp(fit.logMin + fit.slope * dx + k * sd);
}

/** The middle alone, on beyond both ends of the sheet too: of a cup, which earns nothing. */
export function minutesAt(fit: SheetFit, c: number): number {
  return Math.exp(fit.logMin + fit.slope * (1 / (c + ZERO_C) - fit.centre));
}

/**
 * Rate of equivalent age at 20 °C, exp[Q(1/Tr − 1/T)] with Q = Ea/R: the form of ASTM C1074, which is written for
 * concrete. Dimensionless.
 */
export function ageRate(qK: number, c: number, referenceC = 20): number {
  return ageFactor(qK, c + ZERO_C, referenceC + ZERO_C);
}
