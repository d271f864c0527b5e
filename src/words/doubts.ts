import { chosen } from './chosen.ts';

export const { doubtFigures, doubtText, reasonWith, STAGE_DOUBT } = chosen('doubts');
