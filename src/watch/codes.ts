/** Stable strings that a record keeps. Never rename one: add another. */

/** Events and inputs change meaning only together with this number. */
export const ENGINE = 1;

export const STAGES = [
  'prepare',
  'seat',
  'inflate',
  'hold',
  'let-down',
  'done',
  'air-test', // of the finished repair, between two plugs
  'abandoned',
] as const;
export type Stage = (typeof STAGES)[number];

export const ALARMS = [
  'over-range', // over the end of the sensor's span: nobody knows how far
  'over-rated', // median of three over the packer's rated pressure
  'over-test', // between the plugs of an air test there is more than the test allows
  'ceiling', // median of three at or over the ceiling
  'rising', // will not stop by itself or by a normal hand
  'supply-over', // the regulator's outlet is over the ceiling
  'supply-moved', // over what the supply was proved at, or stood at: the regulator has moved
  'pressure-lost', // no usable pressure: silence, port gone, out of range, sensor fault
  'device-trip', // the device's own limit tripped
  'fast-fall', // the pressure falls fast in a hold: let-down or loss?
  'below-floor', // under the hold floor
  'leaking', // verdict of the hold
  'band-exit', // the band will be left downwards by leak
  'lift', // the band will be left upwards by warmth
  'device-unarmed', // a limit is set here but the device does not guard it
  'device-deaf', // the device takes no command: it cannot be told its limit
  'device-fault', // the device says what is wrong with itself
  'device-reset',
  'supply-low',
  'slow-readings', // readings come far rarer than before: the guard sees a fill later
  'stuck', // pressure does not move where noise was seen before
  'reading-jump', // the sensor itself has jumped: no air makes such a step
  'line-contradicted', // the data contradict the declared line or tap
  'sensors-differ', // two pressures of one line contradict each other
  'second-lost', // no usable second pressure
  'gauge-differs', // dial gauge and transducer differ beyond their uncertainty
  'rebound', // pressure came back after the vent was closed
  'temperature-lost', // a probe that cure or hold relies on is open or gone
  'cold', // under the data sheet's lowest temperature: no cure credit
  'pot-life', // pot life runs out before seating
  'batch-slow', // the witness cup: this batch reacts slowly, or not at all
  'store-fault', // the record cannot be written
  'clock-jump', // the tablet slept
  'garbage', // bytes on the line that are no frames
] as const;
export type AlarmCode = (typeof ALARMS)[number];

/** Most urgent first. */
export const PRIORITIES = ['urgent', 'high', 'low'] as const;
export type Priority = (typeof PRIORITIES)[number];

/** IEC 62682 / ISA-18.2 states. */
export type AlarmState =
  | 'normal'
  | 'unacknowledged'
  | 'acknowledged'
  | 'returned' // returned to normal, unacknowledged
  | 'shelved'
  | 'suppressed'; // suppressed by design: a child of a raised parent, or not of this stage

export const GAP_REASONS = [
  'silence',
  'port',
  'reset',
  'dropped',
  'clock',
  'resumed',
  'garbage',
  'out-of-order', // lines came in another order than they were sampled in
  'device-clock', // the device's clock jumped
] as const;
export type GapReason = (typeof GAP_REASONS)[number];

export type LossCause =
  | 'silence'
  | 'port'
  | 'range'
  | 'fault'
  | 'reset'
  | 'garbage'
  | 'other-device' // another one answers than the readings were of
  | 'rescaled'; // it answers with other channels or scales than the readings were made by

/** How the end of the line is closed while the supply is proved. */
export const LINE_ENDS = ['shut', 'uncoupled'] as const;
export type LineEnd = (typeof LINE_ENDS)[number];

/** What a proved supply is good for. */
export const SUPPLY_VERDICTS = [
  'stands', // at the working pressure, and stays there
  'under-working', // no fill reaches the working pressure
  'over-working',
  'over-ceiling', // not to be coupled
  'creeps', // passes the ceiling by itself
] as const;
export type SupplyVerdict = (typeof SUPPLY_VERDICTS)[number];

/** Why a proof was not begun, was broken off, is asked about or holds no longer. */
export const SUPPLY_REASONS = [
  'not-in-prepare',
  'no-reading',
  'not-empty', // the line was under pressure before the supply was opened
  'no-rise', // the supply was not opened, or the sensor does not see it
  'slow-rise', // slower than a hose fills: is the packer on it?
  'never-still', // a leak, or an open end
  'end-leaks', // it fell when the valve was shut
  'packer-on', // said
  'stopped', // said
  'turned', // said: the regulator was set anew
  'stage',
  'gap',
  'device', // another sensor, scale or place
  'fill-as-fast', // the packer filled as fast as the hose did: it was on it
] as const;
export type SupplyReason = (typeof SUPPLY_REASONS)[number];

/** What an air test says of the repair. */
export const AIR_TEST_VERDICTS = ['passed', 'failed', 'cannot-say'] as const;
export type AirTestVerdict = (typeof AIR_TEST_VERDICTS)[number];

/** Why an air test was not begun or was broken off, or why its drop says nothing. */
export const AIR_TEST_REASONS = [
  'not-in-stage',
  'no-plan', // the job names none, or an input of it is missing
  'no-reading',
  'sensor-too-coarse', // its uncertainty is over a tenth of the allowed drop
  'over-plugs', // groundwater asks for more than plugs may hold
  'stopped', // said
  'not-held', // it does not stay at the test pressure: said, or seen
  'air-came-in', // while the drop was timed
  'gap',
  'device', // another sensor, scale or test
  'stage',
  'end',
  'near', // the drop is nearer to the allowed one than it is known
  'rose', // warmth, or a supply that is not shut
] as const;
export type AirTestReason = (typeof AIR_TEST_REASONS)[number];

/** How two pressures of one line contradict each other. */
export const PAIR_DOUBTS = [
  'swapped', // the packer fills while its supply reads nothing
  'against-flow', // the packer rises, and its supply reads less than it does
  'apart', // joined and at rest, they differ by more than their uncertainty
] as const;
export type PairDoubt = (typeof PAIR_DOUBTS)[number];

/** What lies between regulator and packer, as the two pressures show it. */
export const PAIR_PATHS = [
  'flows',
  'level', // no more comes: the supply stands no higher than the packer
  'blocked', // the supply stands over the packer and gives nothing: a shut valve, or a kinked hose
  'escapes', // the supply gives air and the packer does not rise: limp still, or the air goes elsewhere
] as const;
export type PairPath = (typeof PAIR_PATHS)[number];

/** What a witness cup says of its batch. */
export const CUP_VERDICTS = [
  'waits', // nothing to say yet
  'reacts', // it warms by itself
  'usual', // as quick as the resin's earlier batches
  'quick',
  'slow',
  'no-reaction', // long after it should have, it has not warmed
  'cannot-tell',
] as const;
export type CupVerdict = (typeof CUP_VERDICTS)[number];

/** Why a witness cup cannot tell. */
export const CUP_DOUBTS = [
  'little-heat', // it warms too little to be read
  'lost', // its probe was not read for too long
  'not-of-pot', // it does not begin at the pot's temperature: no probe in it, or another batch
  'too-early', // no batch is so quick: mixed before, or another resin
  'cooler-than-sleeve', // the sleeve was hotter: its probe hangs in the air, or the two probes are swapped
] as const;
export type CupDoubt = (typeof CUP_DOUBTS)[number];

/** How a witness sample contradicts the count. */
export const SAMPLE_DOUBTS = [
  'hard-early', // hard when even the hopeful count is under half: kept warmer than the pipe?
  'soft-late', // not hard when even the cautious count is well over the end: a slow batch?
] as const;
export type SampleDoubt = (typeof SAMPLE_DOUBTS)[number];

/** Marks that stand as long as what they say; in this order. */
export const STANDINGS = [
  'no-limit',
  'no-margin',
  'practice',
  'not-zeroed',
  'uncalibrated',
  'device-unarmed',
  'no-hold-by-tap',
  'packer-not-inspected', // it was over its rating in an earlier run
  'only-one-seen', // two packers on one line
  'cure-not-judged', // a resin that light cures
  'hold-under-working', // the hold began far under the working pressure, and is under it still
  'hold-over-working', // it began over it, and is over it still
] as const;
export type Standing = (typeof STANDINGS)[number];

/** Near enough to the working pressure for a hold to begin: from this share of it on, and over it by this much, bar (common practice, no source). */
export const HOLD_BEGINS = { share: 0.9, overBar: 0.05 } as const;
