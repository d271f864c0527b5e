import { chosen } from './chosen.ts';

export const { LINE, LINE_MEANS, MATERIAL, SECOND_NAME, SECOND_PLACE, TAP, TAP_MEANS } = chosen('site');
