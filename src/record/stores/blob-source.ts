import { type ByteSource, chunksOf } from '../byte-source.ts';
import { storeErrorOf } from './dom-errors.ts';

/** A Blob, or a file of the disk behind one. Reading throws a StoreError, 'corrupt' when the file was exchanged meanwhile. */
export const blobSource = (blob: Blob): ByteSource => ({
  size: blob.size,
  async read(at, length) {
    try {
      return new Uint8Array(await blob.slice(at, at + length).arrayBuffer());
    } catch (cause) {
      throw storeErrorOf(cause);
    }
  },
});

/** The bytes of a source as a Blob, a chunk of them in memory at a time. */
export async function blobOf(source: ByteSource, type: string): Promise<Blob> {
  const parts: Blob[] = [];
  for await (const chunk of chunksOf(source)) parts.push(new Blob([chunk as Uint8Array<ArrayBuffer>]));
  return new Blob(parts, { type });
}
