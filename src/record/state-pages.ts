/** Where in a run's file whoever judges it again may begin: the pages in which a state stands. */
import { type ByteSource, CHUNK } from './byte-source.ts';
import { isTooLong } from './judgement.ts';
import { FIXED_HEADER, type PageHeader, readHeader } from './layout.ts';
import { STATE_STEP } from './log.ts';

export interface StatePages {
  /** Offsets of those pages, bytes, ascending. */
  readonly offsets: readonly number[];
  /** The most of any page's columns. */
  readonly channels: number;
}

/** A header with the longest run id. */
const MOST_HEADER = FIXED_HEADER + 4 * 12 + 64 + 8;

/**
 * Reads the heads of the pages alone: whether the pages are sound, whoever reads them whole says.
 * @returns null where they are not one after the other from end to end, hold more states than their samples ask for, or claim to
 * be longer than any run
 */
export async function statePages(pages: ByteSource): Promise<StatePages | null> {
  const offsets: number[] = [];
  let channels = 0;
  let samples = 0;
  let lastUs = 0;
  let chunk: Uint8Array = new Uint8Array(0);
  let base = 0;
  for (let at = 0, index = 0; at < pages.size; index++) {
    const needed = Math.min(MOST_HEADER, pages.size - at);
    if (at < base || at + needed > base + chunk.length) {
      base = at;
      chunk = await pages.read(at, Math.min(CHUNK, pages.size - at));
      if (chunk.length < needed) return null;
    }
    const found = readHeader(chunk, at - base);
    if (!found.ok || !follows(found.header, index, lastUs)) return null;
    const { header } = found;
    if (header.format === 3 && index > 0) offsets.push(at);
    channels = Math.max(channels, header.samples > 0 ? header.channels : 0);
    samples += header.samples;
    lastUs = header.lastUs;
    at += header.pageBytes;
    if (isTooLong(lastUs, samples)) return null;
  }
  return offsets.length > samples / STATE_STEP ? null : { offsets, channels };
}

const follows = (h: PageHeader, index: number, lastUs: number): boolean =>
  h.index === index && h.firstUs >= lastUs;
