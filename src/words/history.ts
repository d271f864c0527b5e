import { chosen } from './chosen.ts';

export const { CYCLES, driftText, HISTORY, PUT_AWAY } = chosen('history');
