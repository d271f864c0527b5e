import { chosen } from './chosen.ts';

export const { PAIR_PATH, SUPPLY, SUPPLY_REASON, supplyText } = chosen('supply');
