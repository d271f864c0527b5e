import { bytesSource } from '../byte-source.ts';
import { rebuildCapture } from '../capture.ts';

/** The capture of a run's file in one piece. */
export async function captureOf(pages: Uint8Array): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  await rebuildCapture(bytesSource(pages), (bytes) => chunks.push(bytes));
  return new Uint8Array(Buffer.concat(chunks));
}
