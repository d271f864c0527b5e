import type { PhotoOccasion } from '../../job/enclosed.ts';

/** What a photo shows. */
export const OCCASIONS: Record<PhotoOccasion, string> = {
  before: 'Avant la réparation',
  dressed: 'Packer habillé',
  seated: 'Plaqué au défaut',
  after: 'Après la réparation',
  'packer-damage': 'Dommage au packer',
  'witness-sample': 'Échantillon témoin',
  other: 'Autre chose',
};
