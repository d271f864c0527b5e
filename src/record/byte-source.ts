/** Bytes that need not stand in memory whole: an array, a Blob, a file. */
export interface ByteSource {
  readonly size: number;
  /** Fewer bytes at the end of the source. They are the source's: good until the next read, and never written to. */
  read(at: number, length: number): Promise<Uint8Array>;
}

export const bytesSource = (bytes: Uint8Array): ByteSource => ({
  size: bytes.length,
  read: async (at, length) => bytes.subarray(at, at + length),
});

/** A stretch of another source. */
export const partOf = (source: ByteSource, start: number, size: number): ByteSource => ({
  size,
  read: (at, length) => source.read(start + at, Math.max(0, Math.min(length, size - at))),
});

export const readAll = (source: ByteSource): Promise<Uint8Array> => source.read(0, source.size);

/** Bytes read at a time: enough that a read costs nothing beside the work on it, few enough to stay in the cache. */
const CHUNK = 1 << 20;

/** The source from end to end, a chunk at a time. @throws RangeError when it is shorter than it says */
export async function* chunksOf(source: ByteSource): AsyncGenerator<Uint8Array, void, undefined> {
  for (let at = 0; at < source.size; ) {
    const chunk = await source.read(at, Math.min(CHUNK, source.size - at));
    if (chunk.length === 0) throw new RangeError(`the source ends at ${at} of ${source.size} bytes`);
    at += chunk.length;
    yield chunk;
  }
}
