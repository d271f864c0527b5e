import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { notRun } from '../../tests/unit/not-run.ts';
import { bytesSource } from './byte-source.ts';
import { joinBytes } from './bytes.ts';
import { crc32 } from './crc.ts';
import { FILE } from './members.ts';
import { makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import { END_BYTES, LOCAL_BYTES } from './zip-form.ts';
import { readZip, type ZipEntry } from './zip-reader.ts';

// A valid record by a known key, around which the container says two things: one to this reader, another to some unzip.
// Offsets of fields: APPNOTE.TXT 6.3, 4.3.7 (local header), 4.3.12 (directory), 4.3.16 (end record).

const CENTRAL_BYTES = 46;
const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

let made: SealedFile;
let entries: readonly ZipEntry[];
/** Where the directory begins, and each member's header in it. */
let directory: number;
const central = new Map<string, number>();
const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-tricks-'));
afterAll(() => rmSync(folder, { recursive: true }));

beforeAll(async () => {
  made = await makeSealedFile();
  ({ entries } = await readZip(bytesSource(made.file)));
  const last = entries[entries.length - 1]!;
  directory = last.start + last.size;
  let at = directory;
  for (const { name } of entries) {
    central.set(name, at);
    at += CENTRAL_BYTES + name.length;
  }
});

/** A zip in pieces: each member's header, name, extra field and content, then those of the directory, and the end. */
interface Pieces {
  readonly local: Uint8Array[];
  readonly central: Uint8Array[];
  end: Uint8Array;
  before: Uint8Array;
}

/** Puts it together again with offsets and counts that are right for an unzip. */
function joined({ local, central: heads, end, before }: Pieces): Uint8Array {
  let at = before.length;
  local.forEach((piece, i) => {
    const head = heads[i];
    if (head !== undefined) new DataView(head.buffer).setUint32(42, at, true);
    at += piece.length;
  });
  const size = heads.reduce((sum, h) => sum + h.length, 0);
  const v = new DataView(end.buffer);
  v.setUint16(8, heads.length, true);
  v.setUint16(10, heads.length, true);
  v.setUint32(12, size, true);
  v.setUint32(16, at, true);
  return joinBytes([before, ...local, ...heads, end]);
}

function pieces(): Pieces {
  const cut = (from: number, to: number): Uint8Array => new Uint8Array(made.file.subarray(from, to));
  return {
    local: entries.map(({ offset, start, size }) => cut(offset, start + size)),
    central: entries.map(({ name }) => {
      const at = central.get(name)!;
      return cut(at, at + CENTRAL_BYTES + name.length);
    }),
    end: cut(made.file.length - END_BYTES, made.file.length),
    before: new Uint8Array(0),
  };
}

const place = (name: string): number => entries.findIndex((e) => e.name === name);
const u16 = (bytes: Uint8Array, at: number, value: number): void =>
  new DataView(bytes.buffer).setUint16(at, value, true);
const u32 = (bytes: Uint8Array, at: number, value: number): void =>
  new DataView(bytes.buffer).setUint32(at, value, true);

/** Another name in the local header, or in the directory, or both; a longer or shorter one moves what follows. */
const renamed = (piece: Uint8Array, fixed: number, old: string, name: Uint8Array): Uint8Array => {
  const out = joinBytes([piece.subarray(0, fixed), name, piece.subarray(fixed + old.length)]);
  u16(out, fixed === LOCAL_BYTES ? 26 : 28, name.length);
  return out;
};

type Trick = (p: Pieces) => void;
const name =
  (to: Uint8Array, where: 'local' | 'central' | 'both', of: string = FILE.csv): Trick =>
  (p) => {
    const i = place(of);
    if (where !== 'central') p.local[i] = renamed(p.local[i]!, LOCAL_BYTES, of, to);
    if (where !== 'local') p.central[i] = renamed(p.central[i]!, CENTRAL_BYTES, of, to);
  };
/** One more member behind the last. */
const more =
  (
    memberName: Uint8Array,
    content: Uint8Array,
    edit: (local: Uint8Array, head: Uint8Array) => void = () => undefined,
  ): Trick =>
  (p) => {
    const i = place(FILE.check);
    const local = joinBytes([
      renamed(p.local[i]!.subarray(0, LOCAL_BYTES + FILE.check.length), LOCAL_BYTES, FILE.check, memberName),
      content,
    ]);
    const head = renamed(p.central[i]!, CENTRAL_BYTES, FILE.check, memberName);
    for (const at of [18, 22]) u32(local, at, content.length);
    for (const at of [20, 24]) u32(head, at, content.length);
    u32(local, 14, crc32(content));
    u32(head, 16, crc32(content));
    edit(local, head);
    p.local.push(local);
    p.central.push(head);
  };
const both = (i: number, p: Pieces, localAt: number, centralAt: number, value: number): void => {
  u16(p.local[i]!, localAt, value);
  u16(p.central[i]!, centralAt, value);
};
const withExtra = (piece: Uint8Array, fixed: number, nameLength: number, extra: Uint8Array): Uint8Array => {
  const out = joinBytes([piece.subarray(0, fixed + nameLength), extra, piece.subarray(fixed + nameLength)]);
  u16(out, fixed === LOCAL_BYTES ? 28 : 30, extra.length);
  return out;
};
/** APPNOTE 4.5.3: sizes of Zip64; and 4.6.9: a name in Unicode beside the plain one. */
const ZIP64 = new Uint8Array([1, 0, 16, 0, ...new Uint8Array(16)]);
const UNICODE_NAME = new Uint8Array([0x75, 0x70, 9, 0, 1, 0, 0, 0, 0, ...ascii('evil')]);

const tricks: readonly (readonly [string, Trick])[] = [
  ['a name that only the directory has', name(ascii('other.csv'), 'central')],
  ['a name that only the local header has', name(ascii('other.csv'), 'local')],
  ['a size that only the directory has', (p) => u32(p.central[place(FILE.csv)]!, 20, 5)],
  ['an unpacked size that only the directory has', (p) => u32(p.central[place(FILE.csv)]!, 24, 5)],
  ['an unpacked size that only the local header has', (p) => u32(p.local[place(FILE.csv)]!, 22, 5)],
  ['a method that only the directory has', (p) => u16(p.central[place(FILE.csv)]!, 10, 8)],
  ['a method that only the local header has', (p) => u16(p.local[place(FILE.csv)]!, 8, 8)],
  ['a CRC that only the directory has', (p) => u32(p.central[place(FILE.csv)]!, 16, 1)],
  ['a date of its own', (p) => both(place(FILE.csv), p, 12, 14, 0x5555)],
  ['a member twice', more(ascii(FILE.check), ascii('All is well.\n'))],
  ['names that differ by case', more(ascii('check.TXT'), ascii('All is well.\n'))],
  ['a name with a NUL behind it', more(ascii(`${FILE.check}\0`), ascii('All is well.\n'))],
  ['a name with a dot behind it', more(ascii(`${FILE.check}.`), ascii('All is well.\n'))],
  ['a name with a blank behind it', more(ascii(`${FILE.check} `), ascii('All is well.\n'))],
  ['a letter that only looks like one of another name', more(ascii('CHECK\u212A.txt'), ascii('x'))],
  ['a letter composed', more(ascii('caf\u00e9.txt'), ascii('x'))],
  ['a letter decomposed', more(ascii('cafe\u0301.txt'), ascii('x'))],
  ['a file that is also a folder', more(ascii('additions'), ascii('x'))],
  ['a folder below an extra file', more(ascii('paper.html/x'), ascii('x'))],
  [
    'sizes of Zip64 in an extra field',
    (p) => {
      const i = place(FILE.csv);
      p.local[i] = withExtra(p.local[i]!, LOCAL_BYTES, FILE.csv.length, ZIP64);
      p.central[i] = withExtra(p.central[i]!, CENTRAL_BYTES, FILE.csv.length, ZIP64);
      for (const at of [18, 22]) u32(p.local[i]!, at, 0xffff_ffff);
    },
  ],
  [
    'an extra field in the directory alone',
    (p) => {
      const i = place(FILE.csv);
      p.central[i] = withExtra(p.central[i]!, CENTRAL_BYTES, FILE.csv.length, UNICODE_NAME);
    },
  ],
  [
    'a name in Unicode beside the plain one',
    (p) => {
      const i = place(FILE.csv);
      p.local[i] = withExtra(p.local[i]!, LOCAL_BYTES, FILE.csv.length, UNICODE_NAME);
      p.central[i] = withExtra(p.central[i]!, CENTRAL_BYTES, FILE.csv.length, UNICODE_NAME);
    },
  ],
  ['the flag of names in UTF-8', (p) => both(place(FILE.csv), p, 6, 8, 1 << 11)],
  [
    'a data descriptor behind the content',
    (p) => {
      const i = place(FILE.csv);
      both(i, p, 6, 8, 1 << 3);
      for (const at of [14, 18, 22]) u32(p.local[i]!, at, 0);
      p.local[i] = joinBytes([p.local[i]!, ascii('PK\u0007\u0008'), new Uint8Array(12)]);
    },
  ],
  ['the flag of encryption', (p) => both(place(FILE.csv), p, 6, 8, 1)],
  [
    'the flag of strong encryption in the directory alone',
    (p) => u16(p.central[place(FILE.csv)]!, 8, 1 << 6),
  ],
  ['a folder with content', more(ascii('folder/'), ascii('x'))],
  ['a symbolic link by its mode', (p) => u32(p.central[place(FILE.csv)]!, 38, (0o120777 << 16) >>> 0)],
  ['a folder by its mode', (p) => u32(p.central[place(FILE.csv)]!, 38, ((0o040755 << 16) | 0x10) >>> 0)],
  ['a program by its mode', (p) => u32(p.central[place(FILE.csv)]!, 38, (0o100755 << 16) >>> 0)],
  ['made on another system', (p) => u16(p.central[place(FILE.csv)]!, 4, 20)],
  ['an absolute path', more(ascii('/etc/x'), ascii('x'))],
  ['a path that climbs', more(ascii('../x'), ascii('x'))],
  ['a path with a drive', more(ascii('C:x'), ascii('x'))],
  ['a path of backslashes', more(ascii('a\\x'), ascii('x'))],
  [
    'a bomb: a member that unpacks to a thousand times as much',
    (p) => {
      const packed = new Uint8Array(deflateRawSync(new Uint8Array(1 << 20)));
      more(ascii('bomb'), packed, (local, head) => {
        u16(local, 8, 8);
        u16(head, 10, 8);
        u32(local, 22, 1 << 20);
        u32(head, 24, 1 << 20);
      })(p);
    },
  ],
  [
    'a member that only the directory has',
    (p) => {
      const hidden = p.central[place(FILE.check)]!;
      p.central.push(renamed(hidden, CENTRAL_BYTES, FILE.check, ascii('hidden')));
    },
  ],
  [
    'a member that the directory has not',
    (p) => {
      more(ascii('hidden'), ascii('x'))(p);
      p.central.pop();
    },
  ],
  ['the directory in another order', (p) => void p.central.push(p.central.shift()!)],
  [
    'a comment on a member',
    (p) => {
      const i = place(FILE.csv);
      p.central[i] = joinBytes([p.central[i]!, ascii('comment')]);
      u16(p.central[i]!, 32, 7);
    },
  ],
  [
    'a comment on the file',
    (p) => {
      p.end = joinBytes([p.end, ascii('comment')]);
      u16(p.end, 20, 7);
    },
  ],
  [
    'another zip in the comment',
    (p) => {
      const other = joinBytes([p.local[0]!, p.central[0]!, new Uint8Array(p.end)]);
      p.end = joinBytes([p.end, other]);
      u16(p.end, 20, other.length);
    },
  ],
  [
    'bytes before the first member',
    (p) => {
      p.before = ascii('#!/bin/sh\n');
    },
  ],
  [
    'bytes behind the end',
    (p) => {
      p.end = joinBytes([p.end, ascii('\n')]);
    },
  ],
  [
    'bytes between two members',
    (p) => {
      p.local[3] = joinBytes([p.local[3]!, ascii('gap')]);
    },
  ],
  ['a file of several disks', (p) => u16(p.end, 4, 1)],
];

const tricked = (trick: Trick): Uint8Array => {
  const p = pieces();
  trick(p);
  return joined(p);
};

it('pieces that nobody touched are the record itself', async () => {
  expect(tricked(() => undefined)).toEqual(made.file);
  expect((await made.verify(made.file)).verdict).toBe('valid');
});

it.each(tricks)('%s: no verdict that is good', async (_, trick) => {
  const v = await made.verify(tricked(trick));
  expect(['changed', 'refused', 'incomplete']).toContain(v.verdict);
  // By its signatures alone it is no better.
  expect((await made.verify(tricked(trick), { firstOnly: true })).verdict).not.toBe('valid');
});

it('two members that share their content: not read past it', async () => {
  const p = pieces();
  const file = joined(p);
  const [csv, parquet] = [central.get(FILE.csv)!, central.get(FILE.parquet)!];
  // The directory sends whoever asks for the one to the other.
  file.set(file.slice(csv + 42, csv + 46), parquet + 42);
  expect((await made.verify(file)).verdict).toBe('changed');
});

it('tricks that another unzip takes are among them, so that it is this reader that must not', (context) => {
  if (spawnSync('python3', ['--version']).status !== 0) notRun(context, 'no python3');
  const taken: string[] = [];
  const script = 'import sys,zipfile;z=zipfile.ZipFile(sys.argv[1]);[z.read(n) for n in z.namelist()]';
  for (const wanted of [
    'names that differ by case',
    'a comment on the file',
    'bytes before the first member',
    'a symbolic link by its mode',
    'a member that the directory has not',
  ]) {
    const trick = tricks.find(([what]) => what === wanted)![1];
    const file = path.join(folder, 'x.zip');
    writeFileSync(file, tricked(trick));
    if (spawnSync('python3', ['-c', script, file]).status === 0) taken.push(wanted);
  }
  expect(taken).toHaveLength(5);
});
