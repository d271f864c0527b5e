import { chosen } from './chosen.ts';

export const { ENGINE_ERROR, LINK_ERROR, LINK_STATE, SPAN_UNKNOWN } = chosen('link');
export type { Advice } from './en/link.ts';
