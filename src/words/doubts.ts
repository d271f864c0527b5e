import { chosen } from './chosen.ts';

export const { STAGE_DOUBT } = chosen('doubts');
