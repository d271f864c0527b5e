/** The last moment that a date can tell, ms since 1970 (ECMA-262, 21.4.1.1). */
const MOST_UTC_MS = 8.64e15;

/** UTC in whole ms since 1970 that can be shown: what a record claims may be any number. */
export const isUtcMs = (v: unknown): v is number =>
  typeof v === 'number' && Number.isSafeInteger(v) && v >= 0 && v <= MOST_UTC_MS;
