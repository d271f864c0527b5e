import { describe, expect, it } from 'vitest';
import { recordCrypto } from '../../record/testing/sealing.ts';
import { besideName, writeInto } from './folder.ts';
import { createFakeFolder } from './testing/fake-folder.ts';

const NAME = '2026-04-14_repair_run1.steadybar.zip';
const a = Uint8Array.of(1, 2, 3, 4);
const A = new Blob([a]);
const B = Uint8Array.of(5, 6, 7);
const bytesIn = (f: ReturnType<typeof createFakeFolder>, name: string) => f.files.get(name)?.bytes;

describe.each(['works', 'refuses', 'none'] as const)('a file written where move %s', (moving) => {
  const make = () => Object.assign(createFakeFolder(), { moving });

  it('is there whole, once, and nothing else is left', async () => {
    const folder = make();
    expect(await writeInto(folder, NAME, A, recordCrypto.hashing)).toEqual({
      name: NAME,
      outcome: 'written',
    });
    expect(await writeInto(folder, NAME, A, recordCrypto.hashing)).toEqual({
      name: NAME,
      outcome: 'already',
    });
    expect([...folder.files.keys()]).toEqual([NAME]);
    expect(bytesIn(folder, NAME)).toEqual(a);
  });

  it('another of the same name stays as it is; this one is kept beside it under a name of its own', async () => {
    const folder = make();
    folder.put(NAME, B);
    const first = await writeInto(folder, NAME, A, recordCrypto.hashing);
    expect(first.outcome).toBe('beside');
    expect(first.name).toMatch(/^2026-04-14_repair_run1_beside-[0-9a-f]{8}\.steadybar\.zip$/);
    expect(bytesIn(folder, NAME)).toEqual(B);
    expect(bytesIn(folder, first.name)).toEqual(a);
    expect(await writeInto(folder, NAME, A, recordCrypto.hashing)).toEqual({ ...first, outcome: 'already' });
    expect(folder.files.size).toBe(2);
  });

  it('leaves nothing behind where permission, folder or room is missing, or the disk keeps less', async () => {
    const faults = [
      [{ permission: 'denied' }, 'denied'],
      [{ gone: true }, 'missing'],
      [{ room: 2 }, 'full'],
      [{ keeps: 2 }, 'corrupt'],
    ] as const;
    for (const [fault, code] of faults) {
      const folder = Object.assign(make(), fault);
      await expect(writeInto(folder, NAME, A, recordCrypto.hashing), code).rejects.toMatchObject({ code });
      Object.assign(folder, { permission: 'granted', gone: false });
      expect([...folder.files.keys()], code).toEqual([]);
    }
  });

  it('a full disk never costs a file that was there', async () => {
    const folder = make();
    folder.put(NAME, B);
    folder.room = 2;
    await expect(writeInto(folder, NAME, A, recordCrypto.hashing)).rejects.toMatchObject({ code: 'full' });
    expect([...folder.files.keys()]).toEqual([NAME]);
    expect(bytesIn(folder, NAME)).toEqual(B);
  });
});

it('names of files kept beside others keep their ending', () => {
  expect(besideName('a.zip', 'abcdef0123')).toBe('a_beside-abcdef01.zip');
  expect(besideName('a.steadybar.ZIP', 'abcdef0123')).toBe('a_beside-abcdef01.steadybar.ZIP');
});
