import { chosen } from './chosen.ts';

export const { FIRM, PHOTOS } = chosen('photos');
