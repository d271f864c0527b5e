import { chosen } from './chosen.ts';

export type { RunClock } from './en/account.ts';

export const { ACCOUNT, accountText, gaugeText, OPEN_POINT, overText, witnessText } = chosen('account');
