/** Stable codes; the catalogue has the words. Never rename one: add another. */

/** What is looked at before mixing, in the order of the work, then after the repair. */
export const CHECKS = [
  'permit', // entry permit and confined-space rules seen to
  'flow-stopped', // flow stopped or bypassed
  'camera-before', // surveyed, position measured
  'diameter-measured', // inner diameter measured, not only nominal
  'packer-inspected', // no cut, abrasion or wear, not even a superficial cut
  'fittings-locked', // couplings click and lock
  'relief-fitted', // relief valve fitted, set at or under the rating
  'regulator-fitted',
  'gauge-fitted', // dial gauge fitted, reads zero with the line open
  'line-zero', // transducer zeroed with the coupling seen open
  'probe-warmed', // each thermocouple warmed in the hand beside a thermometer
  'rope-fixed', // retrieval rope fixed, its tail kept clear of the sleeve
  'film-fitted', // protective film square, not twisted, fastened at the end fittings
  'sleeve-marks', // sleeve lies inside the usable length's marks
  'batches-noted',
  'witness-kept', // witness sample of the mixed resin kept at pipe temperature
  'ventilation', // gas tested, opening ventilated
  'protection', // gloves, eyes, breathing as the safety data sheet asks
  'area-clear', // nobody in line with the packer or over the opening
  'camera-after',
  'cleaned', // packer cleaned and inspected again
] as const;
export type CheckCode = (typeof CHECKS)[number];

/** Cautions that are shown where they matter and acknowledged on the sheet. */
export const CAUTIONS = [
  'stored-energy', // a burst can kill: keep out of the line of the pipe and off the opening
  'not-a-safety-device', // watches and warns; replaces no relief valve
  'big-packer', // big packers at low pressure are not safer
  'unrestrained', // over a void, missing wall, lateral or protruding end a packer can burst below its rating
  'hose-whip', // never open a coupling under pressure
  'dammed-water', // a blocked pipe dams its water
  'explosive-gas', // sewer gas and styrene can explode
  'no-warning', // no warning does not mean safe
  'resin-hazard', // safety data sheet, ventilation, gloves; a bucket of mixed resin heats up and can burn
  'confined-space',
  'engineer-design', // design of a repair is for a licensed engineer where the law says so
] as const;
export type CautionCode = (typeof CAUTIONS)[number];
