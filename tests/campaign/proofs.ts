/**
 * The campaign of proofs: the fills' own sites and sensors, whose supply is proved before the packer is on the hose, and the
 * same fills with and without that proof. What is drawn is the simulated world's own knowledge; the watch gets readings, limits and
 * what the crew says. Seeds are 410 001 …, run when the thresholds stood, and again after a spike had been taken for a line under pressure; these were tuned on seeds from 520 001 on.
 */
import { setupOf } from '../../src/job/testing/givens.ts';
import { createRandom } from '../../src/rig/random.ts';
import { createSite } from '../../src/rig/site.ts';
import { readingOf } from '../../src/sensing/testing/readings.ts';
import type { SupplyReason, SupplyVerdict } from '../../src/watch/codes.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import type { Command } from '../../src/watch/inputs.ts';
import { createWatch, step } from '../../src/watch/step.ts';
import type { ProvedSupply } from '../../src/watch/supply/types.ts';
import { judge, limitsOf } from './fills-judge.ts';
import { drawScenario, type Kind, type Scenario, type WorldName } from './fills-scenario.ts';
import { createSensor } from './fills-sensor.ts';
import { runScenario } from './fills-world.ts';

/** How the proof is made: as it should be; the regulator creeping already; and what must not be believed. */
export const WAYS = ['sound', 'creeping', 'packer-on', 'open-end', 'leaky-end', 'slow-hand'] as const;
export type Way = (typeof WAYS)[number];

export interface ProofTask {
  readonly world: WorldName;
  readonly kind: Kind;
  readonly way: Way;
  readonly seed: number;
}

/** Where the seeds of common lines begin; those of quick ones 10 000 later. */
export const PROOF_SEED = 1_410_000;

export const PROOF_COUNTS: readonly { readonly kind: Kind; readonly way: Way; readonly count: number }[] = [
  { kind: 'normal', way: 'sound', count: 1000 },
  { kind: 'high', way: 'sound', count: 400 },
  { kind: 'creep', way: 'sound', count: 400 },
  { kind: 'hand', way: 'sound', count: 200 },
  { kind: 'creep', way: 'creeping', count: 200 },
  { kind: 'normal', way: 'packer-on', count: 200 },
  { kind: 'normal', way: 'open-end', count: 200 },
  { kind: 'normal', way: 'leaky-end', count: 200 },
  { kind: 'normal', way: 'slow-hand', count: 200 },
];

export function proofTasks(scale: number): ProofTask[] {
  const out: ProofTask[] = [];
  for (const world of ['common', 'quick'] as const)
    for (const { kind, way, count } of PROOF_COUNTS) {
      const n = Math.max(1, Math.round(count * scale * (world === 'quick' ? 0.5 : 1)));
      for (let i = 1; i <= n; i++)
        out.push({ world, kind, way, seed: PROOF_SEED + (world === 'quick' ? 10_000 : 0) + i });
    }
  return out;
}

export interface ProofRecord extends ProofTask {
  readonly tap: string;
  /** How the proof ended, its verdict while the supply was open, and at the end. */
  readonly ended: 'proved' | SupplyReason | 'not-ended';
  readonly seen: SupplyVerdict | null;
  readonly asked: boolean;
  /** An alarm of the ceiling while it was made. */
  readonly ceiling: boolean;
  /** Any other urgent alarm. */
  readonly cried: boolean;
  readonly lockUpBar: number | null;
  /** True pressure at the regulator when it had locked up, bar. */
  readonly trueBar: number;
  /** Of the fill that follows a proof: first urgent word without it and with it, s; null: no fill. */
  readonly fill: {
    readonly plainS: number;
    readonly provedS: number;
    /** The true pressure at the sensor passes lock-up + 2 U, and the packer passes rated, s. */
    readonly fromS: number;
    readonly ratedS: number;
    /** Peak under rated − 2 U: whatever cries is false. */
    readonly under: boolean;
  } | null;
}

const LONGEST_S = 200;
/** A hand shuts the valve this long before it says so, s. */
const SAYS_S = 1.5;

interface Made {
  readonly events: readonly WatchEvent[];
  readonly proved: ProvedSupply | null;
  readonly trueBar: number;
}

/** The proof, on a site of its own: the regulator is as it is, whatever it does later. */
function prove(s: Scenario, way: Way): Made {
  const random = createRandom(s.seed * 8 + 6).fork(`proof ${s.kind}`);
  const coupled = way === 'packer-on';
  const site = createSite({ ...s.site, coupled });
  site.hoseEnd(way !== 'open-end');
  if (way === 'leaky-end') site.vent(random.logRange(0.02, 0.3));
  const sense = createSensor(s.sensor, random.fork('noise'));
  const w = createWatch();
  const events: WatchEvent[] = [];
  const emit = (e: WatchEvent) => events.push(e);
  const hz = s.sensor.rateHz;
  const beforeValve = s.tap === 'supply';
  step(
    w,
    {
      i: 'setup',
      tUs: 0,
      setup: setupOf({ limits: limitsOf(s), tap: beforeValve ? 'supply' : 'hose', rateHz: hz }),
    },
    emit,
  );
  const stepBar = s.sensor.spanBar / (2 ** s.sensor.bits - 1);
  const opening = way === 'slow-hand' ? 0 : random.range(0.4, 1);
  let begun = false;
  let shutS = Number.NaN;
  let trueBar = Number.NaN;
  let answered = false;
  let ventS = Number.NaN;
  const say = (command: Command, tUs: number) => step(w, { i: 'command', tUs, command }, emit);
  for (let n = 1; n < LONGEST_S * hz; n++) {
    const t = n / hz;
    const tUs = Math.round(t * 1e6);
    if (!begun && t >= 3) {
      begun = true;
      say({ c: 'prove-supply', end: 'shut' }, tUs);
      if (way !== 'slow-hand') site.valve(opening);
    }
    // Opened over ten seconds, a little at a time.
    if (way === 'slow-hand' && t > 3 && t < 13.1) site.valve(0.04 * (t - 3));
    site.step(1 / hz);
    if (way === 'creeping' && site.truth.supplyBar > 0.95 * s.setBar) site.creep(s.creepBarPerS * 60);
    const place = beforeValve || !begun ? site.truth.supplyBar : site.truth.hoseBar;
    const value = sense(n, begun ? place : 0);
    const reading = readingOf(t, value, { seq: n, uBar: s.uBar, stepBar });
    step(w, { i: 'reading', tUs: reading.tUs, reading }, emit);
    if (n % Math.max(1, Math.round(hz / 10)) === 0) step(w, { i: 'tick', tUs }, emit);
    const { proof } = w.supply;
    if (!begun || proof === null) {
      if (begun && t > 5) break;
      continue;
    }
    if (proof.askedUs !== null && !answered) {
      answered = true;
      say({ c: 'supply', said: coupled ? 'packer-on' : 'slow-valve' }, tUs);
    }
    // A level that looks too high may be what the small volume was overfilled to: a little is let out, and it comes back or does not.
    const high = proof.found?.verdict === 'over-ceiling' || proof.found?.verdict === 'over-working';
    if (high && Number.isNaN(ventS) && way === 'sound') {
      ventS = t;
      site.vent(0.3);
    } else if (t > ventS + 0.7) site.vent(0);
    if (proof.phase === 'shut' && Number.isNaN(shutS)) {
      shutS = t;
      trueBar = site.truth.supplyBar;
      site.valve(0);
    }
    if (proof.phase === 'shut' && t > shutS + SAYS_S) say({ c: 'supply', said: 'valve-shut' }, tUs);
    if (proof.phase === 'vent') break;
  }
  return { events, proved: w.supply.proved, trueBar };
}

export function workProof(task: ProofTask): ProofRecord {
  const scenario = drawScenario(task.kind, task.seed, { world: task.world });
  const { events, proved, trueBar } = prove(scenario, task.way);
  const told = events.filter((e) => e.e === 'supply');
  const end = told.findLast((e) => e.what === 'proved' || e.what === 'broken-off' || e.what === 'refused');
  const seen = told.findLast((e) => e.verdict !== null)?.verdict ?? null;
  const alarms = events.flatMap((e) =>
    e.e === 'alarm' && e.to === 'unacknowledged' && e.priority === 'urgent' ? [e.alarm] : [],
  );
  const atCeiling = (a: string) => a === 'ceiling' || a === 'over-rated' || a === 'over-range';
  let fill: ProofRecord['fill'] = null;
  if (proved !== null && task.way === 'sound') {
    const trace = runScenario(scenario);
    const plain = judge(trace);
    const with_ = judge(trace, true, scenario.tap, proved);
    const from = proved.lockUp.value + 2 * proved.uBar;
    let fromS = Number.NaN;
    for (let i = 0; i < trace.n && Number.isNaN(fromS); i++) if (trace.place[i]! >= from) fromS = trace.t[i]!;
    const first = [with_.atS, with_.movedS].filter((at) => !Number.isNaN(at));
    fill = {
      plainS: plain.atS,
      provedS: first.length === 0 ? Number.NaN : Math.min(...first),
      fromS,
      ratedS: plain.ratedS,
      under: Number.isNaN(plain.ratedS) && plain.peakBar < scenario.ratedBar - 2 * scenario.uBar,
    };
  }
  return {
    ...task,
    tap: scenario.tap,
    ended: end === undefined ? 'not-ended' : end.what === 'proved' ? 'proved' : (end.reason ?? 'not-ended'),
    seen,
    asked: told.some((e) => e.what === 'asked'),
    ceiling: alarms.some(atCeiling),
    cried: alarms.some((a) => !atCeiling(a)),
    lockUpBar: proved?.lockUp.value ?? null,
    trueBar,
    fill,
  };
}
