/** What every FileStore must do. */
import type { FileStore } from '../store.ts';
import { type Case, equal, refused } from './cases.ts';

const bytes = (...list: number[]): Uint8Array => Uint8Array.from(list);

export const fileCases: readonly Case<FileStore>[] = [
  {
    name: 'a new file is empty, and listed',
    async run(store) {
      equal(await store.list(), [], 'list of nothing');
      const file = await store.open('run-1.trace');
      equal(file.size, 0, 'size');
      equal(await store.list(), [{ name: 'run-1.trace', size: 0 }], 'list');
      file.close();
    },
  },
  {
    name: 'appends at the end, and reads any part',
    async run(store) {
      const file = await store.open('a');
      file.append(bytes(1, 2, 3));
      file.append(bytes());
      file.append(bytes(9, 4, 5, 9).subarray(1, 3));
      file.flush();
      equal(file.size, 5, 'size');
      equal(file.read(0, 5), bytes(1, 2, 3, 4, 5), 'all');
      equal(file.read(2, 2), bytes(3, 4), 'a part');
      equal(file.read(5, 0), bytes(), 'nothing at the end');
      equal(await store.readAll('a'), bytes(1, 2, 3, 4, 5), 'readAll of an open file');
      equal(await (await store.source('a')).read(3, 2), bytes(4, 5), 'part of an open file');
      equal(await store.list(), [{ name: 'a', size: 5 }], 'list of an open file');
      file.close();
      equal(await store.readAll('a'), bytes(1, 2, 3, 4, 5), 'readAll');
      const source = await store.source('a');
      equal(source.size, 5, 'size of a source');
      equal(await source.read(2, 2), bytes(3, 4), 'a part of a source');
      equal(await source.read(3, 9), bytes(4, 5), 'more than there is');
      equal(await source.read(5, 1), bytes(), 'nothing behind the end');
      equal(await source.read(1, 3, new Uint8Array(8)), bytes(2, 3, 4), 'read into given room');
    },
  },
  {
    name: 'keeps what was flushed across a restart, and goes on behind it',
    async run(store, again) {
      const file = await store.open('a');
      file.append(bytes(1, 2));
      file.flush();
      file.close();
      const later = await again();
      const reopened = await later.open('a');
      equal(reopened.size, 2, 'size');
      reopened.append(bytes(3));
      reopened.flush();
      reopened.close();
      equal(await later.readAll('a'), bytes(1, 2, 3), 'bytes');
    },
  },
  {
    name: 'cuts a tail and appends behind the cut',
    async run(store) {
      const file = await store.open('a');
      file.append(bytes(1, 2, 3, 4));
      file.truncate(2);
      equal(file.size, 2, 'size');
      file.append(bytes(7));
      file.flush();
      equal(file.read(0, 3), bytes(1, 2, 7), 'bytes');
      await refused('failed', 'a cut behind the end', () => file.truncate(4));
      file.truncate(0);
      equal(file.size, 0, 'emptied');
      file.close();
    },
  },
  {
    name: 'refuses to read what is not there',
    async run(store) {
      const file = await store.open('a');
      file.append(bytes(1, 2));
      await refused('failed', 'past the end', () => file.read(1, 2));
      await refused('failed', 'before the start', () => file.read(-1, 1));
      file.close();
      await refused('missing', 'no such file', () => store.readAll('b'));
      await refused('missing', 'no such file', () => store.source('b'));
      await refused('missing', 'no such file to remove', () => store.remove('b'));
    },
  },
  {
    name: 'opens a file once at a time, and removes none that is open',
    async run(store) {
      const file = await store.open('a');
      await refused('busy', 'second opening', () => store.open('a'));
      await refused('busy', 'removal', () => store.remove('a'));
      file.close();
      file.close();
      const second = await store.open('a');
      second.close();
      await store.remove('a');
      equal(await store.list(), [], 'list');
    },
  },
  {
    name: 'takes nothing through a closed file',
    async run(store) {
      const file = await store.open('a');
      file.close();
      await refused('failed', 'append', () => file.append(bytes(1)));
      await refused('failed', 'flush', () => file.flush());
      await refused('failed', 'read', () => file.read(0, 0));
      await refused('failed', 'truncate', () => file.truncate(0));
    },
  },
  {
    name: 'refuses names that are paths or that a file system would fold',
    async run(store) {
      for (const name of [
        '',
        '.',
        '..',
        '../a',
        'a/b',
        'a\\b',
        'A',
        '.a',
        'a..b',
        'ä',
        'a'.repeat(121),
        'a\0',
      ])
        await refused('denied', `open ${JSON.stringify(name)}`, () => store.open(name));
      await refused('denied', 'readAll', () => store.readAll('../a'));
      await refused('denied', 'source', () => store.source('../a'));
      await refused('denied', 'remove', () => store.remove('../a'));
    },
  },
  {
    name: 'holds several files, listed by name',
    async run(store) {
      for (const name of ['b', 'c.x', 'a-1']) {
        const file = await store.open(name);
        file.append(bytes(name.length));
        file.flush();
        file.close();
      }
      equal(
        await store.list(),
        [
          { name: 'a-1', size: 1 },
          { name: 'b', size: 1 },
          { name: 'c.x', size: 1 },
        ],
        'list',
      );
      await store.remove('b');
      equal((await store.list()).length, 2, 'after removal');
    },
  },
  {
    name: 'takes a megabyte in many appends',
    async run(store) {
      const file = await store.open('big');
      const chunk = new Uint8Array(10_007);
      for (let i = 0; i < 105; i++) file.append(chunk.fill(i));
      file.flush();
      equal(file.size, 105 * 10_007, 'size');
      equal(file.read(104 * 10_007 - 1, 2), bytes(103, 104), 'seam');
      file.close();
      equal((await store.readAll('big')).length, 105 * 10_007, 'readAll');
    },
  },
  {
    name: 'says what room is left, or that it does not know',
    async run(store) {
      const room = await store.room();
      equal(room === null || room >= 0, true, 'room');
      equal(typeof (await store.persisted()), 'boolean', 'persisted');
    },
  },
];
