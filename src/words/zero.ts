import { chosen } from './chosen.ts';

export const { ZERO, ZERO_SECOND } = chosen('zero');
