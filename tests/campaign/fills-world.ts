/** Runs a scenario on the simulated site with its crew and its sensor: a trace of readings beside the truth. */
import { createRandom } from '../../src/rig/random.ts';
import { createSite } from '../../src/rig/site.ts';
import type { Scenario } from './fills-scenario.ts';
import { createSensor } from './fills-sensor.ts';

export interface Trace {
  readonly scenario: Scenario;
  readonly n: number;
  /** Sampling times, s from the start of the trace. */
  readonly t: Float64Array;
  /** Reading, bar. */
  readonly x: Float32Array;
  /** True pressure in the packer and at the sensor's place, bar. */
  readonly packer: Float32Array;
  readonly place: Float32Array;
  /** And at the regulator's outlet. */
  readonly outlet: Float32Array;
  /** The regulator failed, s; NaN: it did not. */
  readonly failedS: number;
  /** Where a hand shut the valve for good, s; NaN if never. */
  readonly closedS: number;
  /** True highest packer pressure. */
  readonly peakBar: number;
}

/** A trace ends at the latest after this, or after so many times the time that its nominal slope takes to rated, s. */
const LONGEST_S = 320;
const LONGEST_FILLS = 8;

/** @param waitS the supply stands so long before the valve is opened, s */
export function runScenario(s: Scenario, waitS = 1.5): Trace {
  const site = createSite(s.site);
  const { truth } = site;
  const noise = createRandom(s.seed * 8 + 5).fork(`noise ${s.kind}`);
  const period = 1 / s.sensor.rateHz;
  const most = Math.ceil(Math.max(LONGEST_S, (LONGEST_FILLS * s.ratedBar) / s.nominal) / period);
  const t = new Float64Array(most);
  const x = new Float32Array(most);
  const packer = new Float32Array(most);
  const place = new Float32Array(most);
  const outlet = new Float32Array(most);
  const sense = createSensor(s.sensor, noise);
  let n = 0;
  let peak = 0;
  let closedS = Number.NaN;
  // The crew: what it waits for.
  let target = 0;
  let phase: 'wait' | 'filling' | 'closing' | 'done' = 'wait';
  let untilS = waitS;
  let failedS = Number.NaN;
  let topUps = 0;
  let passedAt = Number.NaN;
  let lockedS = Number.NaN;
  let settledFor = 0;
  let last = 0;
  const regulated = s.kind !== 'hand' && !s.hand.forgets;
  for (; n < most; n++) {
    const now = n * period;
    site.step(period);
    const p = s.tap === 'hose' ? truth.hoseBar : s.tap === 'supply' ? truth.supplyBar : truth.packerBar;
    t[n] = now;
    x[n] = sense(n, p);
    packer[n] = truth.packerBar;
    place[n] = p;
    outlet[n] = truth.supplyBar;
    peak = Math.max(peak, truth.packerBar);

    if (
      s.stickAtBar !== null &&
      truth.packerBar >= s.stickAtBar &&
      !site.truth.ventOpen &&
      phase !== 'wait'
    ) {
      site.stuckOpen(true);
      if (Number.isNaN(failedS)) failedS = now;
    }
    if (s.creepAtBar !== null && Number.isNaN(lockedS) && truth.packerBar >= s.creepAtBar) lockedS = now;
    if (now >= lockedS + s.creepDelayS) site.creep(s.creepBarPerS * 60);
    // The crew sees the display: the middle of the last three readings.
    const seen = n < 2 ? x[n]! : middle(x[n - 2]!, x[n - 1]!, x[n]!);
    const goal = s.hand.targets[target]!;
    const lastTarget = target === s.hand.targets.length - 1;
    if (phase === 'wait' && now >= untilS) {
      site.valve(topUps > 0 ? 0.5 * s.hand.openings[target]! : s.hand.openings[target]!);
      phase = 'filling';
    } else if (phase === 'filling' && seen >= goal && !(lastTarget && (regulated || s.hand.forgets))) {
      phase = 'closing';
      untilS = now + s.hand.noticeS;
    } else if (phase === 'closing' && now >= untilS) {
      site.valve(0);
      if (lastTarget) {
        phase = 'done';
        closedS = now;
        untilS = now + 8;
      } else {
        phase = 'wait';
        untilS = now + s.hand.pauses[target]!;
        target++;
      }
    } else if (phase === 'done' && now >= untilS) {
      if (seen < goal - 0.025 && topUps < 5) {
        topUps++;
        phase = 'wait';
        untilS = now;
      } else break;
    }
    // An end for fills that the hand does not end.
    if (Number.isNaN(passedAt) && truth.packerBar >= s.ratedBar) passedAt = now;
    if (now > passedAt + 1.2) break;
    if (n % Math.round(s.sensor.rateHz) === 0) {
      settledFor =
        phase === 'filling' && lastTarget && truth.packerBar > 0.5 && truth.packerBar - last < 2e-4
          ? settledFor + 1
          : 0;
      last = truth.packerBar;
      if (settledFor > 8 && s.kind !== 'creep') break;
    }
  }
  return {
    scenario: s,
    n,
    t: t.slice(0, n),
    x: x.slice(0, n),
    packer: packer.slice(0, n),
    place: place.slice(0, n),
    outlet: outlet.slice(0, n),
    failedS,
    closedS,
    peakBar: peak,
  };
}

function middle(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
