import { chosen } from './chosen.ts';

export const { AGAIN, DUE, MIX } = chosen('due');
