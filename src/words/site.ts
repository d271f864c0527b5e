import { chosen } from './chosen.ts';

export const { LINE, LINE_MEANS, MATERIAL, TAP, TAP_MEANS } = chosen('site');
