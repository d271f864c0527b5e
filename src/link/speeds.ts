import type { ChannelFrame } from './frames.ts';

/**
 * Speeds of a serial line that a host tries, bits a second: SPEC.md, "Speed". What is advised first, then what is
 * usual. Devices with a USB of their own ignore the speed and answer at the first. 1200 is left out: opening at it
 * sends some boards into their boot loader.
 */
export const USUAL_SPEEDS: readonly number[] = [500_000, 115_200, 1_000_000, 250_000, 57_600, 9600];

/** Those that worked on such a port before first, the newest first of all; then the usual ones. */
export const speedOrder = (worked: readonly number[]): readonly number[] => [
  ...new Set([...worked, ...USUAL_SPEEDS]),
];

/** A sample's longest line but for its counts, and bits a byte: SPEC.md, "Rate". */
const LINE_BYTES = 39;
const BITS_A_BYTE = 10;

const countBytes = ({ rawLo, rawHi }: Pick<ChannelFrame, 'rawLo' | 'rawHi'>): number =>
  1 + Math.max(`${Math.abs(rawLo)}`.length, `${Math.abs(rawHi)}`.length) + (rawLo < 0 ? 1 : 0);

/** Samples a second that a serial line of this speed carries with nothing else on it: a device that keeps to the protocol sends fewer. */
export const mostRateHz = (
  channels: readonly Pick<ChannelFrame, 'rawLo' | 'rawHi'>[],
  baudRate: number,
): number => baudRate / BITS_A_BYTE / channels.reduce((bytes, c) => bytes + countBytes(c), LINE_BYTES);
