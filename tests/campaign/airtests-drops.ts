/**
 * Timed drops alone, many of them: a leak of any share of the allowed drop, with noise, slow wander, a sensor that warms and whose slope is off, air that
 * grows warmer or colder. Everything is drawn to the ends of what the verdict takes to be possible, near the allowed drop where it is hardest.
 */
import { airTestSpec, differenceU } from '../../src/job/air-test.ts';
import { PRESSURE_CHANNEL } from '../../src/job/testing/givens.ts';
import { createRandom } from '../../src/rig/random.ts';
import { courseAdd, createCourse } from '../../src/watch/airtest/course.ts';
import { dropBetween, judgeDrop } from '../../src/watch/airtest/judge.ts';
import type { AirTestVerdict } from '../../src/watch/codes.ts';
import { METHODS } from './airtests.ts';

export const DROP_SEED = 760_001;

export interface DropRecord {
  readonly trueMbar: number;
  readonly allowedMbar: number;
  readonly dropMbar: number;
  readonly uMbar: number;
  readonly verdict: AirTestVerdict;
}

const HZ = 5;
/** Absolute, bar, and K: what a kelvin does follows. */
const ABSOLUTE = 1.1;
const AIR_K = 283;

export function drawDrop(seed: number): DropRecord | null {
  const random = createRandom(seed).fork('drop');
  const method = random.pick(METHODS);
  const spec = airTestSpec({ method, mm: random.pick([100, 150, 200, 300, 400]), lengthM: 20, headBar: 0 })!;
  const probe = random.chance(0.5);
  const spanBar = method === 'LA' ? 0.1 : method === 'LB' ? 0.4 : 1;
  const perKelvin = 2e-4;
  const channel = {
    ...PRESSURE_CHANNEL,
    rangeHi: spanBar,
    bits: 20,
    rawHi: 2 ** 20 - 1,
    uSensor: 0.0025 * spanBar,
    perKelvin,
  };
  const trueBar = spec.dropBar * random.range(0.6, 1.5);
  const noise = random.logRange(0.01, 0.5) * spec.dropBar * 0.02;
  const wanderBar = random.range(0, 0.5) * noise;
  const keep = Math.exp(-1 / HZ / random.range(3, 60));
  const warmthK = Math.min(2, Math.max(0.4, (0.2 * spec.seconds) / 60));
  const driftBar = spanBar * perKelvin * warmthK * random.range(-1, 1);
  const gain = 1 + random.range(-0.01, 0.01);
  const airK = probe ? random.range(-1, 1) : random.range(-0.5, 0.5);
  // What the probe sees of the change of all the air, and its own error.
  const seenK = airK * (1 + 0.3 * Math.max(-2, Math.min(2, random.normal()))) + 0.07 * random.normal();
  const course = createCourse();
  let wander = wanderBar * random.normal();
  const toS = spec.seconds;
  for (let n = 0; n <= (toS + 8) * HZ; n++) {
    const s = n / HZ - 4;
    const share = Math.max(0, s / toS);
    wander = wander * keep + wanderBar * Math.sqrt(1 - keep * keep) * random.normal();
    // A leak slows with the pressure that is left.
    const fallen = trueBar * share * (1 + 0.05 * (1 - share));
    const bar = spec.startBar - fallen + (ABSOLUTE * airK * share) / AIR_K;
    const read = gain * bar + driftBar * share + wander + noise * random.normal();
    courseAdd(course, s + 10, read, probe ? 10 + seenK * share : null);
  }
  const drop = dropBetween(course, 10, 10 + toS, {
    sensorUBar: differenceU(channel, spec, false),
    absoluteBar: ABSOLUTE,
    aboutC: 10,
  });
  if (drop === null) return null;
  return {
    trueMbar: trueBar * 1000,
    allowedMbar: spec.dropBar * 1000,
    dropMbar: drop.dropBar * 1000,
    uMbar: drop.uBar * 1000,
    verdict: judgeDrop(drop, spec.dropBar).verdict,
  };
}

export interface DropScore {
  readonly n: number;
  readonly over: number;
  readonly falsePassed: number;
  readonly under: number;
  readonly falseFailed: number;
  readonly covered: number;
}

export function scoreDrops(from: number, count: number): DropScore {
  const s = { n: 0, over: 0, falsePassed: 0, under: 0, falseFailed: 0, covered: 0 };
  for (let i = 0; i < count; i++) {
    const r = drawDrop(from + i);
    if (r === null) continue;
    s.n++;
    if (r.trueMbar > r.allowedMbar) {
      s.over++;
      if (r.verdict === 'passed') s.falsePassed++;
    } else {
      s.under++;
      if (r.verdict === 'failed') s.falseFailed++;
    }
    if (Math.abs(r.dropMbar - r.trueMbar) <= r.uMbar) s.covered++;
  }
  return s;
}
