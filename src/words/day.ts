import { chosen } from './chosen.ts';

export const { DAY } = chosen('day');
