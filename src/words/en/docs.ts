import type { PackerDocument } from '../../job/packer-document.ts';
import type { ResinDocument } from '../../job/resin-document.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';

/** Words of the documents: packers, resins, sensors. */
export const DOCS = {
  packerOne: 'Packer',
  resinOne: 'Resin',
  sensorOne: 'Sensor',
  newOne: 'New',
  none: 'None yet.',
  smallest: 'Smallest pipe',
  largest: 'Largest pipe',
  more: 'Lengths, free inflation, volume, relief valve',
  readAgain: (pressure: string) => `${pressure}? Read the plate again.`,
  ratingsText: 'From the plate or the maker’s data sheet. Between two rows the lower pressure counts.',
  diameter: 'Diameter',
  rated: 'Rated',
  length: 'Length',
  pressure: 'Pressure',
  litres: 'Volume',
  addRow: 'Add a row',
  removeRow: (n: number) => `Remove row ${n}`,
  /** Beside a row that a run's review kept. */
  ofRun: 'Its run',
  mix: 'Mix',
  resinParts: 'Parts of resin',
  hardenerParts: 'Parts of hardener',
  basis: 'Parts are',
  expires: 'Batch expires',
  logWhat: 'What',
  logNote: 'Note',
  logAdd: 'Add to the log',
  cureText:
    'Time to the end that the data sheet names, at each temperature it gives. One row is enough, more are better.',
  temperature: 'Temperature',
  minutes: 'Time',
  rangeLo: 'Range from',
  rangeHi: 'Range to',
  spanLo: 'Signal at the lower end',
  spanHi: 'Signal at the upper end',
  cupText:
    'One row a batch that was accepted, or a cup mixed with scales in the yard, in the crew’s usual vessel: as the review tells it. They hold for the cure times above: take them out when those change.',
  cupMass: 'Mixed resin in the cup',
  cupMark: 'Greatest heat at this share of the data sheet’s time',
  cupRise: 'Warmed by',
  curedByHint: 'By light: then cure is not judged, whatever times stand below.',
  perKelvinHint:
    'Zero and span together, by its data sheet, in % of the span a kelvin. Empty: what is usual is taken.',
  calDate: 'Date',
  calReference: 'Reference instrument',
  calU: 'Standard uncertainty of the reference',
  asFound: 'As found',
  asLeft: 'As left',
  indicated: 'Indicated',
  reference: 'Reference',
  addCalibration: 'Add a calibration',
  removeCalibration: 'Move to earlier calibrations',
  notSaved: 'Not saved: see the marked fields.',
  gone: 'This document is not here any more.',
  removeTitle: 'Remove it?',
  removeText: 'Jobs and runs that used it keep what they recorded.',
};

/** What members of documents are called on their forms; of those left out each field has a name of its own. */
const SHARED = { name: 'Name', serial: 'Serial number', retired: 'Retired', notes: 'Notes' };

export const PACKER: {
  readonly [M in Exclude<keyof PackerDocument, 'version' | 'sizes' | 'earlierCycles'>]: string;
} = {
  name: SHARED.name,
  serial: SHARED.serial,
  plate: 'The plate says',
  plateReadBar: 'I read the plate again: the highest rated pressure above is right',
  ratings: 'Rated pressure by diameter',
  usable: 'Usable length by diameter',
  freeInflation: 'Free inflation pressure by diameter',
  volume: 'Gas volume by diameter',
  reliefBar: 'Set pressure of its relief valve',
  retired: SHARED.retired,
  conditions: 'Log of the packer',
  notes: SHARED.notes,
};

export const RESIN: { readonly [M in Exclude<keyof ResinDocument, 'version' | 'mix' | 'batch'>]: string } = {
  name: SHARED.name,
  kind: 'Kind',
  curedBy: 'Cures by',
  curePoints: 'Cure time of the data sheet',
  criterion: 'The data sheet’s time ends when',
  countsFrom: 'The data sheet’s time counts from',
  lowestC: 'Lowest temperature of the data sheet',
  exotherm: 'Exotherm',
  expectedRiseK: 'Expected warming of the air in the packer',
  potLife: 'Pot life',
  potMassG: 'Of a mass of',
  resinDensity: 'Density of the resin',
  hardenerDensity: 'Density of the hardener',
  mixedDensity: 'Density of the mix',
  cupMarks: 'Marks of witness cups',
  notes: SHARED.notes,
};

export const SENSOR: {
  readonly [M in Exclude<keyof SensorDocument, 'version' | 'range' | 'span' | 'earlier'>]: string;
} = {
  name: SHARED.name,
  serial: SHARED.serial,
  quantity: 'Measures',
  signal: 'Signal',
  thermocouple: 'Thermocouple type',
  thermocoupleClass: 'Tolerance class (IEC 60584-1)',
  gaugeKind: 'Reads',
  accuracy: 'Accuracy of its data sheet (k = 2)',
  perKelvin: 'Moves with its own warmth',
  deviceId: 'Device',
  channel: 'Channel',
  calibration: 'Calibration',
  dueDays: 'Due after days',
  retired: SHARED.retired,
  notes: SHARED.notes,
};

/** A probe compared at one point, with the readings of the device that will read it. */
export const COMPARISON = {
  begin: 'Compare in melting ice',
  where: 'Compared',
  ice: 'In stirred melting ice: 0 °C',
  thermometer: 'Beside a reference thermometer',
  iceReference: 'Stirred melting ice',
  iceHow:
    'Crush ice, fill the cup with it, add clean cold water up to the top of the ice, and stir for two minutes with the probe’s tip in the middle, off the wall and the bottom. There must still be ice at the end.',
  thermometerHow:
    'Bind both tips together in a stirred bucket of water, as warm as the job will be. Wait until both stand still, take the reading, then type what the thermometer shows.',
  none: 'No probe is read. Connect the device that will read it on the job, with the probe plugged in.',
  practice: 'The practice rig’s probes are not real: nothing is taken from them for a real sensor.',
  channel: (channel: number, value: string) => `Channel ${channel}: ${value}`,
  take: 'Take this reading',
  moving: 'Wait: it still moves',
  typeReference: 'Type what the thermometer showed under “Reference”.',
};
