import type { ResinSetup } from '../../job/setup.ts';
import { ageFactor } from '../../physics/cure.ts';
import { R_MOLAR } from '../../physics/gas.ts';

/**
 * Cure time against temperature from the points of a data sheet: ln t = a + Ea/R · (1/T − 1/Tm), least squares
 * with a prior on the activation energy, so that one or two points still have honest bounds.
 *
 * Prior: Ea = 60 ± 10 kJ/mol (1 s), that is 40-80 kJ/mol as 95 %. Redox-cured unsaturated polyesters lie at 40-60
 * kJ/mol (J. Appl. Polym. Sci. 102, 2006, 1870, abstract); epoxies somewhat higher. 'Doubling per 10 °C' is 48-51
 * kJ/mol and not conservative in the cold.
 */
export interface SheetFit {
  /** Mean of 1/T of the points, 1/K. */
  readonly centre: number;
  /** ln(minutes) at the centre, and its variance. */
  readonly logMin: number;
  readonly varLog: number;
  /** Ea/R, K, and its variance. */
  readonly slope: number;
  readonly varSlope: number;
  /** Under this there is no credit, °C. */
  readonly lowestC: number;
  /** The hottest point, °C: over it the lower bound earns no more. */
  readonly hottestC: number;
}

const EA_PRIOR = 60e3 / R_MOLAR;
const EA_SD = 10e3 / R_MOLAR;
/** A sheet's times are round numbers: 3 % (1 s). */
const ROUNDING = 0.03;
const ZERO_C = 273.15;

/** null where the sheet gives no usable point. */
export function fitSheet(resin: ResinSetup): SheetFit | null {
  const points = resin.points.filter((p) => p.minutes > 0 && Number.isFinite(p.c) && p.c > -ZERO_C);
  if (points.length === 0) return null;
  const n = points.length;
  const x = points.map((p) => 1 / (p.c + ZERO_C));
  const y = points.map((p) => Math.log(p.minutes));
  const centre = x.reduce((a, b) => a + b, 0) / n;
  const meanY = y.reduce((a, b) => a + b, 0) / n;
  let sxx = 0;
  let sxy = 0;
  for (let i = 0; i < n; i++) {
    const dx = x[i]! - centre;
    sxx += dx * dx;
    sxy += dx * (y[i]! - meanY);
  }
  let variance = ROUNDING * ROUNDING;
  const posterior = () => {
    const precision = sxx / variance + 1 / (EA_SD * EA_SD);
    return { slope: (sxy / variance + EA_PRIOR / (EA_SD * EA_SD)) / precision, varSlope: 1 / precision };
  };
  // Points that lie off the line more than rounding explains widen everything.
  if (n > 2) {
    const { slope } = posterior();
    let rss = 0;
    for (let i = 0; i < n; i++) {
      const r = y[i]! - meanY - slope * (x[i]! - centre);
      rss += r * r;
    }
    variance = Math.max(variance, rss / (n - 2));
  }
  const { slope, varSlope } = posterior();
  const cs = points.map((p) => p.c);
  return {
    centre,
    logMin: meanY,
    varLog: variance / n,
    slope,
    varSlope,
    lowestC: resin.lowestC ?? Math.min(...cs),
    hottestC: Math.max(...cs),
  };
}

/**
 * Minutes to the sheet's criterion at a temperature, moved by k standard deviations of the fit: k = 2 waits
 * longer, k = −2 is the hopeful end, 0 the middle. Infinity below the sheet's lowest temperature.
 */
export function cureMinutes(fit: SheetFit, c: number, k: number): number {
  if (c < fit.lowestC) return Number.POSITIVE_INFINITY;
  const dx = 1 / ((k > 0 ? Math.min(c, fit.hottestC) : c) + ZERO_C) - fit.centre;
  const sd = Math.sqrt(fit.varLog + dx * dx * fit.varSlope);
  return Math.exp(fit.logMin + fit.slope * dx + k * sd);
}

/** Rate of equivalent age at 20 °C, dimensionless; qK = Ea/R, the form of ASTM C1074, which is written for concrete. */
export function ageRate(qK: number, c: number): number {
  return ageFactor(qK, c + ZERO_C, 20 + ZERO_C);
}
