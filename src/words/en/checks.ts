import type { CheckCode } from '../../job/checklist.ts';

/** What is looked at before mixing and after the repair, as a line to tick. */
export const CHECK: Record<CheckCode, string> = {
  permit: 'Entry permit and confined-space rules seen to',
  'flow-stopped': 'Flow stopped or bypassed',
  'camera-before': 'Surveyed by camera, position measured',
  'diameter-measured': 'Inner diameter measured, not only nominal',
  'packer-inspected': 'Packer without cut, abrasion or wear; even a superficial cut rejects it',
  'fittings-locked': 'Couplings click and lock',
  'relief-fitted': 'Relief valve fitted, set at or under the rated pressure',
  'regulator-fitted': 'Regulator fitted',
  'gauge-fitted': 'Dial gauge fitted, reads zero with the line open',
  'line-zero': 'Sensor zeroed with the coupling seen open',
  'probe-warmed': 'Each probe warmed in the hand beside a thermometer',
  'rope-fixed': 'Retrieval rope fixed, its tail clear of the sleeve',
  'film-fitted': 'Film square, not twisted, fastened at the end fittings',
  'sleeve-marks': 'Sleeve inside the marks of the usable length',
  'batches-noted': 'Batch numbers noted',
  'witness-kept': 'Witness sample kept at pipe temperature',
  ventilation: 'Gas tested, opening ventilated',
  protection: 'Gloves, eyes, breathing as the safety data sheet asks',
  'area-clear': 'Nobody in line with the packer or over the opening',
  'camera-after': 'Camera after the repair',
  cleaned: 'Packer cleaned and inspected again',
};
