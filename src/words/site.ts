import { chosen } from './chosen.ts';

export const { LINE, LINE_MEANS, MATERIAL, SECOND_PLACE, TAP, TAP_MEANS } = chosen('site');
