import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { DeviceGuardState } from '../../link/frames.ts';
import type { Stage, Standing } from '../../watch/codes.ts';

/** Terms of the trade and of open standards, as the user reads them. */

export const STAGE: Record<Stage, string> = {
  prepare: 'Prepare',
  seat: 'Seat',
  inflate: 'Inflate',
  hold: 'Hold',
  'let-down': 'Let down',
  done: 'Done',
  'air-test': 'Air test',
  abandoned: 'Abandoned',
};

/** A stage of an attempt; the first one needs no number. */
export const stageName = (stage: Stage, attempt: number): string =>
  attempt > 1 ? `${STAGE[stage]} ${attempt}` : STAGE[stage];

/** The primary button that leads to a stage. */
export const STAGE_ACTION: Record<Stage, string> = {
  prepare: 'Back to prepare',
  seat: 'Start seating',
  inflate: 'Start inflating',
  hold: 'Start the hold',
  'let-down': 'Start let-down',
  done: 'Finish',
  'air-test': 'Go to the air test',
  abandoned: 'Give this attempt up',
};

export const PLACE: Record<Place, string> = {
  sleeve: 'sleeve',
  air: 'air in the packer',
  pipe: 'pipe wall',
  ground: 'ground',
  cup: 'witness cup',
};

/** The place as a name of its own: beside a value, in a legend. */
export const PLACE_TITLE: Record<Place, string> = {
  sleeve: 'Sleeve',
  air: 'Air in the packer',
  pipe: 'Pipe wall',
  ground: 'Ground',
  cup: 'Witness cup',
};

/** Where several of them are named alike: the one of this number. */
export const NUMBERED = (title: string, n: number): string => `${title} ${n}`;

/** A second pressure on the line, beside the one that the guard goes by: its line in a trace. */
export const SECOND_TITLE: Record<SecondPressure, string> = {
  'outlet-pressure': 'Supply pressure',
  'check-pressure': 'Second sensor',
};

/** State of the limit that the device itself guards. */
export const DEVICE_GUARD: Record<DeviceGuardState, string> = {
  unarmed: 'off',
  armed: 'on',
  tripped: 'tripped',
  silenced: 'tripped, sounder silenced',
};

/** Standing marks: always on the screen while they hold. */
export const STANDING: Record<Standing, { readonly mark: string; readonly means: string }> = {
  'no-limit': {
    mark: 'No limit: no warning',
    means: 'No packer is chosen, so nothing here warns of its rated pressure.',
  },
  'no-margin': {
    mark: 'No margin',
    means:
      'Working at the rated pressure was chosen. A sensor that reads low, or cure heat, takes it past the rated pressure.',
  },
  practice: { mark: 'Practice', means: 'Practice rig: nothing here is a real line.' },
  'not-zeroed': {
    mark: 'Zero not taken',
    means: 'The zero of the sensor was not taken with the coupling open.',
  },
  uncalibrated: {
    mark: 'Sensor not calibrated',
    means: 'The scale is the device’s own suggestion. The uncertainty is wider for it.',
  },
  'device-unarmed': {
    mark: 'Device limit off',
    means: 'The device does not guard the limit by itself: stay within hearing of this computer.',
  },
  'no-hold-by-tap': {
    mark: 'Hold is not judged here',
    means: 'The sensor does not read the packer’s pressure (see the tap on the job sheet).',
  },
  'packer-not-inspected': {
    mark: 'Inspect the packer',
    means: 'It was over its rated pressure in an earlier run, and no inspection is logged since.',
  },
  'only-one-seen': {
    mark: 'Only one packer is seen',
    means:
      'Two packers hang on this line. A leak, a fall or a hold of one of them cannot be told from the other’s.',
  },
  'cure-not-judged': {
    mark: 'Cure is not judged',
    means: 'The resin cures by light: time at temperature says nothing of it.',
  },
  'hold-under-working': {
    mark: 'Held under working',
    means:
      'The hold began far under the working pressure and has not come to it: the sleeve may not lie against the wall.',
  },
  'hold-over-working': {
    mark: 'Held over working',
    means:
      'The hold began over the working pressure: cure heat has less room to the ceiling than was planned.',
  },
};
