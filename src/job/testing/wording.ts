import type { Wording } from '../wording.ts';

/** English with a point: what tests read. */
export const PLAIN_WORDING: Wording = { language: 'en', decimal: 'point' };
