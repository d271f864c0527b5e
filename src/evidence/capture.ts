import type { ByteSource } from '../record/byte-source.ts';
import { rebuildCapture } from '../record/capture.ts';

/** Frames that are laid together before they leave the memory, bytes. */
const PIECE = 1 << 20;

/** The device's very bytes, rebuilt from a run's pages; a piece of them stands in memory. */
export async function captureOf(pages: ByteSource): Promise<Blob> {
  const done: Blob[] = [];
  let piece: BlobPart[] = [];
  let size = 0;
  const lay = (): void => {
    done.push(new Blob(piece));
    piece = [];
    size = 0;
  };
  await rebuildCapture(pages, (bytes) => {
    piece.push(bytes as Uint8Array<ArrayBuffer>);
    size += bytes.length;
    if (size >= PIECE) lay();
  });
  lay();
  return new Blob(done);
}
