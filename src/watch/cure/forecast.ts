import type { Heating, PipeSetup, ResinSetup } from '../../job/setup.ts';
import { radialGrid, stepRadial } from '../../physics/conduction.ts';
import { GROUND, SLEEVE, WALL } from '../../physics/materials.ts';
import type { Bounded } from '../events.ts';
import { type Coldest, type Estimate, type Watched, wetAt } from './coldest.ts';
import { faceC, observe } from './observer.ts';
import { rateAt } from './rates.ts';
import type { SheetFit } from './sheet.ts';
import { degreeAt, type Sketch, sketchesOf, sketchRate } from './sketches.ts';

/**
 * Advisory forecast: radial heat conduction through packer wall, sleeve, pipe and ground with a generic sketch of the
 * resin as its source, from what the probes and the models behind them say now. It tells when the exotherm may peak
 * and when 'cure time met' may be said; it earns no progress and is no part of the proof. Deterministic; a few
 * milliseconds for four hours, so it is made on demand and kept for a while, never for every reading.
 */
export interface Outlook {
  /** Seconds from now until the lower bound reaches 1; null: not within the horizon. */
  readonly metInS: Bounded | null;
  /** Hottest resin to come; null where it is past, or nothing worth a word. */
  readonly exotherm: { readonly peakInS: Bounded; readonly peakC: Bounded } | null;
}

export interface OutlookInput {
  readonly fit: SheetFit;
  readonly now: Coldest;
  readonly watched: readonly Watched[];
  readonly pipe: PipeSetup | null;
  readonly groundC: number;
  readonly exotherm: ResinSetup['exotherm'];
  readonly heating: Heating;
  /** Progress so far: middle and lower bound. */
  readonly progress: number;
  readonly low: number;
}

/** Modelled time; after it the last rate goes on. */
export const FORECAST_S = 4 * 3600;
/** Nothing is said of what is farther off, s. */
export const HORIZON_S = 48 * 3600;
/** Steps of half a minute in the first hour, when a quick resin peaks, and of a minute later. */
const FINE_S = 30;
const COARSE_S = 60;
const FINE_UNTIL_S = 3600;
/** A peak that lifts the resin by less than this is not worth a word, K. */
const WORTH_K = 1;
/** Widening of the clock's range beyond the sketches' courses, share of the time to go (docs/validation.md). */
const SPARE = 0.1;
const RUBBER = { m: 0.006, k: 0.2, rhoCp: 2e6 } as const;
const CELLS = [2, 4, 4, 5, 5] as const;

/** What one sketch foretells. */
export interface Course {
  readonly metInS: number;
  readonly peakInS: number;
  readonly peakC: number;
  /** Heat that the resin gave, that is stored more, and that left into the ground, J/m: the first is the sum. */
  readonly madeJ: number;
  readonly storedJ: number;
  readonly lostJ: number;
}

const moved = (one: Estimate, by: number, groundC: number): Estimate => ({
  c: Math.max(Math.min(one.c, groundC), one.c + by),
  sd: one.sd,
});

/** Rate of the lower bound once the sleeve's outer face is warmer by so much than it is now, 1/min. */
function lowRateMoved({ fit, now, groundC }: OutlookInput, by: number): number {
  if (now.dry === null || now.source === 'ground') return rateAt(fit, now).low;
  const dry = moved(now.dry, by, groundC);
  const floor = now.floor === null ? null : moved(now.floor, by, groundC);
  return rateAt(fit, { ...now, dry, floor, wet: wetAt(now.water, now.ground, dry) }).low;
}

/** Seconds to 'met' where the packer goes on being warmed as it is now: the models behind the probe go on alone. */
function heldMetInS(input: OutlookInput): number {
  const { watched, now, groundC } = input;
  const seen = watched.find((w) => w.place === (now.source === 'air-model' ? 'air' : now.source));
  if (seen === undefined) return Number.POSITIVE_INFINITY;
  const o = { ...seen.likely, t: [...seen.likely.t] };
  const probeC = o.t[0]!;
  const faceNow = faceC(o);
  let { low } = input;
  let rate = 0;
  for (let t = 0; t < FORECAST_S; t += COARSE_S) {
    rate = lowRateMoved(input, observe(o, COARSE_S, probeC, groundC) - faceNow);
    const next = low + (rate * COARSE_S) / 60;
    if (next >= 1) return t + ((1 - low) / rate) * 60;
    low = next;
  }
  return rate > 0 ? FORECAST_S + ((1 - low) / rate) * 60 : Number.POSITIVE_INFINITY;
}

/** Follows one sketch for `lengthS`. */
export function course(input: OutlookInput, sketch: Sketch, lengthS = FORECAST_S): Course {
  const { fit, pipe, groundC } = input;
  const sleeveM = (pipe?.sleeveMm ?? 4) / 1000;
  const outer = Math.max((pipe?.innerMm ?? 150) / 2000, sleeveM + RUBBER.m + 0.005);
  const wall = WALL[pipe?.material ?? 'unknown'];
  const wallOuter = outer + (pipe?.wallMm ?? 15) / 1000;
  const grid = radialGrid(
    outer - sleeveM - RUBBER.m,
    [
      { outer: outer - sleeveM, k: RUBBER.k, rhoCp: RUBBER.rhoCp },
      { outer, k: SLEEVE.k, rhoCp: SLEEVE.rhoCp },
      { outer: wallOuter, k: wall.k, rhoCp: wall.rhoCp },
      { outer: wallOuter + 0.06, k: GROUND.k, rhoCp: GROUND.rhoCp },
      { outer: wallOuter + 0.5, k: GROUND.k, rhoCp: GROUND.rhoCp },
    ],
    CELLS,
    groundC,
  );
  const { c, area, capacity } = grid;
  start(input, c);
  const before = heatOf(c, capacity);
  const from = CELLS[0];
  const to = from + CELLS[1] - 1;
  const degree = new Float64Array(CELLS[1]).fill(degreeAt(Math.min(3, input.progress)));
  const source = new Float64Array(c.length);
  const faceNow = c[to]!;
  let low = input.low;
  let rate = 0;
  let metInS = low >= 1 ? 0 : Number.POSITIVE_INFINITY;
  let peakC = Math.max(...c.subarray(from, to + 1));
  let peakInS = 0;
  let madeJ = 0;
  let lostJ = 0;
  for (let t = 0; t < lengthS; ) {
    const dt = t < FINE_UNTIL_S ? FINE_S : COARSE_S;
    t += dt;
    for (let j = 0; sketch.heatJm3 > 0 && j < degree.length; j++) {
      const i = from + j;
      // A midpoint step, cut off at the end of the reaction.
      const half = Math.min(1, degree[j]! + 0.5 * dt * sketchRate(fit, sketch, degree[j]!, c[i]!));
      const next = Math.min(1, degree[j]! + dt * sketchRate(fit, sketch, half, c[i]!));
      source[i] = ((next - degree[j]!) * sketch.heatJm3) / dt;
      madeJ += (next - degree[j]!) * sketch.heatJm3 * area[i]!;
      degree[j] = next;
    }
    // The packer's air holds next to no heat and follows the rubber: inside nothing flows.
    lostJ -= stepRadial(grid, dt, { h: 0, c: 0 }, { c: groundC }, source).outJ;
    let hottest = c[from]!;
    for (let i = from + 1; i <= to; i++) hottest = Math.max(hottest, c[i]!);
    if (hottest > peakC) {
      peakC = hottest;
      peakInS = t;
    }
    if (metInS !== Number.POSITIVE_INFINITY) continue;
    rate = lowRateMoved(input, c[to]! - faceNow);
    const next = low + (rate * dt) / 60;
    if (next >= 1) metInS = t - dt + ((1 - low) / rate) * 60;
    low = next;
  }
  if (metInS === Number.POSITIVE_INFINITY && rate > 0) metInS = lengthS + ((1 - low) / rate) * 60;
  return { metInS, peakInS, peakC, madeJ, storedJ: heatOf(c, capacity) - before, lostJ };
}

function heatOf(c: Float64Array, capacity: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < c.length; i++) sum += c[i]! * capacity[i]!;
  return sum;
}

/** Temperatures to begin with: the model behind a probe where there is one, else what is believed of the sleeve. */
function start(input: OutlookInput, c: Float64Array): void {
  const seen = input.watched[0]?.likely;
  const own = input.now.dry?.c ?? input.groundC;
  const pipeFrom = CELLS[0] + CELLS[1];
  const groundFrom = pipeFrom + CELLS[2];
  for (let i = 0; i < groundFrom; i++) {
    // Both grids have the same cells as far as the pipe's outside; the observer has its air before them.
    if (seen !== undefined) c[i] = seen.t[i + 1]!;
    else c[i] = i < pipeFrom ? own : (own + input.groundC) / 2;
  }
}

function bounded(value: number, all: readonly number[]): Bounded {
  return { value, low: Math.min(value, ...all), high: Math.max(value, ...all) };
}

/** The range that is told; null: nothing is said of what is over or too far off. */
function metIn({ low, now }: OutlookInput, met: Bounded): Bounded | null {
  if (low >= 1 || !(met.value < HORIZON_S)) return null;
  // Ground alone neither warms nor cools; what a probe will read the sketches do not wholly span.
  const spare = now.source === 'ground' ? 0 : SPARE;
  return {
    value: met.value,
    low: met.low * (1 - spare),
    high: Math.min(HORIZON_S, met.high * (1 + spare)),
  };
}

export function outlook(input: OutlookInput): Outlook {
  // The present temperature may also stay as it is, whatever the sketches think.
  const rate = rateAt(input.fit, input.now).low;
  const stays = rate > 0 ? ((1 - input.low) / rate) * 60 : Number.POSITIVE_INFINITY;
  // Where the packer is warmed the bound earns no heat of the resin's, so that none is foretold.
  if (input.heating !== 'none') {
    const held = heldMetInS(input);
    return { metInS: metIn(input, bounded(Math.min(held, stays), [stays])), exotherm: null };
  }
  const courses = sketchesOf(input.exotherm, input.fit).map((sketch) => course(input, sketch));
  const likely = courses[0]!;
  const met = bounded(likely.metInS, [stays, ...courses.map((one) => one.metInS)]);
  const warm = courses.slice(0, 3);
  const hottest = warm.map((one) => one.peakC);
  const nowC = courses[3]!.peakC;
  const rises = likely.peakInS > 0 && likely.peakC - nowC >= WORTH_K;
  return {
    metInS: metIn(input, met),
    exotherm: rises
      ? {
          peakInS: bounded(
            likely.peakInS,
            warm.map((one) => one.peakInS),
          ),
          peakC: bounded(likely.peakC, hottest),
        }
      : null,
  };
}
