import { chosen } from './chosen.ts';

export const { ZERO } = chosen('zero');
