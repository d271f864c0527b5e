import type { SecondPressure } from '../../job/codes.ts';
import type { Line, PipeSetup, Tap } from '../../job/setup.ts';

/** Terms of pipe, tap and line, as the user reads them. */

export const TAP: Record<Tap, string> = {
  packer: 'Packer (own sense line)',
  hose: 'Hose (after the last valve)',
  supply: 'Supply (regulator outlet, or behind a check valve)',
  unknown: 'Not known',
};

/** Where a second pressure sits. */
export const SECOND_PLACE: Record<SecondPressure, string> = {
  'outlet-pressure': 'regulator’s outlet',
  'check-pressure': 'packer, a second sense line',
};

export const TAP_MEANS: Record<Tap, string> = {
  packer: 'The reading is the packer’s own pressure.',
  hose: 'While air flows the reading stands above the packer’s pressure; with no flow it is the packer’s.',
  supply: 'The reading is not the packer’s pressure: over-pressure warning only, no leak check.',
  unknown: 'Taken as not the packer’s pressure: over-pressure warning only, no leak check.',
};

export const LINE: Record<Line, string> = {
  closed: 'Shut valve',
  'supplied-relieving': 'Supplied, relieving regulator',
  'supplied-nonrelieving': 'Supplied, regulator does not relieve',
  unknown: 'Not known',
};

export const LINE_MEANS: Record<Line, string> = {
  closed: 'A leak can be seen. Cure heat raises the pressure.',
  'supplied-relieving':
    'The regulator tops up and lets out: a leak cannot be seen, what cure heat adds is let out.',
  'supplied-nonrelieving':
    'The regulator tops up but does not let out: a leak cannot be seen, cure heat raises the pressure.',
  unknown: 'Neither a leak nor a rise by cure heat can be judged with certainty.',
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
