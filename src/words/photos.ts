import { chosen } from './chosen.ts';

export const { PHOTOS } = chosen('photos');
