import { afterEach, expect, it } from 'vitest';
import { createRecordCrypto } from '../../record/signing.ts';
import { createIdbDocuments } from '../../record/stores/idb-documents.ts';
import { type Folder, filesIn, writeInto } from './folder.ts';

// A folder of the origin's private file system has the same interface as one that the user picks.

const recordCrypto = createRecordCrypto(crypto.subtle);
const NAME = 'job.steadybar.zip';
const root = () => navigator.storage.getDirectory();
const folder = async (): Promise<Folder> =>
  (await (await root()).getDirectoryHandle('shared', { create: true })) as unknown as Folder;

afterEach(async () => {
  await (await root()).removeEntry('shared', { recursive: true }).catch(() => undefined);
});

async function names(of: Folder): Promise<string[]> {
  const found: string[] = [];
  for await (const { name } of of.values()) found.push(name);
  return found.sort();
}

it('a real folder takes a file whole, keeps what is there, and is read again', async () => {
  const at = await folder();
  const [a, b] = [new Blob([new Uint8Array(300_000).fill(7)]), new Blob([Uint8Array.of(1, 2, 3)])];
  expect((await writeInto(at, NAME, a, recordCrypto.hashing)).outcome).toBe('written');
  expect((await writeInto(at, NAME, a, recordCrypto.hashing)).outcome).toBe('already');
  const other = await writeInto(at, NAME, b, recordCrypto.hashing);
  expect(other.outcome).toBe('beside');
  expect(await names(at)).toEqual([NAME, other.name].sort());
  const { files } = await filesIn(at);
  expect(files.map((f) => ('fault' in f ? f.fault.code : f.file.size)).sort()).toEqual([3, 300_000]);
});

it('without move the writer swaps at its end', async () => {
  const real = await folder();
  const at: Folder = {
    name: real.name,
    values: () => real.values(),
    removeEntry: (name) => real.removeEntry(name),
    async getFileHandle(name, options) {
      const handle = await real.getFileHandle(name, options);
      return {
        kind: 'file',
        name,
        getFile: () => handle.getFile(),
        createWritable: () => handle.createWritable(),
      };
    },
  };
  expect((await writeInto(at, NAME, new Blob([Uint8Array.of(9)]), recordCrypto.hashing)).outcome).toBe(
    'written',
  );
  expect(await names(real)).toEqual([NAME]);
});

it('a folder that is gone is said to be missing; its handle outlives a restart', async () => {
  const handle = await folder();
  const documents = await createIdbDocuments('folder-test');
  const resting = await documents.get('office', 'folder');
  await documents.put({
    kind: 'office',
    id: 'folder',
    revision: resting?.revision ?? 0,
    savedUtcMs: 1,
    body: { handle },
  });
  const body = (await (await createIdbDocuments('folder-test')).get('office', 'folder'))?.body;
  const again = (body as { handle: Folder }).handle;
  expect((await writeInto(again, NAME, new Blob([Uint8Array.of(1)]), recordCrypto.hashing)).outcome).toBe(
    'written',
  );
  await (await root()).removeEntry('shared', { recursive: true });
  await expect(
    writeInto(again, NAME, new Blob([Uint8Array.of(1)]), recordCrypto.hashing),
  ).rejects.toMatchObject({
    code: 'missing',
  });
  await expect(filesIn(again)).rejects.toMatchObject({ code: 'missing' });
});
