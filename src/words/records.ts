import { chosen } from './chosen.ts';

export const { RECORDS } = chosen('records');
