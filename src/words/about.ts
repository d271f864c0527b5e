import { chosen } from './chosen.ts';

export const { ABOUT } = chosen('about');
