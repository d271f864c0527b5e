import { chosen } from './chosen.ts';

export const {
  ENGINE_ERROR,
  LAST_LINE,
  LINE_TOO_SLOW,
  LINK_ERROR,
  LINK_STATE,
  SPAN_UNKNOWN,
  STOP_TRYING,
  STORE_CAUSE,
  TRYING,
} = chosen('link');
export type { Advice } from './en/link.ts';
