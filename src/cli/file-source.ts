import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { ByteSource } from '../record/byte-source.ts';

/** A file of Node as a source of bytes. @throws what Node throws when it can't be opened or read */
export function openSource(name: string): ByteSource & { close(): void } {
  const fd = openSync(name, 'r');
  return {
    size: fstatSync(fd).size,
    async read(at, length, into = new Uint8Array(length)) {
      let n = 0;
      for (let more = -1; n < length && more !== 0; n += more)
        more = readSync(fd, into, n, length - n, at + n);
      return into.subarray(0, n);
    },
    close: () => closeSync(fd),
  };
}
