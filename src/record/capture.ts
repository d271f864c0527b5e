/** The device's very bytes, rebuilt from the log: frames in their one form, stray bytes as they came. */

import { encodeFrame } from '../link/encode.ts';
import type { ByteSource } from './byte-source.ts';
import type { LogEntry } from './log.ts';
import { readRun } from './reader.ts';

/** What the entry stood for on the line; null for what did not come from the device. */
export function entryBytes(entry: LogEntry): Uint8Array | null {
  if (entry.l === 'frame') return encodeFrame(entry.frame);
  return entry.l === 'stray' ? entry.bytes : null;
}

/** The capture of a run's file, as far as its pages stand, frame by frame. */
export async function rebuildCapture(pages: ByteSource, out: (bytes: Uint8Array) => void): Promise<void> {
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
