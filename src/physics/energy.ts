/**
 * Energy of compressed gas and the push on a packer's end. Pressures in Pa absolute unless a name says gauge, volumes
 * in m³, energies in J.
 */

/** Atmospheric pressure that ASME PCC-2 takes, Pa absolute. */
export const PCC2_ATMOSPHERE = 101_000;

/**
 * Stored energy of a gas after ASME PCC-2, Article 501 (5.1), Appendix II: E = 2.5 · P · V · [1 − (Pa/P)^0.286], which
 * is the isentropic expansion of air (γ = 1.4). P is absolute. 0 at or under atmospheric pressure.
 */
export function storedEnergyPcc2(pAbs: number, volume: number, atmosphere = PCC2_ATMOSPHERE): number {
  return pAbs <= atmosphere ? 0 : 2.5 * pAbs * volume * (1 - (atmosphere / pAbs) ** 0.286);
}

/** Brode: (P2 − P1) · V / (γ − 1), the heat that brings the gas to P2 at constant volume: the highest of the forms. */
export function storedEnergyBrode(p2: number, volume: number, p1: number, gamma = 1.4): number {
  return ((p2 - p1) * volume) / (gamma - 1);
}

/** Isentropic expansion from P2 to P1: P2 · V / (γ − 1) · [1 − (P1/P2)^((γ−1)/γ)]. */
export function storedEnergyIsentropic(p2: number, volume: number, p1: number, gamma = 1.4): number {
  return ((p2 * volume) / (gamma - 1)) * (1 - (p1 / p2) ** ((gamma - 1) / gamma));
}

/** Isothermal expansion from P2 to P1: P2 · V · ln(P2/P1) (Crowl 2003). */
export function storedEnergyIsothermal(p2: number, volume: number, p1: number): number {
  return p2 * volume * Math.log(p2 / p1);
}

/** Push on one end of a packer that fills a pipe, N: gauge pressure (Pa) on the bore (diameter in m). */
export function endForce(gaugePa: number, diameter: number): number {
  return (gaugePa * Math.PI * diameter * diameter) / 4;
}
