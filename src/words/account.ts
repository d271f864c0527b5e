import { chosen } from './chosen.ts';

export const { ACCOUNT, accountText, gaugeText, OPEN_POINT, overText, supplyProved, witnessText } =
  chosen('account');
