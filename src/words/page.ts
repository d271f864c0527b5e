import { chosen } from './chosen.ts';

export const { PAGE } = chosen('page');
