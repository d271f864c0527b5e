import type { ByteFile } from './types.ts';

/** Bytes that need not stand in memory whole: an array, a Blob, a file. */
export interface ByteSource {
  readonly size: number;
  /**
   * Fewer bytes at the end of the source. Nobody writes to them.
   * @param into room for so many bytes, where a source that copies may put them; the next read may use it again
   */
  read(at: number, length: number, into?: Uint8Array): Promise<Uint8Array>;
}

export const bytesSource = (bytes: Uint8Array): ByteSource => ({
  size: bytes.length,
  read: async (at, length) => bytes.subarray(at, at + length),
});

/** A file as it is now; what is appended later is not of it. */
export const fileSource = (file: ByteFile): ByteSource => {
  const { size } = file;
  return { size, read: async (at, length) => file.read(at, Math.max(0, Math.min(length, size - at))) };
};

/** A stretch of another source. */
export const partOf = (source: ByteSource, start: number, size: number): ByteSource => ({
  size,
  read: (at, length, into) => source.read(start + at, Math.max(0, Math.min(length, size - at)), into),
});

export const readAll = (source: ByteSource): Promise<Uint8Array> => source.read(0, source.size);

/** Bytes read at a time: enough that a read costs nothing beside the work on it, few enough to stay in the cache. */
export const CHUNK = 1 << 20;

/** @throws RangeError when the source is shorter than it says */
export async function readSome(source: ByteSource, at: number, into?: Uint8Array): Promise<Uint8Array> {
  const chunk = await source.read(at, Math.min(CHUNK, source.size - at), into);
  if (chunk.length === 0) throw new RangeError(`the source ends at ${at} of ${source.size} bytes`);
  return chunk;
}

/** The source from end to end; a chunk is good until the next one is asked for. @throws RangeError as readSome */
export async function* chunksOf(source: ByteSource): AsyncGenerator<Uint8Array, void, undefined> {
  const room = new Uint8Array(Math.min(CHUNK, source.size));
  for (let at = 0; at < source.size; ) {
    const chunk = await readSome(source, at, room);
    at += chunk.length;
    yield chunk;
  }
}
