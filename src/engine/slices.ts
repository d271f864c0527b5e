import { pause, type Timers } from '../link/timers.ts';
import type { ByteSource } from '../record/byte-source.ts';

/** Long work beside the guard goes in slices: the watch, the pulse and every entry have their turn between them. */
export interface Slices {
  /** Goes on at once, or where the slice is used up, once the others had their turn. */
  breathe(): Promise<void>;
}

const SLICE_US = 20_000;
/** Bytes that are scanned and hashed in a few milliseconds. */
const PIECE = 1 << 17;

export function createSlices(timers: Timers): Slices {
  let sinceUs = timers.nowUs();
  return {
    async breathe() {
      if (timers.nowUs() - sinceUs < SLICE_US) return;
      await pause(timers, 0);
      sinceUs = timers.nowUs();
    },
  };
}

/** The source, read in pieces, with a breath before each. */
export const inSlices = (source: ByteSource, slices: Slices): ByteSource => ({
  size: source.size,
  async read(at, length, into) {
    await slices.breathe();
    return source.read(at, Math.min(length, PIECE), into);
  },
});
