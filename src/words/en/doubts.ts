/** What speaks against going to another stage; said before the step, recorded with its reason. */
export type DoubtCode = 'cure-not-met' | 'no-witness' | 'under-pressure' | 'no-rebound' | 'not-zeroed';

export const STAGE_DOUBT: Record<DoubtCode, string> = {
  'cure-not-met': 'Cure time by the data sheet is not met at the coldest credible place.',
  'no-witness': 'The witness sample kept at pipe temperature was not noted as hard.',
  'under-pressure': 'The line is not at zero.',
  'no-rebound':
    'The rebound test was not passed: a line at zero is not an empty packer. Close the vent, wait, see that it stays at zero.',
  'not-zeroed': 'The zero of the sensor was not taken with the coupling seen open.',
};
