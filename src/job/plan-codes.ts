/**
 * What a plan may say, as stable codes; the catalogue has the words. Never rename one: add another.
 *
 * Numbers that belong to a code travel with it under the names of DerivationInput and NoteNumbers.
 */

/** Worth saying; work may go on. */
export const WARNINGS = [
  'no-packer', // no packer chosen: no limit set
  'no-rating', // the packer has no rating: no limit set
  'diameter-unknown', // the packer's lowest rating is used
  'diameter-not-measured', // nominal size stands for the inner diameter
  'plate-says-working', // the plate's working pressure is taken as the maximum
  'working-proposed', // no working pressure was entered: the proposal is used
  'ceiling-kept', // within a run the ceiling only falls: the run's own stands
  'no-margin', // working between ceiling and rated, with a reason
  'lift-past-ceiling', // warmth may lift a closed line over the ceiling
  'rise-assumed', // expected rise is a guess by exotherm class
  'heating-unknown', // nobody said whether the packer is warmed: cure waits as if it were
  'heated-to-unknown', // warmed to nobody says what: its lift is not planned
  'not-gas', // warmed by water or steam: the gas law does not hold
  'wetness-unknown', // nobody said whether there is water in the line: its vapour is counted
  'two-on-line', // only one of two packers is seen
  'no-relief', // no relief valve known
  'relief-over-rated',
  'relief-under-working',
  'water-unknown', // no hold floor
  'free-inflation-unknown', // no hold floor
  'seat-over-working', // no seat pause planned
  'tap-no-hold', // with this tap only the guard runs
  'second-left-out', // a third pressure, or a second one at the outlet
  'line-unknown', // no leak can be told
  'u-large', // uncertainty over a tenth of rated
  'u-assumed', // nothing known of the sensor
  'device-not-described', // no device connected: its own description comes later
  'channel-missing', // the device has no such channel
  'sensor-missing', // an assigned sensor's document is gone
  'beside-missing', // the job names channels of a second adapter, and none answers
  'beside-pressure', // the second adapter reads no pressure
  'signal-differs', // sensor document and device disagree on the signal: the device's is used
  'span-unknown', // a voltage whose ends of the span nobody states: the channel is not read
  'calibration-none',
  'calibration-refused', // its points make no calibration
  'calibration-other-device', // made on another device or channel: not used
  'calibration-due',
  'sensor-retired',
  'zero-refused', // in the sensor's last job its zero was too far off to be taken
  'zero-jumped', // the zero of its last job stands out
  'zero-drifting', // at its pace over the jobs the zero is soon refused
  'gauge-differed', // in its last job it did not agree with the dial gauge
  'gauge-drifting', // it moves away from the dial gauge over the jobs
  'probe-differed', // in its last job the probe did not agree with the thermometer
  'probe-uncompared', // it goes by its class: what one comparison is worth
  'cup-coarse', // nothing is known of this resin in such a cup: it tells the coarse alone
  'no-sleeve-place', // no probe at the sleeve: cure waits by the ground
  'air-assumed',
  'ground-unknown',
  'volume-estimated',
  'volume-unknown',
  'overlap-short', // under 100 mm of sound pipe
  'usable-unknown',
  'defect-unknown', // no sleeve length
  'thickness-short', // thinner than the check asks for
  'thickness-unknown', // an input of the check is missing
  'thickness-differs', // the check's thickness is not that of the layers
  'fabric-unknown', // no resin mass
  'density-unknown', // no hardener by mass
  'pot-life-unknown',
  'mixing-uncounted',
  'pot-life-extrapolated',
  'pot-life-tight', // under five minutes to spare
  'pot-mass', // more is mixed than the pot life was stated for
  'no-resin',
  'light-cured', // cure is not judged
  'no-cure-points',
  'cold', // the ground may be under the sheet's lowest temperature: no cure credit
  'resin-expired',
  'batch-missing',
  'packer-damaged', // last entries of its log say damage
  'packer-over-rated', // it was over its rating, and no inspection is logged since
  'packer-unseen', // nobody has looked at it since its last cycle
  'rated-high', // a rating that is seldom met, read again on the plate, or of the other packer
  'packer-leak-grows', // its leak moves up over the cycles of its log
  'air-test-refused', // uncertainty over a tenth of the allowed drop
  'air-test-unknown', // an input is missing
  'air-test-over-plugs', // groundwater asks for more than plugs may hold
] as const;
export type WarningCode = (typeof WARNINGS)[number];

/** Before mixing: not like this. After mixing the same codes are warnings and block nothing. */
export const REFUSALS = [
  'working-over-rated',
  'no-margin-reason', // working over the ceiling without a recorded reason
  'lift-past-rated', // closed line, expected lift past rated
  'floor-over-working', // working does not reach the hold floor
  'u-over-rated', // the sensor cannot guard this packer
  'other-unrated', // two packers on the line, and the other one's rating is not known
  'rated-unread', // a rating that is seldom met, and nobody read the plate again
  'rated-over-range', // the sensor's span ends under rated
  'packer-too-small', // the pipe is wider than the packer may grow
  'packer-too-large',
  'packer-retired',
  'sleeve-too-long', // longer than the usable length at this diameter
  'pot-life-short', // handling takes longer than the pot life
] as const;
export type RefusalCode = (typeof REFUSALS)[number];

/** Numbers that a plan works out; each is shown with its formula and inputs on demand. */
export const DERIVATIONS = [
  'rated', // packer's table at this diameter
  'rated-lower', // of two packers on one line
  'u', // expanded uncertainty at rated
  'ceiling', // rated − U, or rated with a reason
  'lift', // (working + air) · rise / T, and the vapour of liquid water
  'proposal', // working such that working + lift + after-rise is the ceiling
  'working',
  'head', // ρ · g · h
  'free-inflation', // packer's table at this diameter
  'floor', // head + free inflation + margin
  'air', // air pressure
  'volume', // packer's table and hose, or a cylinder
  'energy', // ASME PCC-2 form
  'end-force', // p · π/4 · D²
  'sleeve-length', // defect + 2 · overlap
  'usable-length', // marks and the inextensible meridian
  'cut-width', // π · (D − t) a layer + lap
  'sleeve-thickness', // layers · layer
  'thickness-buckling', // ASTM F1216 X1.1
  'thickness-stress', // ASTM F1216 X1.2
  'resin-mass', // area · fabric · ratio · (1 + waste)
  'hardener-mass',
  'pot-life', // sheet's table at the mix temperature
  'seat-by', // pot life from mixing
  'air-test-time',
  'air-test-drop',
  'air-test-u',
] as const;
export type DerivationCode = (typeof DERIVATIONS)[number];

/** Units in which a plan's numbers are kept. '1' is a plain number. */
export type PlanUnit =
  | 'bar'
  | 'mbar'
  | 'mbar/min'
  | 'Pa'
  | 'C'
  | 'K'
  | 'mm'
  | 'm'
  | 'L'
  | 'g'
  | 'g/m2'
  | 'kg/m3'
  | 'min'
  | 's'
  | 'J'
  | 'N'
  | 'MPa'
  | '%'
  | '1';

/** What an input of a formula is: the catalogue names it. */
export const INPUTS = [
  'diameter',
  'rated',
  'u',
  'ceiling',
  'working',
  'air',
  'rise',
  'ground',
  'lift',
  'after-rise',
  'vapour',
  'other-rated',
  'density',
  'water-level',
  'head',
  'free-inflation',
  'margin',
  'altitude',
  'packer-volume',
  'hose-volume',
  'length',
  'defect',
  'overlap',
  'mark-below',
  'mark-above',
  'length-below',
  'length-above',
  'thickness',
  'lap',
  'layers',
  'layer',
  'pressure',
  'modulus',
  'strength',
  'safety-factor',
  'poisson',
  'enhancement',
  'ovality',
  'ovality-factor',
  'area',
  'fabric',
  'ratio',
  'waste',
  'resin-mass',
  'parts',
  'hardener-parts',
  'mix-temperature',
  'cup-mass',
  'lowest-temperature',
  'pot-life',
  'handling',
  'start-pressure',
  'drop',
  'test-coefficient',
  'sensor-span',
  'sensor-step',
  'leak',
  'zero',
  'days',
  'off-gauge',
  'off-thermometer',
  'sooner',
] as const;
export type InputCode = (typeof INPUTS)[number];

export interface DerivationInput {
  readonly name: InputCode;
  readonly value: number;
  readonly unit: PlanUnit;
}

/** A number of the plan with where it comes from. */
export interface Derivation {
  readonly code: DerivationCode;
  readonly value: number;
  readonly unit: PlanUnit;
  readonly inputs: readonly DerivationInput[];
}

export interface PlanNote<C extends string> {
  readonly code: C;
  /** Numbers that the sentence needs, in the plan's units. */
  readonly numbers: readonly DerivationInput[];
  /** What it is about, where that has a name: a sensor's serial, a channel. */
  readonly about: string | null;
}
