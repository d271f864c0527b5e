import type { Heating, PipeSetup, Place, Setup } from '../../job/setup.ts';
import type { Bounded } from '../events.ts';
import type { CureView } from '../view.ts';
import { createObserver, faceC, type Observer, observe } from './observer.ts';

/** A probe's last usable value, as the watch keeps it. */
export interface ProbeNow {
  readonly place: Place;
  readonly c: number;
  /** Expanded uncertainty, K. */
  readonly uC: number;
  /** Compared with a thermometer in the hand before mixing. */
  readonly checked: boolean;
}

/** A temperature with its standard uncertainty. */
export interface Estimate {
  readonly c: number;
  readonly sd: number;
}

export interface Coldest {
  /** Coldest credible temperature of the resin: middle, and its 95 % interval, °C. */
  readonly c: Bounded | null;
  /** Outermost resin where the pipe is dry. */
  readonly dry: Estimate | null;
  /** At a defect where groundwater may seep in; null where it cannot. */
  readonly wet: Estimate | null;
  readonly water: Water;
  /**
   * Ground temperature and what the probe has risen since its coldest: a lower bound that no error of the probe's
   * level touches, since nothing in the pipe is colder than the ground. null where the probe says otherwise.
   */
  readonly floor: Estimate | null;
  /** Ground temperature in use. */
  readonly ground: Estimate;
  readonly source: CureView['source'];
}

/**
 * Water at the defect: 'none' cannot come in; 'weep': as much as a camera may have missed; 'flow': nothing is known
 * against it, or it was seen.
 */
export type Water = 'none' | 'weep' | 'flow';

/** Coldest that one kind of probe has said, °C, since it (or the model behind it) began anew. */
export interface Least {
  source: CureView['source'];
  sinceUs: number;
  c: number;
}

/** Observers behind the probes that sit further in than the coldest resin. Plain data. */
export interface Watched {
  readonly place: 'sleeve' | 'air';
  readonly pipe: PipeSetup | null;
  readonly heating: Heating;
  readonly likely: Observer;
  readonly cold: Observer;
}

/**
 * Where no ground temperature is entered or measured: a drain's surroundings are rarely colder in frost-free
 * depth (common practice).
 */
export const COLD_GROUND_C = 4;
/** What placing a probe by hand leaves open, 1 s, K: contact, crown or invert (common practice). */
const PLACING_K = 0.4;
/** Groundwater at a defect against the ground's temperature, 1 s, K. */
const WATER_K = 0.5;
/**
 * Of what the sleeve is warmer than the ground, this much is left where a weep comes in that a camera missed: ten drops a
 * second on a tenth of a square metre take 20 W/(m²·K), twice what pipe and ground take ...
 */
const WEEP_SHARE = 1 / 3;
/** ... and never more than this, K: the heat of a strong reaction does not come where it is kept cool. */
const WEEP_MOST_K = 2;
const K = 2;

interface Ground extends Estimate {
  readonly known: boolean;
}

function groundOf(probes: readonly ProbeNow[], ground: Setup['ground']): Ground {
  let best: ProbeNow | null = null;
  for (const p of probes) if (p.place === 'ground' && p.checked && (best === null || p.c < best.c)) best = p;
  if (best !== null) return { c: best.c, sd: Math.hypot(best.uC / 2, PLACING_K), known: true };
  if (ground !== null) return { c: ground.c, sd: ground.uC / 2, known: true };
  return { c: COLD_GROUND_C, sd: 0, known: false };
}

/**
 * What the eye saw running is believed whatever level was typed. Else groundwater under the invert cannot seep in; where
 * its level is not known or above, it may. None seen on a camera at the time of planning is no proof of a dry wall
 * through the hold, so that a weep is still taken to be there.
 */
export function waterAt(setup: Setup | null): Water {
  const seen = setup?.infiltration ?? 'not-looked';
  if (seen === 'dripping' || seen === 'running') return 'flow';
  if ((setup?.limits?.headBar ?? null) === 0) return 'none';
  return seen === 'none' ? 'weep' : 'flow';
}

/** Resin at the defect: at the ground's temperature where water flows, a little above it where it weeps at most. */
export function wetAt(water: Water, ground: Estimate, dry: Estimate): Estimate | null {
  if (water === 'none') return null;
  const rise = water === 'flow' ? 0 : Math.max(0, dry.c - ground.c);
  const share = rise > 0 ? WEEP_SHARE : 0;
  return {
    c: ground.c + Math.min(WEEP_MOST_K, share * rise),
    sd: Math.hypot(ground.sd, share * dry.sd, WATER_K),
  };
}

/** A Setup of before it was asked was judged as one whose packer nothing warms. */
export const heatingOf = (setup: Setup | null): Heating => setup?.heating ?? 'none';

/** Lets the observers go on by dt seconds; those whose probe is gone are dropped, new ones are made. */
export function watchOn(
  watched: readonly Watched[],
  probes: readonly ProbeNow[],
  setup: Setup | null,
  dt: number,
): Watched[] {
  const out: Watched[] = [];
  const ground = groundOf(probes, setup?.ground ?? null);
  const pipe = setup?.pipe ?? null;
  const heating = heatingOf(setup);
  for (const place of ['sleeve', 'air'] as const) {
    const probe = coldestAt(probes, place);
    if (probe === null) continue;
    let one = watched.find((w) => w.place === place) ?? null;
    // Another pipe or heat is another observer: it begins with the wall at ground temperature again, which is cold.
    if (one === null || one.heating !== heating || !samePipe(one.pipe, pipe)) {
      const make = (corner: 'likely' | 'cold') =>
        createObserver(pipe, place, corner, probe.c, ground.c, heating);
      one = { place, pipe, heating, likely: make('likely'), cold: make('cold') };
    } else {
      observe(one.likely, dt, probe.c, ground.c);
      observe(one.cold, dt, probe.c, ground.c);
    }
    out.push(one);
  }
  return out;
}

function floorOf(ground: Ground, dry: Estimate, spread: number, leastC: number): Estimate | null {
  if (!ground.known || dry.c < ground.c) return null;
  const rise = Math.max(0, Math.min(dry.c - leastC, dry.c - ground.c));
  return { c: ground.c + rise, sd: Math.hypot(ground.sd, spread, PLACING_K) };
}

function coldestAt(probes: readonly ProbeNow[], place: Place): ProbeNow | null {
  let best: ProbeNow | null = null;
  for (const p of probes) if (p.place === place && p.checked && (best === null || p.c < best.c)) best = p;
  return best;
}

function samePipe(a: PipeSetup | null, b: PipeSetup | null): boolean {
  if (a === null || b === null) return a === b;
  return (
    a.innerMm === b.innerMm && a.wallMm === b.wallMm && a.material === b.material && a.sleeveMm === b.sleeveMm
  );
}

/**
 * The outside of the sleeve, on the wall, is the coldest resin. A probe on the pipe's wall is taken as it reads;
 * behind one on the sleeve's inside or in the packer's air the observers' outer face is taken, and half of what
 * lies between the likely and the cold one is its uncertainty. Of several probes the one that says the coldest is
 * believed, and a probe colder than the ground is. Unchecked probes and unnamed places earn nothing above ground.
 */
export function coldest(
  watched: readonly Watched[],
  probes: readonly ProbeNow[],
  setup: Setup | null,
  least: Least,
): Coldest {
  const ground = groundOf(probes, setup?.ground ?? null);
  const water = waterAt(setup);
  let dry: Estimate | null = null;
  let spread = 0;
  let source: Coldest['source'] = 'none';
  const pipe = coldestAt(probes, 'pipe');
  if (pipe !== null) {
    dry = { c: pipe.c, sd: Math.hypot(pipe.uC / 2, PLACING_K) };
    source = 'pipe';
  }
  for (const one of watched) {
    const probe = coldestAt(probes, one.place);
    if (probe === null) continue;
    // A probe that is colder than its model is believed: no credit for resin warmer than what it reads.
    const c = Math.min(faceC(one.likely), probe.c);
    if (dry !== null && dry.c <= c) continue;
    spread = Math.max(0, c - faceC(one.cold)) / 2;
    dry = { c, sd: Math.hypot(probe.uC / 2, spread, PLACING_K) };
    source = one.place === 'air' ? 'air-model' : 'sleeve';
  }
  if (dry === null) {
    if (!ground.known) return { c: null, dry: null, wet: null, water, floor: null, ground, source: 'none' };
    dry = { c: ground.c, sd: ground.sd };
    source = 'ground';
  }
  const wet = wetAt(water, ground, dry);
  const floor = floorOf(ground, dry, spread, source === least.source ? least.c : dry.c);
  const low = Math.min(dry.c - K * dry.sd, wet === null ? Number.POSITIVE_INFINITY : wet.c - K * wet.sd);
  return { c: { value: dry.c, low, high: dry.c + K * dry.sd }, dry, wet, water, floor, ground, source };
}
