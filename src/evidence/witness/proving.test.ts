import { beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { sameBytes } from '../../record/bytes.ts';
import { noteSigner } from '../../record/stores/note-keys.ts';
import { loadSealed } from '../../record/stores/sealed-store.ts';
import { recordCrypto } from '../../record/testing/sealing.ts';
import { unzip, zipBytes } from '../../record/testing/zips.ts';
import { verifyJobFile } from '../../record/verify.ts';
import { readLeaf } from '../../record/witness/leaves.ts';
import { readProof } from '../../record/witness/run-proof.ts';
import { createOffice } from '../testing/office.ts';

type Office = ReturnType<typeof createOffice>;

const bytesOf = async (blob: Blob): Promise<Uint8Array> => new Uint8Array(await blob.arrayBuffer());

async function fileOf(office: Office, runId: string): Promise<Uint8Array> {
  return bytesOf((await office.ask({ q: 'job-file', ref: { kind: 'run', runId } })).file);
}

async function verified(office: Office, file: Uint8Array, firstOnly = false) {
  const { key } = await office.ask({ q: 'key' });
  return verifyJobFile(bytesSource(file), {
    crypto: recordCrypto,
    trusted: new Map([[key!.fingerprint, 'Tablet 1']]),
    sense: null,
    judge: null,
    firstOnly,
  });
}

const office = createOffice();
let runId = '';
let file: Uint8Array;

beforeAll(async () => {
  await office.keepJob();
  // Others before it, so that the tree is none of one run alone.
  await office.ask({ q: 'backup' });
  await office.record({ practice: true, holdS: 5 });
  runId = await office.record({ holdS: 330 });
  await office.ask({ q: 'backup' });
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  file = await fileOf(office, runId);
}, 180_000);

describe('a sealed run', () => {
  it('is noted from its opening to its sealing, and its file proves it', async () => {
    const v = await verified(office, file);
    expect(v.findings).toEqual([]);
    expect(v.verdict).toBe('valid');
    const logged = v.remarks.find((r) => r.r === 'logged');
    // Before it: a backup, the practice run's opening and end.
    expect(logged).toMatchObject({ before: 3, heads: 1 });
    expect(v.remarks.some((r) => r.r === 'no-witness')).toBe(true);
    const leaves = v.witness!.proof.leaves.map((l) => readLeaf(l.text)!.leaf);
    expect(leaves).toEqual(['opened', 'head', 'ended', 'sealed']);
    expect(v.manifest!.log!.origin).toMatch(/^log\.steadybar\.invalid\/[0-9a-f]{16}$/);
    // What is told first has the heads too.
    const first = await verified(office, file, true);
    expect([first.verdict, first.findings]).toEqual(['valid', []]);
    expect(first.remarks.find((r) => r.r === 'logged')).toEqual(logged);
  });

  it('built again it is the same file, until something is added', async () => {
    expect(sameBytes(await fileOf(office, runId), file)).toBe(true);
    await office.ask({ q: 'add', runId, kind: 'note', text: 'later', by: 'ab' });
    const more = await fileOf(office, runId);
    const v = await verified(office, more);
    expect(v.findings).toEqual([]);
    expect(v.witness!.proof.leaves.map((l) => readLeaf(l.text)!.leaf)).toContain('added');
  });

  it('died before it was noted: noted when its file is built', async () => {
    const other = createOffice();
    await other.keepJob();
    const id = await other.record({ holdS: 5 });
    const put = other.documents.put.bind(other.documents);
    // The process dies between the seal and the log.
    let dead = false;
    other.documents.put = async (d) => {
      if (d.kind === 'seal') dead = true;
      else if (dead) throw Object.assign(new Error('gone'), { name: 'Gone' });
      return put(d);
    };
    await expect(other.ask({ q: 'seal', runId: id, wording: PLAIN_WORDING })).rejects.toThrow();
    other.documents.put = put;
    expect((await loadSealed(other.documents, id))?.proof).toEqual([]);
    const v = await verified(other, await fileOf(other, id));
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
  }, 180_000);
});

const membersOf = async (bytes: Uint8Array): Promise<Map<string, Uint8Array>> =>
  new Map((await unzip(bytes)).members.map((m) => [m.name, m.bytes]));

/** The file with members changed, put together again without its sums, which a forger can't sign. */
async function forged(change: (m: Map<string, Uint8Array>) => void): Promise<Uint8Array> {
  const members = await membersOf(file);
  change(members);
  return zipBytes([...members].map(([name, bytes]) => ({ name, bytes })));
}

const textOf = (m: Map<string, Uint8Array>, name: string): string => new TextDecoder().decode(m.get(name));
const set = (m: Map<string, Uint8Array>, name: string, text: string): void =>
  void m.set(name, new TextEncoder().encode(text));

describe('what does not hold is named', () => {
  it.each([
    [
      'a leaf left out that speaks of the sealing',
      'content',
      (m: Map<string, Uint8Array>) =>
        set(
          m,
          'witness/leaves.txt',
          textOf(m, 'witness/leaves.txt').split('\n').slice(0, -2).join('\n') + '\n',
        ),
    ],
    [
      'a time in a leaf',
      'inclusion',
      (m: Map<string, Uint8Array>) =>
        set(m, 'witness/leaves.txt', textOf(m, 'witness/leaves.txt').replace(/"at":(\d)/, '"at":9')),
    ],
    [
      'another root',
      'note',
      (m: Map<string, Uint8Array>) =>
        set(m, 'witness/after.txt', textOf(m, 'witness/after.txt').replace(/\n[A-Za-z0-9+/]{4}/, '\nAAAA')),
    ],
    [
      'the checkpoint before exchanged for the one after',
      'content',
      (m: Map<string, Uint8Array>) => set(m, 'witness/before.txt', textOf(m, 'witness/after.txt')),
    ],
    [
      'a tree that is none of it',
      'consistency',
      (m: Map<string, Uint8Array>) =>
        set(m, 'witness/trees.txt', textOf(m, 'witness/trees.txt').replace(/ [0-9a-f]{4}/, ' 0000')),
    ],
    [
      'something added to a file of it',
      'form',
      (m: Map<string, Uint8Array>) => set(m, 'witness/trees.txt', `${textOf(m, 'witness/trees.txt')}\n`),
    ],
    [
      'a key that is none of it',
      'form',
      (m: Map<string, Uint8Array>) => set(m, 'witness/0123456789abcdef.pem', textOf(m, 'witness/log.pem')),
    ],
  ] as const)('%s', async (_, why, change) => {
    const v = await verified(office, await forged(change));
    expect(v.verdict).toBe('changed');
    expect(v.findings).toContainEqual({ f: 'witness', why });
    expect(v.remarks.some((r) => r.r === 'logged')).toBe(false);
  });

  it('all of it taken away, or put in from another log', async () => {
    const bare = await verified(
      office,
      await forged((m) => {
        for (const name of [...m.keys()]) if (name.startsWith('witness/')) m.delete(name);
      }),
    );
    expect(bare.findings).toContainEqual({ f: 'missing', file: 'witness/leaves.txt' });
    const other = createOffice();
    await other.keepJob();
    const id = await other.record({ holdS: 5 });
    await other.ask({ q: 'seal', runId: id, wording: PLAIN_WORDING });
    const theirs = await membersOf(await fileOf(other, id));
    const v = await verified(
      office,
      await forged((m) => {
        for (const name of m.keys()) if (name.startsWith('witness/')) m.set(name, theirs.get(name)!);
      }),
    );
    expect(v.findings).toContainEqual({ f: 'witness', why: 'key' });
    expect(v.findings).toContainEqual({ f: 'witness', why: 'content' });
  }, 180_000);

  it('any byte of it: no throw, and never valid', async () => {
    for (let i = 0; i < 30; i++) {
      const bad = await forged((m) => {
        const names = [...m.keys()].filter((n) => n.startsWith('witness/'));
        const name = names[i % names.length]!;
        const bytes = m.get(name)!.slice();
        const at = Math.floor((bytes.length * ((i * 7) % 30)) / 30);
        bytes[at] = (bytes[at]! + 1 + (i % 5)) & 127;
        m.set(name, bytes);
      });
      expect((await verified(office, bad)).verdict, `change ${i}`).toBe('changed');
    }
  }, 180_000);
});

it('a run sealed twice shows in its leaves', async () => {
  const sealed = (await loadSealed(office.documents, runId))!;
  const proof = readProof(recordCrypto.hashing, new Map(sealed.proof.map((m) => [m.name, m.bytes])))!;
  const last = readLeaf(proof.leaves.findLast((l) => readLeaf(l.text)?.leaf === 'sealed')!.text)!;
  if (last.leaf !== 'sealed') throw new Error('not sealed');
  const { createWitnessLog } = await import('../../record/stores/witness-log.ts');
  const { leafText } = await import('../../record/witness/leaves.ts');
  await createWitnessLog(office.documents, () => 1).append(leafText({ ...last, manifest: '0'.repeat(64) }));
  const v = await verified(office, await fileOf(office, runId));
  expect(v.findings).toContainEqual({ f: 'witness', why: 'twice' });
});

it('restored elsewhere, a record keeps what its own log said; the log there is another', async () => {
  const first = createOffice();
  await first.keepJob();
  const id = await first.record({ holdS: 5 });
  await first.ask({ q: 'seal', runId: id, wording: PLAIN_WORDING });
  await first.ask({ q: 'add', runId: id, kind: 'note', text: 'later', by: 'ab' });
  const mine = await verified(first, await fileOf(first, id));
  const backup = (await first.ask({ q: 'backup' })).file;
  const there = createOffice();
  const { token, keyThere } = await there.ask({ q: 'restore-look', file: backup });
  const { PLAIN_CHOICE } = await import('../backup/messages.ts');
  await there.ask({ q: 'restore', file: backup, token, choice: { ...PLAIN_CHOICE, own: [keyThere!] } });
  const v = await verified(first, await fileOf(there, id));
  expect(v.findings.filter((f) => f.f !== 'missing')).toEqual([]);
  expect(v.witness!.proof.after).toBe(mine.witness!.proof.after);
  const own = await noteSigner(there.documents, globalThis.crypto.subtle, 'log', 1);
  expect(own.name).not.toBe(mine.manifest!.log!.origin);
  expect((await there.documents.list('log')).flatMap((d) => d.body)).toHaveLength(2);
}, 180_000);
