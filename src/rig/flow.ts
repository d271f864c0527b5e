/**
 * Air through a restriction after ISO 6358: a sonic conductance C and a critical pressure ratio b describe
 * valves, couplings and hoses alike. SI units throughout; pressures are absolute.
 */

/** Density of the ISO 6358 reference atmosphere (100 kPa, 20 °C, 65 % humidity), kg/m³. */
export const RHO0 = 1.185;
/** Temperature of the reference atmosphere, K. */
export const T0 = 293.15;
/** Specific gas constant of dry air, J/(kg·K). */
export const R_AIR = 287.055;
/** Specific heat of air at constant pressure and at constant volume near room temperature, J/(kg·K). */
export const CP_AIR = 1005;
export const CV_AIR = CP_AIR - R_AIR;

/** A restriction. */
export interface Restriction {
  /** Sonic conductance C, m³/(s·Pa); 1e-8 is 1 dm³/(s·bar). */
  readonly c: number;
  /** Critical pressure ratio b, 0..0.6. */
  readonly b: number;
}

/**
 * Above this pressure ratio the flow is taken as proportional to the pressure difference. The square root of the
 * subsonic law has an infinite slope at equal pressures, where real restrictions are laminar anyway.
 */
const LAMINAR = 0.998;

/** Result of a flow evaluation: kg/s from a to b, and its slopes against either pressure, kg/(s·Pa). */
export interface FlowResult {
  q: number;
  da: number;
  db: number;
}

/**
 * Mass flow from a to b, negative the other way.
 *
 * Upstream p1, downstream p2, r = p2/p1: `q = C·p1·ρ0·sqrt(T0/T1)` where r <= b (choked), and that times
 * `sqrt(1 − ((r − b)/(1 − b))²)` above. Source: ISO 6358-1. Range: p > 0, 0 <= b < 1.
 *
 * @param c sonic conductance, m³/(s·Pa); 0 closes the restriction
 * @param pa @param pb absolute pressures, Pa
 * @param ta @param tb gas temperatures on either side, K (the upstream one counts)
 * @param out written in place: this runs a thousand times a fill
 */
export function isoFlow(
  c: number,
  b: number,
  pa: number,
  pb: number,
  ta: number,
  tb: number,
  out: FlowResult,
): void {
  if (c <= 0) {
    out.q = 0;
    out.da = 0;
    out.db = 0;
    return;
  }
  const forward = pa >= pb;
  const p1 = forward ? pa : pb;
  const p2 = forward ? pb : pa;
  const k = c * RHO0 * Math.sqrt(T0 / (forward ? ta : tb));
  const r = p2 / p1;
  let phi = 1;
  let slope = 0;
  if (r >= LAMINAR) {
    const u = (LAMINAR - b) / (1 - b);
    const edge = Math.sqrt(1 - u * u);
    slope = -edge / (1 - LAMINAR);
    phi = -slope * (1 - r);
  } else if (r > b) {
    const u = (r - b) / (1 - b);
    phi = Math.sqrt(1 - u * u);
    slope = -u / (phi * (1 - b));
  }
  const q = k * p1 * phi;
  const d1 = k * (phi - r * slope);
  const d2 = k * slope;
  if (forward) {
    out.q = q;
    out.da = d1;
    out.db = d2;
  } else {
    out.q = -q;
    out.da = -d2;
    out.db = -d1;
  }
}

/**
 * A smooth hose or tube as a restriction: `C = 0.029·d²/sqrt(L/d^1.25 + 510)`, `b = 474·C/d²`, d and L in metres
 * (an engineering approximation for pneumatic tubing; constants from memory). Range: d 2-20 mm, L 0.1-100 m.
 */
export function hoseRestriction(innerMm: number, lengthM: number): Restriction {
  const d = innerMm / 1000;
  const c = (0.029 * d * d) / Math.sqrt(lengthM / d ** 1.25 + 510);
  return { c, b: Math.min(0.5, (474 * c) / (d * d)) };
}
