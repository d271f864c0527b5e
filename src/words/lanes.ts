import { chosen } from './chosen.ts';

export const { LANES, CURE_LINE } = chosen('lanes');
