import type { Place, Setup } from '../../job/setup.ts';
import type { Bounded } from '../events.ts';
import type { CureView } from '../view.ts';

/** A probe's last usable value, as the watch keeps it. */
export interface ProbeNow {
  readonly place: Place;
  readonly c: number;
  /** Expanded uncertainty, K. */
  readonly uC: number;
  /** Compared with a thermometer in the hand before mixing. */
  readonly checked: boolean;
}

export interface Coldest {
  /** Coldest credible temperature of the resin: middle, and the interval that the bounds use, °C. */
  readonly c: Bounded | null;
  readonly source: CureView['source'];
}

/**
 * Where no ground temperature is entered or measured: a drain's surroundings are rarely colder in frost-free
 * depth (common practice).
 */
export const COLD_GROUND_C = 4;

/**
 * The outside of the sleeve, on the wall, is the coldest resin. A probe on the sleeve's inside or in the packer's
 * air reads warmer: the truth lies between probe and ground. Midway was early in 0-4 % of simulated cures, the
 * ground's own temperature never; so the middle is midway, the low end is the ground, the high end the probe. A
 * probe on the pipe's wall is taken as it reads. Unchecked probes and unnamed places earn nothing above ground.
 */
export function coldest(probes: readonly ProbeNow[], ground: Setup['ground']): Coldest {
  const measured = probes.find((p) => p.place === 'ground' && p.checked);
  const groundC = measured?.c ?? ground?.c ?? COLD_GROUND_C;
  const groundU = measured?.uC ?? ground?.uC ?? 0;
  const known = measured !== undefined || ground !== null;
  const atGround: Coldest = {
    c: { value: groundC, low: groundC - groundU, high: groundC + groundU },
    source: known ? 'ground' : 'none',
  };
  // Of several probes the one that says the coldest is believed.
  let best: Coldest | null = null;
  for (const probe of probes) {
    if (probe.place === 'ground' || !probe.checked) continue;
    const one = byProbe(probe, groundC, groundU);
    if (best === null || one.c!.value < best.c!.value) best = one;
  }
  if (best === null) return known ? atGround : { c: null, source: 'none' };
  return best;
}

/** The coldest plausible temperature, for gaps and lost probes, °C. */
export function coldestPlausible(ground: Setup['ground']): number {
  return ground === null ? COLD_GROUND_C : ground.c - ground.uC;
}

function byProbe(probe: ProbeNow, groundC: number, groundU: number): Coldest {
  const low = probe.c - probe.uC;
  const high = probe.c + probe.uC;
  if (probe.place === 'pipe') return { c: { value: probe.c, low, high }, source: 'pipe' };
  const source = probe.place === 'air' ? 'air-model' : 'sleeve';
  const middle = Math.min(probe.c, (probe.c + groundC) / 2);
  return {
    c: { value: middle, low: Math.min(low, groundC - groundU), high: Math.max(middle, high) },
    source,
  };
}
