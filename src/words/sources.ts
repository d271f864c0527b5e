import { chosen } from './chosen.ts';

export const { doubtText, LACK, reachedRate, SOURCE } = chosen('sources');
