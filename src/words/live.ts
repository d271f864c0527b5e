import { chosen } from './chosen.ts';

export const { LIVE, PRACTICE_SITE, RIG, RIG_FAULT } = chosen('live');
