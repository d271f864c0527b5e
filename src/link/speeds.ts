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

/** A sample's line: type, status, check and their commas, its end, counters of the usual length, and a count a channel (SPEC.md, part 4, S). */
const LINE_BYTES = { frame: 34, count: 6 } as const;
const BITS_A_BYTE = 10;

/** Samples a second that a serial line of this speed carries with nothing else on it. */
export const mostRateHz = (channels: number, baudRate: number): number =>
  baudRate / BITS_A_BYTE / (LINE_BYTES.frame + LINE_BYTES.count * channels);
