import { chosen } from './chosen.ts';

export const { CAUTION, CAUTIONS_AT } = chosen('cautions');
