import type { PhotoOccasion } from '../../job/enclosed.ts';

/** What a photo shows. */
export const OCCASIONS: Record<PhotoOccasion, string> = {
  before: 'Before the repair',
  dressed: 'Packer dressed',
  seated: 'Seated at the defect',
  after: 'After the repair',
  'packer-damage': 'Damage to the packer',
  'witness-sample': 'Witness sample',
  other: 'Something else',
};
