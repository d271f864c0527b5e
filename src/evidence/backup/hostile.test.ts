import { beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { type BackupDocument, bodyText, documentLine, readDocuments } from '../../record/backup.ts';
import { toHex } from '../../record/hex.ts';
import { ALWAYS } from '../../record/key-terms.ts';
import { addToSealed, type Sealed, seal, sealedOf } from '../../record/seal.ts';
import type { Signer } from '../../record/signing.ts';
import { newSigner, recordCrypto } from '../../record/testing/sealing.ts';
import { createOffice } from '../testing/office.ts';
import { PLAIN_CHOICE, type RestoreChoice } from './messages.ts';
import { rewritten } from './testing/rewritten.ts';

// A backup whose every sum agrees, written by somebody who wants to be believed on the tablet that restores it.

const EVERYTHING: RestoreChoice = {
  ...PLAIN_CHOICE,
  decisions: true,
  differing: 'both',
  settings: true,
};

let mallory: Signer;
let office: ReturnType<typeof createOffice>;
let sealedRun: string;
let ownRun: string;
let backup: Uint8Array;
let theirSeal: Sealed;

beforeAll(async () => {
  mallory = await newSigner();
  office = createOffice();
  await office.keepJob();
  sealedRun = await office.record({ holdS: 2 });
  await office.ask({ q: 'seal', runId: sealedRun, wording: PLAIN_WORDING });
  office.bench.wall.ms += 86_400_000;
  ownRun = await office.record({ holdS: 2 });
  const { file } = await office.ask({ q: 'backup' });
  backup = new Uint8Array(await file.arrayBuffer());
  theirSeal = await sealedBy(mallory, ownRun);
}, 60_000);

async function sealedBy(signer: Signer, runId: string): Promise<Sealed> {
  const pages = await office.files.readAll(`${runId}.run`);
  const facts = { pages, job: null, log: null, sealedUtcMs: 1, software: 'x', wording: PLAIN_WORDING };
  const result = await seal(facts, signer, recordCrypto);
  if (!result.ok) throw new Error(result.refusal);
  return result.sealed;
}

const edited = (edit: (documents: readonly BackupDocument[]) => readonly BackupDocument[]): Promise<Blob> =>
  rewritten(backup, (lines) =>
    edit(readDocuments(lines.join('\n')).documents).map((d) => documentLine(d).trimEnd()),
  );

async function restore(file: Blob, choice = EVERYTHING, into = office) {
  const look = await into.ask({ q: 'restore-look', file });
  await into.ask({ q: 'restore', file, token: look.token, choice });
  return look;
}

/** All that rests in the store that is about trust: seals, decisions, lists of keys. */
async function trusted(): Promise<string> {
  const out: string[] = [];
  for (const kind of ['seal', 'review', 'run'] as const)
    for (const { id, body } of await office.documents.list(kind)) out.push(`${kind} ${id} ${bodyText(body)}`);
  out.push(JSON.stringify([await office.ask({ q: 'signers' }), (await office.ask({ q: 'key' })).history]));
  return out.join('\n');
}

const withSeal = (runId: string, body: Sealed) =>
  edited((docs) => [
    ...docs.filter((d) => d.kind !== 'seal' || d.id !== runId),
    { kind: 'seal', id: runId, savedUtcMs: 1, body },
  ]);

describe('a hostile backup', () => {
  it('makes nobody this tablet, and nobody known; each fingerprint is shown with what it asks for', async () => {
    const before = await trusted();
    const file = await edited((docs) => [
      ...docs.filter((d) => d.kind !== 'key'),
      {
        kind: 'key',
        id: 'history',
        savedUtcMs: 1,
        body: [
          {
            fingerprint: mallory.fingerprint,
            publicKey: toHex(mallory.publicKey),
            sinceUtcMs: 1,
            previous: null,
          },
          // A fingerprint that is not its key's is no key at all.
          {
            fingerprint: 'cd'.repeat(32),
            publicKey: toHex(mallory.publicKey),
            sinceUtcMs: 1,
            previous: null,
          },
        ],
      },
      {
        kind: 'key',
        id: 'known',
        savedUtcMs: 1,
        body: [
          {
            fingerprint: 'ab'.repeat(32),
            name: 'Head office',
            addedUtcMs: 1,
            term: ALWAYS,
            replacedBy: null,
          },
        ],
      },
    ]);
    const { keys } = await restore(file);
    expect(await trusted()).toBe(before);
    const ownKey = (await office.ask({ q: 'key' })).key!.fingerprint;
    expect(keys.map(({ role, fingerprint, name, here }) => ({ role, fingerprint, name, here }))).toEqual([
      { role: 'own', fingerprint: mallory.fingerprint, name: '', here: false },
      { role: 'known', fingerprint: 'ab'.repeat(32), name: 'Head office', here: false },
      { role: 'signer', fingerprint: ownKey, name: '', here: true },
    ]);
    // By its tick alone one of them counts, and no other, whatever else is named.
    const choice = { ...EVERYTHING, known: ['ab'.repeat(32), 'cd'.repeat(32)], own: ['cd'.repeat(32)] };
    const elsewhere = createOffice();
    await restore(file, choice, elsewhere);
    expect((await elsewhere.ask({ q: 'signers' })).map((k) => k.name)).toEqual(['Head office']);
    const { history } = await elsewhere.ask({ q: 'key' });
    expect(history.map((k) => k.fingerprint)).not.toContain(mallory.fingerprint);
    expect(history).toHaveLength(1);
  });

  it('can’t put a junk addition onto an own record: it is refused, and the record still leaves', async () => {
    const before = await trusted();
    const mine = sealedOf((await office.documents.get('seal', sealedRun))!.body)!;
    const junk = { statement: new TextEncoder().encode('not json'), signature: new Uint8Array(3) };
    const look = await restore(await withSeal(sealedRun, { ...mine, additions: [junk] }));
    expect(look.lines.map((l) => [l.group, l.id, l.why])).toEqual([['seal', sealedRun, 'chain']]);
    expect(await trusted()).toBe(before);
    const { file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId: sealedRun } });
    expect((await office.ask({ q: 'verify', file, name: 'x' })).verdict).toBe('valid');
  });

  it('nor a well signed one by a key that is not known here', async () => {
    const before = await trusted();
    const mine = sealedOf((await office.documents.get('seal', sealedRun))!.body)!;
    const more = { kind: 'correction', body: { text: 'not tight', by: 'm' }, utcMs: 1 } as const;
    const grown = await addToSealed(mine, more, mallory, recordCrypto);
    const look = await restore(await withSeal(sealedRun, grown));
    expect(look.counts.addition.grows).toBe(1);
    expect(look.keys).toContainEqual(
      expect.objectContaining({
        role: 'signer',
        fingerprint: mallory.fingerprint,
        additions: 1,
        here: false,
      }),
    );
    expect(await trusted()).toBe(before);
  });

  it('seals no own run: this tablet can still do so', async () => {
    const before = await trusted();
    const look = await restore(await withSeal(ownRun, theirSeal));
    expect(look.lines.map((l) => [l.group, l.id, l.why])).toEqual([['seal', ownRun, 'unsealed-here']]);
    expect(await trusted()).toBe(before);
    await office.ask({ q: 'seal', runId: ownRun, wording: PLAIN_WORDING });
    await office.documents.remove('seal', ownRun);
  });

  it('does not exchange the seal of an own record for another', async () => {
    const before = await trusted();
    const file = await withSeal(sealedRun, await sealedBy(mallory, sealedRun));
    const look = await restore(file, { ...EVERYTHING, differing: 'mine' });
    expect([look.counts.run.differs, look.counts.seal.differs]).toEqual([1, 1]);
    expect(await trusted()).toBe(before);
  });

  it('decides nothing about a record that is here, where that was not asked for', async () => {
    const before = await trusted();
    const line = { status: 'released', reason: '', by: 'the boss', utcMs: 1 };
    const body = { version: 1, lines: [line] };
    const file = await edited((docs) => [...docs, { kind: 'review', id: sealedRun, savedUtcMs: 1, body }]);
    const look = await restore(file, { ...EVERYTHING, decisions: false });
    expect(look.counts.review.grows).toBe(1);
    expect(await trusted()).toBe(before);
  });

  it('restores no run with a seal of other pages, of another run, or by a key that it does not name', async () => {
    const mine = sealedOf((await office.documents.get('seal', sealedRun))!.body)!;
    const named = async (edit: (m: { signer: { fingerprint: string } }) => void): Promise<Sealed> => {
      const manifest = JSON.parse(new TextDecoder().decode(theirSeal.manifest));
      edit(manifest);
      const bytes = new TextEncoder().encode(bodyText(manifest));
      return { manifest: bytes, signature: await mallory.sign(bytes), additions: [], proof: [] };
    };
    const cases: readonly [string, Sealed][] = [
      ['other-run', mine],
      ['pages', await named((m) => Object.assign(m, { pagesSha256: 'ab'.repeat(32) }))],
      ['key', await named((m) => Object.assign(m.signer, { fingerprint: 'ab'.repeat(32) }))],
      ['form', await named((m) => Object.assign(m, { practice: true }))],
    ];
    for (const [why, body] of cases) {
      const here = createOffice();
      const look = await restore(await withSeal(ownRun, body), EVERYTHING, here);
      expect(look.lines.map((l) => [l.group, l.id, l.why])).toEqual([['run', ownRun, why]]);
      expect((await here.bench.ask({ q: 'runs' })).map((r) => r.runId)).toEqual([sealedRun]);
    }
  });

  it('a run whose seal was left out is not said to be sealed', async () => {
    // The label of the backup says sealed; no seal came, so it is not.
    const bare = createOffice();
    await restore(await edited((docs) => docs), { ...EVERYTHING, seals: false }, bare);
    const label = (await bare.documents.get('run', sealedRun))!.body;
    expect(label).not.toHaveProperty('sealedUtcMs');
    expect(await bare.documents.get('seal', sealedRun)).toBeNull();
  });
});
