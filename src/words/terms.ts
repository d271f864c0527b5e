import type { Line, PipeSetup, Place, Tap } from '../job/setup.ts';
import type { DeviceGuardState } from '../link/frames.ts';
import type { GapReason, Stage, Standing } from '../watch/codes.ts';

/** Terms of the trade and of open standards, as the user reads them. */

export const STAGE: Record<Stage, string> = {
  prepare: 'Prepare',
  seat: 'Seat',
  inflate: 'Inflate',
  hold: 'Hold',
  'let-down': 'Let down',
  done: 'Done',
  abandoned: 'Abandoned',
};

/** What the crew does in this stage, one line under the ribbon. */
export const STAGE_HINT: Record<Stage, string> = {
  prepare: 'Zero with the coupling seen open, check the probe, set the packer.',
  seat: 'Open slowly to the seat pressure, then close the valve and compare the dial gauge.',
  inflate: 'Open slowly. Nobody in line with the pipe or over the opening.',
  hold: 'Leave it alone. Look here from time to time.',
  'let-down': 'Let down slowly. Close the vent and wait: a line at zero is not an empty packer.',
  done: 'The run is over. Inspect the packer before it is put away.',
  abandoned: 'This attempt was given up. Let down before anything is moved.',
};

/** The primary button that leads to a stage. */
export const STAGE_ACTION: Record<Stage, string> = {
  prepare: 'Back to prepare',
  seat: 'Start seating',
  inflate: 'Start inflating',
  hold: 'Start the hold',
  'let-down': 'Start let-down',
  done: 'Finish',
  abandoned: 'Give this attempt up',
};

export const PLACE: Record<Place, string> = {
  sleeve: 'sleeve',
  air: 'air in the packer',
  pipe: 'pipe wall',
  ground: 'ground',
};

/** The place as a name of its own: beside a value, in a legend. */
export function placeTitle(place: Place): string {
  const name = PLACE[place];
  return name.charAt(0).toUpperCase() + name.slice(1);
}

export const TAP: Record<Tap, string> = {
  packer: 'Packer (own sense line)',
  hose: 'Hose (after the last valve)',
  supply: 'Supply (regulator outlet, or behind a check valve)',
  unknown: 'Not known',
};

export const TAP_MEANS: Record<Tap, string> = {
  packer: 'The reading is the packer’s own pressure.',
  hose: 'While air flows the reading stands above the packer’s pressure; at rest it is the packer’s.',
  supply: 'The reading is not the packer’s pressure. Only the guard runs; hold and leak cannot be judged.',
  unknown: 'Taken as not the packer’s pressure: only the guard runs; hold and leak cannot be judged.',
};

export const LINE: Record<Line, string> = {
  closed: 'Closed valve',
  'supplied-relieving': 'Supplied, relieving regulator',
  'supplied-nonrelieving': 'Supplied, regulator does not relieve',
  unknown: 'Not known',
};

export const LINE_MEANS: Record<Line, string> = {
  closed: 'A leak can be seen. Warmth of the cure lifts the pressure.',
  'supplied-relieving': 'The regulator tops up and lets out: a leak cannot be seen, warmth is let out.',
  'supplied-nonrelieving':
    'The regulator tops up but does not let out: a leak cannot be seen, warmth lifts the pressure.',
  unknown: 'Neither leak nor lift can be judged with certainty.',
};

export const MATERIAL: Record<PipeSetup['material'], string> = {
  clay: 'Clay',
  concrete: 'Concrete',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'Iron',
  grp: 'GRP',
  unknown: 'Not known',
};

/** State of the limit that the device itself guards. */
export const DEVICE_GUARD: Record<DeviceGuardState, string> = {
  unarmed: 'not armed',
  armed: 'armed',
  tripped: 'tripped',
  silenced: 'tripped, sounder silenced',
};

export const GAP: Record<GapReason, string> = {
  silence: 'The device was silent',
  port: 'The cable or port was gone',
  reset: 'The device restarted',
  dropped: 'The line was too full, readings were dropped',
  clock: 'The tablet slept or its clock jumped',
  resumed: 'The run was interrupted and resumed',
  garbage: 'Noise instead of readings',
};

/** Standing marks: always on the screen while they hold. */
export const STANDING: Record<Standing, { readonly mark: string; readonly means: string }> = {
  'no-limit': {
    mark: 'No limit set: gauge only',
    means: 'No packer is chosen, so nothing here warns of its rated pressure.',
  },
  'no-margin': {
    mark: 'No margin',
    means: 'Working at the rated pressure was chosen. A sensor that reads low, or warmth, passes the rating.',
  },
  practice: { mark: 'Practice', means: 'Simulated rig. Nothing here is a real line.' },
  'not-zeroed': {
    mark: 'Zero not taken',
    means: 'The zero of the sensor was not taken with the coupling open.',
  },
  uncalibrated: {
    mark: 'Sensor not calibrated',
    means: 'The scale is the device’s own suggestion. The uncertainty is wider for it.',
  },
  'device-unarmed': { mark: 'Device does not guard', means: 'The device’s own limit is not armed.' },
  'no-hold-by-tap': {
    mark: 'Hold cannot be judged here',
    means: 'The sensor does not read the packer’s pressure (see the tap on the job sheet).',
  },
};
