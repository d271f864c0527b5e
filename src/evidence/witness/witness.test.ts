import { beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { noteSigner } from '../../record/stores/note-keys.ts';
import { recordCrypto } from '../../record/testing/sealing.ts';
import { verifyJobFile } from '../../record/verify.ts';
import { checkpointText } from '../../record/witness/checkpoint.ts';
import { compareWithFile } from '../../record/witness/compare.ts';
import { publishedText, readPublished } from '../../record/witness/exchange.ts';
import { MerkleTree } from '../../record/witness/merkle.ts';
import { noteText, signNote } from '../../record/witness/note.ts';
import { createFakeFolder } from '../office/testing/fake-folder.ts';
import { handlesIn } from '../office/testing/handles.ts';
import { createOffice } from '../testing/office.ts';

type Office = ReturnType<typeof createOffice>;

const bytesOf = async (blob: Blob): Promise<Uint8Array> => new Uint8Array(await blob.arrayBuffer());
const fileOf = async (office: Office, runId: string): Promise<Uint8Array> =>
  bytesOf((await office.ask({ q: 'job-file', ref: { kind: 'run', runId } })).file);

const shared = createFakeFolder();
const tablet = createOffice({ handles: handlesIn() });
const bureau = createOffice({ handles: handlesIn() });
let witnessKey = '';

const verified = async (file: Uint8Array) =>
  verifyJobFile(bytesSource(file), {
    crypto: recordCrypto,
    trusted: new Map([
      [(await tablet.ask({ q: 'key' })).key!.fingerprint, 'Tablet 1'],
      [witnessKey, 'Office'],
    ]),
    sense: null,
    judge: null,
  });

beforeAll(async () => {
  for (const office of [tablet, bureau]) {
    await office.keepJob();
    await office.ask({ q: 'office-choose', handle: shared });
  }
  witnessKey = (await bureau.ask({ q: 'log' })).asWitness;
  // An evening before the job: the log has something that can be shown.
  await tablet.ask({ q: 'backup' });
});

const evening = async () => {
  const laid = await tablet.ask({ q: 'office-witness', countersign: false });
  const seen = await bureau.ask({ q: 'office-witness', countersign: true });
  const back = await tablet.ask({ q: 'office-witness', countersign: false });
  return { laid, seen, back };
};

describe('an office that countersigns', () => {
  let runId = '';
  let photo = '';

  it('bounds the time of a run on both sides, by its own clock', async () => {
    const before = await evening();
    expect(before.laid.published).toBe(1);
    expect(before.seen).toMatchObject({ cosigned: 1, refused: [] });
    expect(before.back.taken).toBe(1);
    runId = await tablet.record({ holdS: 5 });
    photo = (await tablet.ask({ q: 'log' })).checkpoint;
    await tablet.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
    const alone = await verified(await fileOf(tablet, runId));
    expect(alone.remarks.filter((r) => r.r === 'bounded')).toMatchObject([
      { side: 'not-before', name: 'Office' },
    ]);
    const after = await evening();
    expect(after.seen).toMatchObject({ cosigned: 1, refused: [] });
    expect(after.back.taken).toBe(1);
    const v = await verified(await fileOf(tablet, runId));
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
    const bounds = v.remarks.filter((r) => r.r === 'bounded');
    expect(bounds).toMatchObject([
      { side: 'not-before', name: 'Office', fingerprint: witnessKey },
      { side: 'not-after', name: 'Office', fingerprint: witnessKey },
    ]);
    expect(v.remarks.some((r) => r.r === 'no-witness')).toBe(false);
    // Every file of it is made again, the certificate with what the witnesses bound among them.
    const file = new Blob([(await fileOf(tablet, runId)) as Uint8Array<ArrayBuffer>]);
    const whole = await tablet.ask({ q: 'verify', file, name: 'job.zip' });
    expect([whole.verdict, whole.findings]).toEqual(['valid', []]);
    const { html } = await tablet.ask({ q: 'certificate', ref: { kind: 'run', runId } });
    expect([html.includes('Opened after'), html.includes('Sealed before')]).toEqual([true, true]);
    const [view] = (await tablet.ask({ q: 'log' })).witnesses;
    expect(view).toMatchObject({ what: 'cosignature', fingerprint: witnessKey });
  }, 180_000);

  it('a photograph of the code at the end of the run is of the same history as the file', async () => {
    const v = await verified(await fileOf(tablet, runId));
    const told = (text: string) => compareWithFile(recordCrypto, text, v.witness!);
    expect(await told(photo)).toMatchObject({ c: 'same-history', holds: 'part' });
    // As a phone gives it on.
    expect(await told(`\r\n${photo.trim().replaceAll('\n', '\r\n')}  `)).toMatchObject({ c: 'same-history' });
    expect(await told((await tablet.ask({ q: 'log' })).checkpoint)).toMatchObject({ c: 'not-told' });
    expect(await told((await bureau.ask({ q: 'log' })).checkpoint)).toMatchObject({ c: 'other-log' });
    expect(await told(photo.replace(/\n(\d)\n/, '\n9\n'))).toMatchObject({ c: 'unsigned' });
    expect(await told('a photograph of a wall')).toEqual({ c: 'no-checkpoint' });
    await tablet.ask({
      q: 'verify',
      file: new Blob([(await fileOf(tablet, runId)) as Uint8Array<ArrayBuffer>]),
      name: 'x',
    });
    expect(await tablet.ask({ q: 'compare', text: photo, with: 'opened' })).toMatchObject({ holds: 'part' });
    expect(await tablet.ask({ q: 'compare', text: photo, with: 'log' })).toMatchObject({ c: 'same-history' });
  });

  it('signs again nothing that it saw, and takes the log up where it left it after a month', async () => {
    const again = await bureau.ask({ q: 'office-witness', countersign: true });
    expect(again).toMatchObject({ cosigned: 0, refused: [] });
    for (let i = 0; i < 5; i++) {
      await tablet.bench.run(1000);
      await tablet.ask({ q: 'backup' });
    }
    const { seen } = await evening();
    expect(seen).toMatchObject({ cosigned: 1, refused: [] });
  });

  it('refuses another history and a shorter one, and says so', async () => {
    // By who holds the tablet, and its log's key with it: other leaves, laid into the folder as the tablet would.
    const signer = await noteSigner(tablet.documents, globalThis.crypto.subtle, 'log', 1);
    const { size } = (await bureau.ask({ q: 'log' })).seen[0]!;
    const forge = async (leaves: number, continues: readonly number[]): Promise<void> => {
      const tree = new MerkleTree(recordCrypto.hashing);
      for (let i = 0; i < leaves; i++) tree.append(new TextEncoder().encode(`another ${i}`));
      const text = checkpointText({ origin: signer.name, size: leaves, root: tree.root() });
      const note = noteText({
        text,
        signatures: [await signNote(recordCrypto.hashing, signer.name, signer, text)],
      });
      const proofs = continues.map((n) => ({ size: n, path: tree.consistency(n, leaves) }));
      const name = `log-${signer.name.slice(-16)}-${String(leaves).padStart(9, '0')}.checkpoint.json`;
      const published = publishedText({ note, publicKey: signer.publicKey, continues: proofs });
      shared.put(name, new TextEncoder().encode(published));
    };
    const refused = async () => {
      const { cosigned, refused: why } = await bureau.ask({ q: 'office-witness', countersign: true });
      return [cosigned, ...why.map((r) => [r.size, r.why])];
    };
    await forge(size + 30, [size]);
    expect(await refused()).toEqual([0, [size + 30, 'different']]);
    await forge(size - 1, []);
    expect(await refused()).toEqual([0, [size - 1, 'shorter'], [size + 30, 'different']]);
    await forge(size + 40, []);
    expect((await refused()).at(-1)).toEqual([size + 40, 'no-proof']);
    await forge(size, []);
    expect((await refused())[2]).toEqual([size, 'different']);
    expect((await bureau.ask({ q: 'log' })).seen[0]?.refused).toMatchObject({ why: 'different' });
    // Nor does the tablet take a cosignature over a history that is not its own.
    const { taken } = await tablet.ask({ q: 'office-witness', countersign: false });
    expect(taken).toBe(0);
  });

  it('reads whatever lies in the folder, and is stopped by none of it', async () => {
    const name = (n: number) => `log-0123456789abcdef-${String(n).padStart(9, '0')}.checkpoint.json`;
    const utf8 = new TextEncoder();
    shared.put(name(1), utf8.encode('{"schema":"steadybar-checkpoint/1"}'));
    shared.put(name(2), utf8.encode('['.repeat(100_000)));
    shared.put(name(3), new Uint8Array(3 << 20));
    shared.put(name(4), utf8.encode(`{"note":${'9'.repeat(500)}}`));
    const report = await bureau.ask({ q: 'office-witness', countersign: true });
    expect(report.refused.filter((r) => r.why === 'form')).toHaveLength(4);
  });
});

it('a process that dies between seeing and signing signs one history all the same', async () => {
  const folder = createFakeFolder();
  const [a, b] = [createOffice({ handles: handlesIn() }), createOffice({ handles: handlesIn() })];
  for (const o of [a, b]) await o.ask({ q: 'office-choose', handle: folder });
  let signed = 0;
  for (let kill = 0; kill < 10; kill++) {
    await a.bench.run(1000);
    await a.ask({ q: 'backup' });
    await a.ask({ q: 'office-witness', countersign: false });
    // Dies at another call each time; what the folder and the store have stays.
    let left = kill % 4;
    const put = b.documents.put.bind(b.documents);
    const die = (): never => {
      throw Object.assign(new Error('gone'), { name: 'Gone' });
    };
    b.documents.put = async (d) => (left-- > 0 ? put(d) : die());
    folder.room = kill % 2 === 0 ? 0 : Number.POSITIVE_INFINITY;
    await b.ask({ q: 'office-witness', countersign: true }).catch(() => undefined);
    b.documents.put = put;
    folder.room = Number.POSITIVE_INFINITY;
    const { cosigned, refused } = await b.ask({ q: 'office-witness', countersign: true });
    expect(refused).toEqual([]);
    signed += cosigned;
    expect((await a.ask({ q: 'office-witness', countersign: false })).taken).toBeLessThanOrEqual(1);
  }
  const names = [...folder.files.keys()].filter((n) => n.includes('.cosigned-'));
  expect(names.length).toBeGreaterThanOrEqual(10);
  expect(signed).toBeGreaterThan(4);
  const given = (await a.documents.get('log', 'given'))!.body as unknown[];
  expect(given).toHaveLength(names.length);
});

it('what is laid there comes back the same, and nothing else is read', () => {
  const published = {
    note: 'x\n',
    publicKey: new Uint8Array(32).fill(7),
    continues: [{ size: 3, path: [new Uint8Array(32).fill(1)] }],
  };
  expect(readPublished(publishedText(published))).toEqual(published);
  expect(readPublished('{}')).toBeNull();
});
