import type { PhotoOccasion } from '../../job/enclosed.ts';

export const OCCASIONS: Record<PhotoOccasion, string> = {
  before: 'Antes de la reparación',
  dressed: 'Packer vestido',
  seated: 'Asentado en el defecto',
  after: 'Después de la reparación',
  'packer-damage': 'Daño en el packer',
  'witness-sample': 'Muestra testigo',
  other: 'Otra cosa',
};
