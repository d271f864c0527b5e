/**
 * What truly was at the simulated site, for the run's log: what was done and what went wrong, each as it happens, and the state
 * of the air as often as it changes. A debrief is made of it, and made again by whoever has the record.
 */
import type { Named } from './faults.ts';
import type { SiteTruth } from './site.ts';

/** What somebody at the site would hear or see without any instrument. */
export const SENSED = ['hose-blows', 'burst', 'relief-blows'] as const;
export type Sensed = (typeof SENSED)[number];

/** Times are seconds of the rig's own clock; pressures gauge, bar. */
export type RigSaid =
  | ({ readonly what: 'hand' | 'fault'; readonly atS: number } & Named)
  | {
      readonly what: 'truth';
      readonly atS: number;
      readonly packerBar: number;
      readonly lineBar: number;
      readonly supplyBar: number;
      /** Highest of the packer so far. */
      readonly peakBar: number;
      readonly regulatorBar: number;
      readonly valveOpen: number;
      readonly ventOpen: number;
      readonly coupled: boolean;
      /** Degree of cure where the resin is least cured, 0 to 1. */
      readonly cured: number;
      readonly sensed: readonly Sensed[];
    };

/** A pressure is told again when it has moved so far, bar. */
const STEP_BAR = 0.02;
/** Told no more often than this, s: a burst is over in half a second. */
const LEAST_S = 0.1;
/** And told again after so long in any case, s. */
const MOST_S = 60;
/** Less than this nobody hears, kg/s: a few litres of free air a minute. */
const HEARD_KG_S = 1e-4;

const round = (x: number, digits: number): number => Number(x.toFixed(digits));

/** What is heard and seen now. */
export function sensedOf(truth: SiteTruth): readonly Sensed[] {
  const is: Readonly<Record<Sensed, boolean>> = {
    'hose-blows': truth.blownKgS > HEARD_KG_S,
    burst: truth.burst && truth.leakKgS > HEARD_KG_S,
    'relief-blows': truth.reliefKgS > HEARD_KG_S,
  };
  return SENSED.filter((s) => is[s]);
}

export interface TruthLog {
  happened(what: 'hand' | 'fault', named: Named, nowS: number): void;
  look(truth: SiteTruth, nowS: number): void;
}

export function createTruthLog(say: (said: RigSaid) => void): TruthLog {
  let last: Extract<RigSaid, { what: 'truth' }> | null = null;
  return {
    happened(what, { name, value }, nowS) {
      say({ what, atS: round(nowS, 3), name, value: value === null ? null : round(value, 4) });
    },
    look(truth, nowS) {
      if (last !== null && nowS - last.atS < LEAST_S) return;
      const sensed = sensedOf(truth);
      const isSame =
        last !== null &&
        nowS - last.atS < MOST_S &&
        Math.abs(truth.packerBar - last.packerBar) < STEP_BAR &&
        Math.abs(truth.hoseBar - last.lineBar) < STEP_BAR &&
        Math.abs(truth.supplyBar - last.supplyBar) < STEP_BAR &&
        Math.abs(truth.regulatorBar - last.regulatorBar) < STEP_BAR &&
        truth.valveOpen > 0 === last.valveOpen > 0 &&
        truth.ventOpen > 0 === last.ventOpen > 0 &&
        truth.coupled === last.coupled &&
        sensed.join() === last.sensed.join();
      if (isSame) return;
      last = {
        what: 'truth',
        atS: round(nowS, 3),
        packerBar: round(truth.packerBar, 4),
        lineBar: round(truth.hoseBar, 4),
        supplyBar: round(truth.supplyBar, 4),
        peakBar: round(truth.peakBar, 4),
        regulatorBar: round(truth.regulatorBar, 3),
        valveOpen: round(truth.valveOpen, 3),
        ventOpen: round(truth.ventOpen, 3),
        coupled: truth.coupled,
        cured: round(truth.leastCured, 4),
        sensed,
      };
      say(last);
    },
  };
}
