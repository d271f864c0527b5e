import { chosen } from './chosen.ts';

export const { LIVE, RIG, RIG_FAULT } = chosen('live');
