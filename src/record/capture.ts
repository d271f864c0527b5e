/** The device's very bytes, rebuilt from the log: frames in their one form, stray bytes as they came. */

import { encodeFrame } from '../link/encode.ts';
import type { LogEntry } from './log.ts';
import { scanRun } from './reader.ts';

/** What the entry stood for on the line; null for what did not come from the device. */
export function entryBytes(entry: LogEntry): Uint8Array | null {
  if (entry.l === 'frame') return encodeFrame(entry.frame);
  return entry.l === 'stray' ? entry.bytes : null;
}

/** The capture of a run's file, as far as its pages stand. */
export function rebuildCapture(file: Uint8Array): Uint8Array {
  const chunks: Uint8Array[] = [];
  let size = 0;
  scanRun(
    file,
    {
      entry(entry) {
        const bytes = entryBytes(entry);
        if (bytes === null) return;
        chunks.push(bytes);
        size += bytes.length;
      },
    },
    { chain: false },
  );
  const all = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}
