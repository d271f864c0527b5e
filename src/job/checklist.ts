/** Stable codes; the catalogue has the words. Never rename one: add another. */

/** Items of the built-in list. */
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

/** When an item is asked: nobody can say before mixing what the camera sees after the repair. */
export const MOMENTS = [
  'arrival', // at the site, before anything is begun
  'mixing', // before the resin is mixed
  'air', // before air goes into the packer
  'let-down', // before the packer is let down
  'after', // the packer is out
] as const;
export type Moment = (typeof MOMENTS)[number];

/** What an answer holds beside the yes. */
export const WANTS = ['tick', 'number', 'text'] as const;
export type Wants = (typeof WANTS)[number];

/** How an item stands: seen to, or gone on without it for a reason. */
export const ANSWERED = ['done', 'passed'] as const;
export type Answered = (typeof ANSWERED)[number];

/** What may be said of an item in a run: as it stands, or that it was said by mistake. */
export const CHECK_SAID = [...ANSWERED, 'taken-back'] as const;
export type CheckSaid = (typeof CHECK_SAID)[number];

/**
 * The list that stands where a firm has none of its own: when each item is asked, and whether somebody may be hurt where it is
 * not seen to (common practice, no source). Its words are the language's.
 */
export const BUILT_IN: Readonly<Record<CheckCode, { readonly at: Moment; readonly safety: boolean }>> = {
  permit: { at: 'arrival', safety: true },
  'flow-stopped': { at: 'arrival', safety: false },
  'camera-before': { at: 'arrival', safety: false },
  'diameter-measured': { at: 'arrival', safety: false },
  'packer-inspected': { at: 'mixing', safety: true },
  'fittings-locked': { at: 'air', safety: true },
  'relief-fitted': { at: 'mixing', safety: true },
  'regulator-fitted': { at: 'mixing', safety: false },
  'gauge-fitted': { at: 'mixing', safety: false },
  'line-zero': { at: 'mixing', safety: false },
  'probe-warmed': { at: 'mixing', safety: false },
  'rope-fixed': { at: 'mixing', safety: false },
  'film-fitted': { at: 'mixing', safety: false },
  'sleeve-marks': { at: 'air', safety: false },
  'batches-noted': { at: 'air', safety: false },
  'witness-kept': { at: 'air', safety: false },
  ventilation: { at: 'arrival', safety: true },
  protection: { at: 'mixing', safety: true },
  'area-clear': { at: 'air', safety: true },
  'camera-after': { at: 'after', safety: false },
  cleaned: { at: 'after', safety: false },
};

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
