import type { CurrentRun } from './current-run.ts';
import type { RigControl } from './deps.ts';

/** Names the site in the log of the run that goes on, with whoever practises; the debrief is made by it. */
export function sayRig(current: Pick<CurrentRun, 'notice'>, rig: RigControl, trainee: string): void {
  const atS = Number(rig.view(1).simulatedS.toFixed(3));
  current.notice({ n: 'rig', said: { what: 'site', atS, ...rig.site, trainee: trainee.slice(0, 80) } });
}
