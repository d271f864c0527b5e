import { chosen } from './chosen.ts';

export const { BENCH, foundText, POINT, REFUSED, VERDICT } = chosen('bench');
