/** Writes a zip of our one form (zip-form.ts) member after member, so that no long file need stand in memory whole. */
import { centralHeader, endRecord, isMemberName, localHeader, MAX_BYTES, MAX_MEMBERS } from './zip-form.ts';

export interface ZipWriter {
  /** The header to be written before the member's content, which comes next. */
  add(name: string, crc: number, size: number): Uint8Array;
  /** The directory and the end record. */
  finish(): Uint8Array[];
}

const ascii = new TextEncoder();

/** @throws RangeError (by its functions) on a name or number of members, or a size, that this form does not have */
export function zipWriter(most: number = MAX_MEMBERS): ZipWriter {
  const central: Uint8Array[] = [];
  const seen = new Set<string>();
  let at = 0;
  const go = (bytes: number): void => {
    at += bytes;
    if (at > MAX_BYTES) throw new RangeError('a file of more than 4 GiB');
  };
  return {
    add(name, crc, size) {
      if (central.length === most) throw new RangeError(`${most} members and more are too many`);
      if (!isMemberName(name) || seen.has(name.toLowerCase()))
        throw new RangeError(`not a member name: ${name}`);
      seen.add(name.toLowerCase());
      const bytes = ascii.encode(name);
      const header = localHeader(bytes, crc, size);
      central.push(centralHeader(bytes, crc, size, at));
      go(header.length + size);
      return header;
    },
    finish() {
      const start = at;
      for (const header of central) go(header.length);
      const end = endRecord(central.length, at - start, start);
      go(end.length);
      return [...central, end];
    },
  };
}
