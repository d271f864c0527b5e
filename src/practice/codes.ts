/** What a drill is judged by, as codes; words are made where they are shown. */

export { DRILLS, type DrillCode } from '../rig/drills.ts';

/** How a practice ended against its goal. */
export const OUTCOMES = [
  'met',
  'not-met',
  'not-played', // what was to go wrong never came: the work did not come so far
  'broken-off', // the run was gone on with at another site, or has no end
] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** What a goal asks for. Each is met or not, with its figure against its limit where it has one. */
export const CHECKS = [
  'under-rated', // the packer's own pressure, bar
  'under-ceiling',
  'shut-in-time', // the supply valve, s after the first sign
  'stays-shut', // and was not opened again
  'vented', // the line was emptied behind the shut valve
  'turned-down', // the regulator, under the ceiling, before the valve was opened again
  'gauge-compared', // the dial gauge, before the packer was filled on
  'filled', // to the working pressure, or near it, bar
  'held-up', // lowest pressure while it leaked, bar
  'held-long', // with the leak, s
  'not-held', // no hold was begun after it
  'empty-opened', // in the packer when its coupling was opened or the run ended, bar
  'tested-empty', // the vent test stayed at zero
  'cure-waited', // let down no sooner than the cure time was reached
] as const;
export type Check = (typeof CHECKS)[number];
