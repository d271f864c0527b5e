/**
 * A second adapter beside the one with the pressure, for temperatures alone. A leaf. Its channels are numbered on behind the
 * most that a device has, whatever the first one has: channel c of it is FIRST_BESIDE + c in a Setup, a job sheet and a reading.
 */
export const FIRST_BESIDE = 7;
/** The last number of a channel, of either. */
export const LAST_CHANNEL = 2 * FIRST_BESIDE - 1;

export const isBeside = (channel: number): boolean => channel >= FIRST_BESIDE;

/** Its own number on its own adapter. */
export const ownChannel = (channel: number): number => (isBeside(channel) ? channel - FIRST_BESIDE : channel);
