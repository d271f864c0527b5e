/** Cups as crews make them: the same vessel from job to job, never quite as full, in other air. The judge knows none of it. */
import type { CupOptions } from '../../src/rig/cup.ts';
import type { Kinetics } from '../../src/rig/cure.ts';
import type { Random } from '../../src/rig/random.ts';

/** A cup, and how full it was made. */
export interface Poured extends CupOptions {
  readonly massG: number;
}

/** What stays the same from job to job: the crew's own vessel, how full it is made, and the resin's heat. */
export interface Usual {
  readonly massG: number;
  readonly vessel: number;
  readonly heat: number;
}

export const drawUsual = (r: Random): Usual => ({
  massG: r.range(100, 400),
  vessel: r.logRange(0.65, 1.5),
  heat: r.range(1.1, 1.5),
});

export function drawCup(r: Random, usual: Usual, kinetics: Kinetics, slow: number, potC: number): Poured {
  const massG = usual.massG * r.range(0.85, 1.15);
  return {
    kinetics,
    slow,
    massG,
    potC,
    airC: r.range(8, 18),
    tauS: 2200 * Math.cbrt(massG / 200) * usual.vessel * r.logRange(0.9, 1.1),
    heat: usual.heat,
    draught: r.chance(0.2) ? { atS: r.range(0, 3600), share: r.range(0.5, 0.9) } : null,
  };
}
