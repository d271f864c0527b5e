import { chosen } from './chosen.ts';

export const { ENGINE_ERROR, LAST_LINE, LINK_ERROR, LINK_STATE, SPAN_UNKNOWN, STOP_TRYING, TRYING } =
  chosen('link');
export type { Advice } from './en/link.ts';
