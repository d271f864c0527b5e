import { chosen } from './chosen.ts';

export const { SHEET } = chosen('sheet');
