/** Drills played on the rig alone, by hands that are told how: what its judging is tried on. */
import { createRigDevice } from '../../rig/device.ts';
import { type DrillCode, drillSite } from '../../rig/drills.ts';
import type { RigFault, RigHand } from '../../rig/faults.ts';
import type { SiteTruth } from '../../rig/site.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Command } from '../../watch/inputs.ts';
import { debriefOf } from '../debrief.ts';
import type { Debrief, Told } from '../shapes.ts';

export interface Played {
  readonly truth: Readonly<SiteTruth>;
  readonly s: number;
  /** When it went wrong; null: not yet. */
  readonly faultS: number | null;
  hand(h: RigHand): void;
  fault(f: RigFault): void;
  says(command: Command): void;
  event(e: WatchEvent): void;
}

/** Is asked ten times a second of the rig's own time; false ends the run. */
export type Crew = (p: Played) => boolean | undefined;

export const RATED = { ratedBar: 1.8, ceilingBar: 1.77, workingBar: 1.5 } as const;

export function play(drill: DrillCode, crew: Crew, seed = 1, stepS = 0.1): Debrief {
  const said: Told[] = [{ tUs: 0, said: { what: 'site', atS: 0, site: drill, seed, trainee: 'A.B.' } }];
  const events: WatchEvent[] = [];
  const commands: { tUs: number; command: Command }[] = [];
  let faultS: number | null = null;
  const device = createRigDevice({
    ...drillSite(drill, seed),
    seed,
    say(s) {
      if (s.what === 'fault') faultS ??= s.atS;
      said.push({ tUs: Math.round(device.nowS * 1e6), said: s });
    },
  });
  const us = () => Math.round(device.nowS * 1e6);
  for (let s = stepS; ; s += stepS) {
    device.advance(s);
    const goes = crew({
      truth: device.site.truth,
      s,
      faultS,
      hand: (h) => device.hand(h),
      fault: (f) => device.fault(f),
      says: (command) => void commands.push({ tUs: us(), command }),
      event: (e) => void events.push({ ...e, tUs: us() }),
    });
    if (goes === false) break;
    if (s > 30_000) throw new Error('the crew never ends');
  }
  const told = debriefOf({ firstUs: 0, lastUs: us(), said, events, commands, limits: RATED, ended: true });
  return told!;
}

export const alarm = (
  code: 'rising' | 'pressure-lost' | 'fast-fall' | 'supply-moved' | 'sensors-differ' | 'leaking',
) =>
  ({
    tUs: 0,
    e: 'alarm',
    alarm: code,
    priority: 'urgent',
    occurrence: 1,
    to: 'unacknowledged',
    why: 'condition',
    values: {},
  }) as const satisfies WatchEvent;

const SEAT_BAR = 0.6;
const PAUSE_S = 18;

/** Fills by the valve, by where the packer itself stands, as the forecast tells it: to the seat pressure, a pause, then to the working pressure. `when` is asked first and may act instead. */
export function filling(
  when: (p: Played, full: boolean) => boolean | 'over' | undefined,
  fullBar = 1.42,
): Crew {
  let step: 'seat' | 'pause' | 'fill' | 'full' = 'seat';
  let untilS = 0;
  let opened = false;
  return (p) => {
    const took = when(p, step === 'full');
    if (took === 'over') return false;
    if (took === true) return true;
    const { truth, s } = p;
    const open = () => {
      if (opened) return;
      opened = true;
      p.hand({ hand: 'valve', open: 1 });
    };
    const shut = () => {
      opened = false;
      p.hand({ hand: 'valve', open: 0 });
    };
    switch (step) {
      case 'seat':
        if (s >= 3) open();
        if (truth.packerBar >= SEAT_BAR) {
          shut();
          step = 'pause';
          untilS = s + PAUSE_S;
        }
        break;
      case 'pause':
        if (s >= untilS) step = 'fill';
        break;
      case 'fill':
        open();
        if (truth.packerBar >= fullBar) {
          shut();
          step = 'full';
        }
        break;
      case 'full':
        break;
      default:
        step satisfies never;
    }
    return true;
  };
}
