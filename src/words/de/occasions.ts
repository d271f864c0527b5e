import type { PhotoOccasion } from '../../job/enclosed.ts';

/** What a photo shows. */
export const OCCASIONS: Record<PhotoOccasion, string> = {
  before: 'Vor der Sanierung',
  dressed: 'Packer bestückt',
  seated: 'Am Schaden angelegt',
  after: 'Nach der Sanierung',
  'packer-damage': 'Schaden am Packer',
  'witness-sample': 'Rückstellprobe',
  other: 'Etwas anderes',
};
