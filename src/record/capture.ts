/** The line's very bytes, rebuilt from the log: frames in their one form, raw evidence and stray bytes as they came. */

import { encodeFrame } from '../link/encode.ts';
import type { ByteSource } from './byte-source.ts';
import { joinBytes } from './bytes.ts';
import type { LogEntry } from './log.ts';
import { readRun } from './reader.ts';

/**
 * What each entry stood for on the line of the pressure, asked in order; null for what did not come over it: commands, what a
 * second adapter sent, and the hello that was made in the place of a source that has none.
 */
export function createEntryBytes(): (entry: LogEntry) => Uint8Array | null {
  let isByMap = false;
  return (entry) => {
    if (entry.l === 'stray') return entry.bytes;
    if (entry.l !== 'frame') return null;
    if (entry.frame.t === 'H') isByMap = entry.map !== undefined;
    if (!isByMap) return encodeFrame(entry.frame);
    return entry.raw === undefined ? null : joinBytes(entry.raw.map((part) => part.bytes));
  };
}

/** The capture of a run's file, as far as its pages stand, frame by frame. */
export async function rebuildCapture(pages: ByteSource, out: (bytes: Uint8Array) => void): Promise<void> {
  const entryBytes = createEntryBytes();
  await readRun(
    pages,
    {
      entry(entry) {
        const bytes = entryBytes(entry);
        if (bytes !== null) out(bytes);
      },
    },
    { chain: false },
  );
}
