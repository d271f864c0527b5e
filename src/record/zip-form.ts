/**
 * Zip in one form only: every member stored, no extra fields, no comments, one fixed date, nothing between or
 * around the members. Any unzip opens it; and since nothing is left to choice, a reader can say of every byte of
 * it what it must be. Layout: APPNOTE.TXT 6.3, without Zip64.
 */

export const MAX_MEMBERS = 1000;
export const MAX_NAME = 120;
/** No size and no offset is larger; as a size it would stand for Zip64. */
export const MAX_BYTES = 0xffff_ffff;
/** Letters of one folder deep at most: nothing that leaves the folder it is unpacked into. */
const NAME =
  /^[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*(\/[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*)?$/;

export const isMemberName = (name: string): boolean => name.length <= MAX_NAME && NAME.test(name);

export const LOCAL = 0x0403_4b50;
const CENTRAL = 0x0201_4b50;
const END = 0x0605_4b50;
/** 2.0: plain files; made on Unix, so that the mode below is read as one. */
const VERSION = 20;
const MADE_BY = (3 << 8) | VERSION;
/** 1980-01-01, the first day that the format knows: a date would make two files of one record. */
const DATE = (1 << 5) | 1;
/** A plain file, rw-r--r--. */
const MODE = (0o100644 << 16) >>> 0;

/** A local header without its name. */
export const LOCAL_BYTES = 30;

export function localHeader(name: Uint8Array, crc: number, size: number): Uint8Array {
  const out = new Uint8Array(LOCAL_BYTES + name.length);
  const v = new DataView(out.buffer);
  v.setUint32(0, LOCAL, true);
  v.setUint16(4, VERSION, true);
  v.setUint16(12, DATE, true);
  v.setUint32(14, crc, true);
  v.setUint32(18, size, true);
  v.setUint32(22, size, true);
  v.setUint16(26, name.length, true);
  out.set(name, LOCAL_BYTES);
  return out;
}

export function centralHeader(name: Uint8Array, crc: number, size: number, offset: number): Uint8Array {
  const out = new Uint8Array(46 + name.length);
  const v = new DataView(out.buffer);
  v.setUint32(0, CENTRAL, true);
  v.setUint16(4, MADE_BY, true);
  v.setUint16(6, VERSION, true);
  v.setUint16(14, DATE, true);
  v.setUint32(16, crc, true);
  v.setUint32(20, size, true);
  v.setUint32(24, size, true);
  v.setUint16(28, name.length, true);
  v.setUint32(38, MODE, true);
  v.setUint32(42, offset, true);
  out.set(name, 46);
  return out;
}

/** The end record without anything behind it. */
export const END_BYTES = 22;

export function endRecord(members: number, size: number, offset: number): Uint8Array {
  const out = new Uint8Array(END_BYTES);
  const v = new DataView(out.buffer);
  v.setUint32(0, END, true);
  v.setUint16(8, members, true);
  v.setUint16(10, members, true);
  v.setUint32(12, size, true);
  v.setUint32(16, offset, true);
  return out;
}

export type ZipFault =
  | 'not-a-zip'
  | 'truncated' // the file ends before its last record
  | 'header' // a header or record is not the one form
  | 'compressed' // only stored members are taken: what unpacks to more than it is can't come in
  | 'encrypted'
  | 'zip64'
  | 'name' // a path, a device name, other letters
  | 'twice' // one name two times, also when only the case differs, or as a file and as a folder
  | 'too-many'
  | 'behind'; // bytes behind the end

/** Faults that no accident makes of a file of our one form: it is something else, or means harm. */
const NO_ACCIDENT: Readonly<Record<ZipFault, boolean>> = {
  'not-a-zip': true,
  compressed: true,
  encrypted: true,
  zip64: true,
  name: true,
  twice: true,
  'too-many': true,
  truncated: false,
  header: false,
  behind: false,
};
export const isNoAccident = (fault: ZipFault): boolean => NO_ACCIDENT[fault];

export interface ZipProblem {
  readonly fault: ZipFault;
  readonly offset: number;
  /** The member concerned, where it is known. */
  readonly name: string | null;
}
