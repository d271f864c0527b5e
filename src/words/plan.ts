import type {
  DerivationCode,
  DerivationInput,
  InputCode,
  PlanNote,
  PlanUnit,
  RefusalCode,
  WarningCode,
} from '../job/plan-codes.ts';
import { type Kind, showText } from '../units/display.ts';
import { duration, fixed, METRIC, NO_VALUE } from './format.ts';

/** What a plan says: warnings, refusals, and each number with its formula. */

export const WARNING: Record<WarningCode, string> = {
  'no-packer': 'No packer is chosen: no limit is set, gauge only.',
  'no-rating': 'The packer has no rated pressure: no limit is set, gauge only.',
  'diameter-unknown': 'The pipe’s diameter is not known: the packer’s lowest rating is used.',
  'diameter-not-measured': 'The nominal size stands in for the inner diameter. Measure it.',
  'plate-says-working': 'The plate’s working pressure is taken as the maximum.',
  'working-proposed': 'No working pressure was entered: the proposal is used.',
  'ceiling-kept': 'Within a run the ceiling only falls: the one this run began with stands.',
  'no-margin': 'Working at the rated pressure leaves no margin for a sensor that reads low or for warmth.',
  'lift-past-ceiling': 'Warmth of the cure may lift the line over the ceiling.',
  'rise-assumed': 'The warming of the air by the cure is assumed by exotherm class.',
  'no-relief': 'No relief valve is known. Fit one, set at or under the rated pressure.',
  'relief-over-rated': 'The relief valve is set over the rated pressure.',
  'relief-under-working': 'The relief valve opens at or under the working pressure.',
  'water-unknown': 'Groundwater is not known: there is no hold floor.',
  'free-inflation-unknown':
    'The packer’s free inflation pressure is not known: there is no hold floor until the fill shows it.',
  'seat-over-working': 'The seat pressure is not under the working pressure: no seat pause is planned.',
  'tap-no-hold': 'With this tap only the guard runs: hold and leak cannot be judged.',
  'line-unknown': 'How the line is fed is not known: a leak cannot be told.',
  'u-large': 'The uncertainty of the reading is over a tenth of the rated pressure.',
  'u-assumed': 'Nothing is known of the sensor: a wide uncertainty is assumed.',
  'device-not-described': 'No device is connected: its own description comes later.',
  'channel-missing': 'The device has no such channel.',
  'sensor-missing': 'The document of an assigned sensor is gone.',
  'signal-differs': 'Sensor document and device do not agree on the signal: the device’s is used.',
  'calibration-none': 'The sensor has no calibration.',
  'calibration-refused': 'The points of the calibration make no calibration: it is not used.',
  'calibration-other-device': 'The calibration was made on another device or channel: it is not used.',
  'calibration-due': 'The calibration is past its date.',
  'sensor-retired': 'The sensor is retired.',
  'zero-refused': 'In its last job the sensor’s zero was too far off to be taken.',
  'zero-jumped': 'The sensor’s zero moved more in its last job than in the jobs before. Compare it early.',
  'zero-drifting': 'The sensor’s zero moves from job to job and is soon too far off to be taken.',
  'gauge-differed': 'In its last job the sensor did not agree with the dial gauge.',
  'gauge-drifting': 'Sensor and dial gauge move apart from job to job: one of them is due for calibration.',
  'probe-differed': 'In its last job the probe did not agree with the thermometer.',
  'no-sleeve-place': 'No probe at the sleeve: cure time waits by the ground temperature.',
  'air-assumed': 'Air pressure is assumed.',
  'ground-unknown': 'Ground temperature is not known: cure time cannot be told where no probe can.',
  'volume-estimated': 'The gas volume is estimated.',
  'volume-unknown': 'The gas volume is not known.',
  'overlap-short': 'The overlap on sound pipe is under 100 mm.',
  'usable-unknown': 'The packer’s usable length at this diameter is not known.',
  'defect-unknown': 'The length of the defect is not known: no sleeve length.',
  'thickness-short': 'The sleeve is thinner than the thickness check asks for.',
  'thickness-unknown': 'An input of the thickness check is missing.',
  'thickness-differs': 'The thickness of the check is not that of the layers.',
  'fabric-unknown': 'Fabric weight or resin ratio is missing: no resin mass.',
  'density-unknown': 'A density is missing: no hardener by mass.',
  'pot-life-unknown': 'Pot life at this temperature is not known.',
  'pot-life-extrapolated': 'The mixing temperature lies outside the sheet’s pot life table.',
  'pot-life-tight': 'Less than five minutes are left between seating and the end of the pot life.',
  'pot-mass': 'More is mixed than the pot life was stated for: it runs out sooner.',
  'no-resin': 'No resin is chosen: cure time is not followed.',
  'no-cure-points': 'The resin has no cure time: cure time is not followed.',
  cold: 'The ground may be under the sheet’s lowest temperature: then no cure time is counted.',
  'resin-expired': 'The resin batch has expired.',
  'batch-missing': 'Batch numbers are missing.',
  'packer-damaged': 'The packer’s log ends with damage.',
  'packer-unseen': 'No inspection of the packer is logged since its last cycle.',
  'packer-leak-grows': 'The packer’s leak grows from job to job: look for the reason before it is used.',
  'air-test-refused': 'The sensor is too uncertain for this air test: it needs a low-range channel.',
  'air-test-unknown': 'An input of the air test is missing.',
};

export const REFUSAL: Record<RefusalCode, string> = {
  'working-over-rated': 'The working pressure is over the rated pressure.',
  'no-margin-reason':
    'The working pressure is over the ceiling. Lower it, or give a reason for working at the rated pressure.',
  'lift-past-rated':
    'Warmth of the cure would lift this line past the rated pressure. Lower the working pressure, or use a relieving regulator.',
  'floor-over-working':
    'The working pressure does not reach the hold floor: the sleeve would not stay on the wall.',
  'u-over-rated': 'The sensor is too uncertain to guard this packer.',
  'rated-over-range': 'The sensor’s range ends under the rated pressure: it cannot see the ceiling.',
  'packer-too-small': 'The pipe is wider than this packer may grow.',
  'packer-too-large': 'The pipe is narrower than this packer fits.',
  'packer-retired': 'The packer is retired.',
  'sleeve-too-long': 'The sleeve is longer than the packer’s usable length at this diameter.',
  'pot-life-short': 'Handling takes longer than the pot life.',
};

export const DERIVATION: Record<DerivationCode, { readonly name: string; readonly how: string }> = {
  rated: {
    name: 'Rated pressure',
    how: 'The packer’s table at this diameter; between two rows the lower one.',
  },
  u: {
    name: 'Uncertainty of the reading (k = 2)',
    how: 'Calibration, zero, resolution, supply and noise, combined.',
  },
  ceiling: { name: 'Ceiling', how: 'Rated pressure less the uncertainty of the reading.' },
  lift: {
    name: 'Expected lift by warmth',
    how: '(working + air pressure) × rise / absolute ground temperature.',
  },
  proposal: {
    name: 'Proposed working pressure',
    how: 'So that working + lift + after-rise of the hose is the ceiling.',
  },
  working: { name: 'Working pressure', how: 'As entered, or as proposed; never over the ceiling.' },
  head: { name: 'Groundwater head at the invert', how: 'Density of water × gravity × level.' },
  'free-inflation': { name: 'Free inflation pressure', how: 'The packer’s table at this diameter.' },
  floor: { name: 'Hold floor', how: 'Head + free inflation pressure + seating margin.' },
  air: { name: 'Air pressure, absolute', how: 'Standard atmosphere at the altitude, or as entered.' },
  volume: { name: 'Gas volume', how: 'The packer’s table and the hose, or a cylinder of its usable length.' },
  energy: {
    name: 'Stored energy',
    how: 'Isentropic expansion of the gas volume, the form of ASME PCC-2. An inflated packer can kill.',
  },
  'end-force': { name: 'End force', how: 'Pressure × area of the pipe.' },
  'sleeve-length': { name: 'Length of the sleeve', how: 'Defect + overlap on sound pipe at both ends.' },
  'usable-length': {
    name: 'Usable length of the packer',
    how: 'Between its marks, ends drawn in as the rubber grows.',
  },
  'cut-width': { name: 'Cut width', how: 'π × (inner diameter − thickness) a layer, with the lap.' },
  'sleeve-thickness': { name: 'Thickness of the sleeve', how: 'Layers × thickness of a layer.' },
  'thickness-buckling': {
    name: 'Thickness against water, a check',
    how: 'ASTM F1216, X1.1. For an engineer, not a design.',
  },
  'thickness-stress': {
    name: 'Thickness against bending, a check',
    how: 'ASTM F1216, X1.2. For an engineer, not a design.',
  },
  'resin-mass': { name: 'Mixed resin', how: 'Area × fabric weight × resin ratio, with waste.' },
  'hardener-mass': { name: 'Hardener in it', how: 'By the mixing ratio.' },
  'pot-life': { name: 'Pot life', how: 'The sheet’s table at the mixing temperature.' },
  'seat-by': { name: 'Seated at the latest, from mixing', how: 'The pot life.' },
  'air-test-time': { name: 'Air test: time', how: 'By the method’s table or formula.' },
  'air-test-drop': { name: 'Air test: allowed drop', how: 'By the method.' },
  'air-test-u': { name: 'Air test: uncertainty of a drop', how: 'Of the difference of two readings.' },
};

export const INPUT: Record<InputCode, string> = {
  diameter: 'inner diameter',
  rated: 'rated',
  u: 'uncertainty',
  ceiling: 'ceiling',
  working: 'working',
  air: 'air pressure',
  rise: 'rise of the air',
  ground: 'ground',
  lift: 'lift',
  'after-rise': 'after-rise of the hose',
  density: 'density',
  'water-level': 'water level',
  head: 'head',
  'free-inflation': 'free inflation',
  margin: 'margin',
  altitude: 'altitude',
  'packer-volume': 'packer',
  'hose-volume': 'hose',
  length: 'length',
  defect: 'defect',
  overlap: 'overlap',
  'mark-below': 'mark below',
  'mark-above': 'mark above',
  'length-below': 'length below',
  'length-above': 'length above',
  thickness: 'thickness',
  lap: 'lap',
  layers: 'layers',
  layer: 'layer',
  pressure: 'pressure',
  modulus: 'modulus',
  strength: 'strength',
  'safety-factor': 'safety factor',
  poisson: 'Poisson’s ratio',
  enhancement: 'enhancement K',
  ovality: 'ovality',
  'ovality-factor': 'ovality factor',
  area: 'area',
  fabric: 'fabric',
  ratio: 'ratio',
  waste: 'waste',
  'resin-mass': 'resin',
  parts: 'parts of resin',
  'hardener-parts': 'parts of hardener',
  'mix-temperature': 'mixing temperature',
  'pot-life': 'pot life',
  handling: 'handling',
  'start-pressure': 'start pressure',
  drop: 'drop',
  'test-coefficient': 'coefficient',
  leak: 'leak',
  zero: 'zero',
  days: 'days left',
  'off-gauge': 'reading less dial gauge',
  'off-thermometer': 'reading less thermometer',
};

const KIND: Partial<Record<PlanUnit, Kind>> = {
  bar: 'pressure',
  mbar: 'smallPressure',
  'mbar/min': 'pressureRate',
  C: 'temperature',
  K: 'temperatureDifference',
  mm: 'length',
  m: 'distance',
  L: 'volume',
  g: 'mass',
  J: 'energy',
  N: 'force',
};

const PLAIN: Partial<Record<PlanUnit, string>> = {
  Pa: 'Pa',
  'g/m2': 'g/m²',
  'kg/m3': 'kg/m³',
  MPa: 'MPa',
};

/** A number of the plan in the user's units. */
export function planNumber(value: number, unit: PlanUnit, units = METRIC): string {
  if (!Number.isFinite(value)) return NO_VALUE;
  if (unit === 's') return duration(value);
  if (unit === 'min') return duration(value * 60);
  const kind = KIND[unit];
  if (kind !== undefined)
    return showText(kind, value, units, 'point', unit === 'bar' && Math.abs(value) < 0.1 ? 1 : 0);
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  const text = fixed(value, digits);
  return PLAIN[unit] === undefined ? text : `${text}\u00a0${PLAIN[unit]}`;
}

export function inputsText(inputs: readonly DerivationInput[], units = METRIC): string {
  return inputs.map((i) => `${INPUT[i.name]} ${planNumber(i.value, i.unit, units)}`).join(', ');
}

function noteText(text: string, note: PlanNote<string>, units = METRIC): string {
  const about = note.about === null ? '' : ` (${note.about})`;
  const numbers = note.numbers.length === 0 ? '' : ` ${capital(inputsText(note.numbers, units))}.`;
  return `${text.slice(0, -1)}${about}.${numbers}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function warningText(note: PlanNote<WarningCode>, units = METRIC): string {
  return noteText(WARNING[note.code], note, units);
}

export function refusalText(note: PlanNote<RefusalCode>, units = METRIC): string {
  return noteText(REFUSAL[note.code], note, units);
}
