import { chosen } from './chosen.ts';

export const { CUP_KEPT, CYCLES, driftText, HISTORY, PUT_AWAY } = chosen('history');
