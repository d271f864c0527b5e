import { chosen } from './chosen.ts';

export const { FACE, LAMP, REASONS, SEEN_EMPTY, SHELF_REASONS } = chosen('face');
