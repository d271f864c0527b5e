import type { DerivationCode, PlanNote, WarningCode } from '../../job/plan-codes.ts';
import { METRIC } from '../create-format.ts';
import type { refusals } from './refusals.ts';

/** What a plan says: warnings, and each number with its formula. */

/** `of` is what the warning is about and its numbers, in brackets, or nothing. */
const WARNING: Record<WarningCode, (of: string) => string> = {
  'no-packer': (of) => `No packer is chosen: no limit, no over-pressure warning${of}.`,
  'no-rating': (of) => `The packer has no rated pressure: no limit, no over-pressure warning${of}.`,
  'diameter-unknown': (of) => `The pipe’s diameter is not known: the packer’s lowest rating is used${of}.`,
  'diameter-not-measured': (of) => `The nominal size stands in for the inner diameter${of}. Measure it.`,
  'plate-says-working': (of) => `The plate’s working pressure is taken as the maximum${of}.`,
  'working-proposed': (of) => `No working pressure was entered: the proposal is used${of}.`,
  'ceiling-kept': (of) =>
    `During a run you can lower the ceiling, never raise it: the one this run began with stands${of}.`,
  'no-margin': (of) =>
    `Working at the rated pressure leaves no margin for a sensor that reads low or for cure heat${of}.`,
  'lift-past-ceiling': (of) => `Cure heat may raise the line over the ceiling${of}.`,
  'rise-assumed': (of) => `The warming of the air by the cure is assumed by exotherm class${of}.`,
  'heating-unknown': (of) =>
    `Nobody said whether the packer is warmed from outside: cure time is counted as if it were, and reached later${of}. Say it on the job sheet.`,
  'heated-to-unknown': (of) =>
    `The packer is warmed and nobody said to what: the lift by that warmth is not in the plan${of}. Enter it on the job sheet.`,
  'not-gas': (of) =>
    `With water or steam in the packer the gas law does not hold: a leak cannot be told and the lift by warmth is not foretold${of}.`,
  'wetness-unknown': (of) =>
    `Nobody said whether there is water in the line: the lift by its vapour is counted${of}. Say it on the job sheet.`,
  'two-on-line': (of) =>
    `Two packers hang on this line and one sensor cannot tell them apart: only one is seen, and the lower rating is the limit${of}.`,
  'no-relief': (of) => `No relief valve is known${of}. Fit one, set at or under the rated pressure.`,
  'relief-over-rated': (of) => `The relief valve is set over the rated pressure${of}.`,
  'relief-under-working': (of) => `The relief valve opens at or under the working pressure${of}.`,
  'water-unknown': (of) => `Groundwater is not known: there is no hold floor${of}.`,
  'free-inflation-unknown': (of) =>
    `The packer’s free inflation pressure is not known: there is no hold floor until inflating shows it${of}.`,
  'seat-over-working': (of) =>
    `The seat pressure is not under the working pressure: no seat pause is planned${of}.`,
  'tap-no-hold': (of) => `Sensor here: over-pressure warning only, no leak check${of}.`,
  'second-left-out': (of) =>
    `A job reads two pressures, each from its own position: this channel is not read${of}.`,
  'line-unknown': (of) => `How the line is fed is not known: a leak cannot be told${of}.`,
  'u-large': (of) => `The uncertainty of the reading is over a tenth of the rated pressure${of}.`,
  'u-assumed': (of) => `Nothing is known of the sensor: a wide uncertainty is assumed${of}.`,
  'device-not-described': (of) => `No device is connected: sensor data comes when you connect${of}.`,
  'channel-missing': (of) => `The device has no such channel${of}.`,
  'sensor-missing': (of) => `The document of an assigned sensor is gone${of}.`,
  'beside-missing': (of) => `The second adapter does not answer, or has no such channel${of}.`,
  'beside-pressure': (of) =>
    `The second adapter serves for temperatures alone: its pressure is not read${of}.`,
  'signal-differs': (of) =>
    `Sensor document and device do not agree on the signal: the device’s is used${of}.`,
  'span-unknown': (of) =>
    `Nobody states which voltages are the start and the end of the sensor’s span: the channel is not read${of}. Enter both in the sensor’s document and name it on the job sheet.`,
  'calibration-none': (of) => `The sensor has no calibration${of}.`,
  'calibration-refused': (of) => `The points of the calibration make no calibration: it is not used${of}.`,
  'calibration-other-device': (of) =>
    `The calibration was made on another device or channel: it is not used${of}.`,
  'calibration-due': (of) => `The calibration is past its date${of}.`,
  'sensor-retired': (of) => `The sensor is retired${of}.`,
  'zero-refused': (of) => `In its last job the sensor’s zero was too far off to be taken${of}.`,
  'zero-jumped': (of) =>
    `The sensor’s zero moved more in its last job than in the jobs before${of}. Compare it early.`,
  'zero-drifting': (of) =>
    `The sensor’s zero moves from job to job and is soon too far off to be taken${of}.`,
  'gauge-differed': (of) => `In its last job the sensor did not agree with the dial gauge${of}.`,
  'gauge-drifting': (of) =>
    `Sensor and dial gauge move apart from job to job: one of them is due for calibration${of}.`,
  'probe-differed': (of) => `In its last job the probe did not agree with the thermometer${of}.`,
  'probe-uncompared': (of) =>
    `A probe that was never compared is judged by its class. One comparison in melting ice, in the sensor’s document, ends the wait for the cure time sooner${of}.`,
  'cup-coarse': (of) =>
    `The witness cup tells only whether the resin reacts: for more it needs its mass, the temperature at mixing and marks of earlier cups in the resin’s document${of}.`,
  'no-sleeve-place': (of) => `No probe at the sleeve: cure counted at ground temperature${of}.`,
  'air-assumed': (of) => `Air pressure is assumed${of}.`,
  'ground-unknown': (of) => `No ground temperature: without a probe, no cure time${of}.`,
  'volume-estimated': (of) => `The gas volume is estimated${of}.`,
  'volume-unknown': (of) => `The gas volume is not known${of}.`,
  'overlap-short': (of) => `The overlap on sound pipe is under 100 mm${of}.`,
  'usable-unknown': (of) => `The packer’s usable length at this diameter is not known${of}.`,
  'defect-unknown': (of) => `The length of the defect is not known: no sleeve length${of}.`,
  'thickness-short': (of) => `The sleeve is thinner than the thickness check asks for${of}.`,
  'thickness-unknown': (of) => `An input of the thickness check is missing${of}.`,
  'thickness-differs': (of) => `The thickness of the check is not that of the layers${of}.`,
  'fabric-unknown': (of) => `Fabric weight or resin ratio is missing: no resin mass${of}.`,
  'density-unknown': (of) => `A density is missing: no hardener by mass${of}.`,
  'pot-life-unknown': (of) => `Pot life at this temperature is not known${of}.`,
  'mixing-uncounted': (of) =>
    `The data sheet’s time counts from mixing${of}. Without the temperature at mixing it is counted from seating on, and the wait is longer.`,
  'pot-life-extrapolated': (of) =>
    `The mixing temperature lies outside the data sheet’s pot life table${of}.`,
  'pot-life-tight': (of) =>
    `Less than five minutes are left between seating and the end of the pot life${of}.`,
  'pot-mass': (of) => `More is mixed than the pot life was stated for: it runs out sooner${of}.`,
  'no-resin': (of) => `No resin is chosen: cure time is not followed${of}.`,
  'light-cured': (of) =>
    `The resin cures by light: time at temperature says nothing of it, and cure is not judged${of}.`,
  'no-cure-points': (of) => `The resin has no cure time: cure time is not followed${of}.`,
  cold: (of) =>
    `The ground may be under the lowest temperature of the data sheet: then no cure time is counted${of}.`,
  'resin-expired': (of) => `The resin batch has expired${of}.`,
  'batch-missing': (of) => `Batch numbers are missing${of}.`,
  'packer-damaged': (of) => `The packer’s log ends with damage${of}.`,
  'packer-over-rated': (of) =>
    `The packer was over its rated pressure, and no inspection is logged since${of}: inspect it before it is used.`,
  'packer-unseen': (of) => `No inspection of the packer is logged since its last cycle${of}.`,
  'rated-high': (of) =>
    `The rated pressure is higher than packers are usually rated${of}: look that it is bar.`,
  'packer-leak-grows': (of) =>
    `The packer’s leak grows from job to job: look for the reason before it is used${of}.`,
  'air-test-refused': (of) =>
    `The sensor is too uncertain for this air test: it needs a low-range channel${of}.`,
  'air-test-over-plugs': (of) =>
    `Groundwater asks for more air than is put on pipe plugs: this air test is not made${of}.`,
  'air-test-unknown': (of) => `An input of the air test is missing${of}.`,
};

const DERIVATION: Record<DerivationCode, { readonly name: string; readonly how: string }> = {
  rated: {
    name: 'Rated pressure',
    how: 'The packer’s table at this diameter; between two rows the lower one.',
  },
  'rated-lower': { name: 'Rated pressure on this line', how: 'Of two packers on one line the lower rating.' },
  u: {
    name: 'Uncertainty of the reading (k = 2)',
    how: 'Calibration, zero, resolution, sensor power and noise, combined.',
  },
  ceiling: { name: 'Ceiling', how: 'Rated pressure less the uncertainty of the reading.' },
  lift: {
    name: 'Expected lift by warmth',
    how: '(working + air pressure) × rise / absolute ground temperature; with water in the line its vapour besides.',
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
  'pot-life': { name: 'Pot life', how: 'The data sheet’s table at the mixing temperature.' },
  'seat-by': { name: 'Seat within (from mixing)', how: 'The pot life.' },
  'air-test-time': { name: 'Air test: time', how: 'By the method’s table or formula.' },
  'air-test-drop': { name: 'Air test: allowed drop', how: 'By the method.' },
  'air-test-u': { name: 'Air test: uncertainty of a drop', how: 'Of the difference of two readings.' },
};

export const plan = ({ noteText }: ReturnType<typeof refusals>) => ({
  DERIVATION,
  warningText: (note: PlanNote<WarningCode>, units = METRIC): string =>
    noteText(WARNING[note.code], note, units),
});
