import type { ByteFile } from '../record/types.ts';

/** Bytes that are kept nowhere: side files of a trace that has no run yet. */
export function createMemoryFile(): ByteFile {
  let bytes = new Uint8Array(4096);
  let size = 0;
  return {
    get size() {
      return size;
    },
    append(more) {
      if (size + more.length > bytes.length) {
        const wider = new Uint8Array((size + more.length) * 2);
        wider.set(bytes.subarray(0, size));
        bytes = wider;
      }
      bytes.set(more, size);
      size += more.length;
    },
    truncate(to) {
      size = Math.min(size, to);
    },
    read: (offset, length) => bytes.slice(offset, offset + length),
  };
}
