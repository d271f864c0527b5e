import { chosen } from './chosen.ts';

export const { CARD } = chosen('card');
