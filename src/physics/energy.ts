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

/** Push on one end of a packer that fills a pipe, N: gauge pressure (Pa) on the bore (diameter in m). */
export function endForce(gaugePa: number, diameter: number): number {
  return (gaugePa * Math.PI * diameter * diameter) / 4;
}
