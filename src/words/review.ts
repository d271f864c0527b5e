import { chosen } from './chosen.ts';

export const { REVIEW } = chosen('review');
