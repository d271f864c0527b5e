import { chosen } from './chosen.ts';

export const { FACE, LAMP, REASONS, SHELF_REASONS } = chosen('face');
