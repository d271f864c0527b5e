import { chosen } from './chosen.ts';

export const { SUPPLY, SUPPLY_REASON, supplyText } = chosen('supply');
