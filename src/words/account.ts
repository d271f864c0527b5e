import { chosen } from './chosen.ts';

export const { ACCOUNT, accountText, gaugeText, OPEN_POINT, overText, witnessText } = chosen('account');
