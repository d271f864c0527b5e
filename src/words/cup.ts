import { chosen } from './chosen.ts';

export const { cupMark, cupShort, cupText } = chosen('cup');
