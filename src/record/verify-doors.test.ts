import { beforeAll, describe, expect, it } from 'vitest';
import { canonicalBytes, parseCanonical } from './canonical.ts';
import { crc32c } from './crc.ts';
import type { LogEntry } from './log.ts';
import { MAX_MANIFEST_BYTES, parseManifest } from './manifest.ts';
import { additionName, FILE } from './members.ts';
import { type Addition, addToSealed, MAX_ADDITIONS, type Sealed } from './seal.ts';
import { HEAD } from './testing/arbitrary.ts';
import { makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import {
  jobFile,
  newSigner,
  OTHER_ENGINE,
  paper,
  RUN_SETUP,
  recordCrypto,
  runPages,
  sealRun,
  sha256Hex,
} from './testing/sealing.ts';
import { createPageWriter } from './writer.ts';

let { signer, office, sealed, verify, repacked } = {} as SealedFile;
let pages: Uint8Array;
beforeAll(async () => {
  ({ signer, office, sealed, verify, repacked } = await makeSealedFile());
  pages = runPages({ seconds: 2 });
});

/** The record with this statement signed as its next addition. */
async function withStatement(to: Sealed, statement: object): Promise<Sealed> {
  const bytes = canonicalBytes(statement);
  return { ...to, additions: [...to.additions, { statement: bytes, signature: await office.sign(bytes) }] };
}

describe('additions', () => {
  it('of another run than the manifest names belong to another record', async () => {
    const own = await sealRun(pages, signer);
    const made = await addToSealed(own, { kind: 'note', body: 'x', utcMs: 3 }, office, recordCrypto);
    const statement = parseCanonical(made.additions[0]!.statement) as unknown as Addition;
    const other = await withStatement(own, { ...statement, runId: 'another-run' });
    const v = await verify(await jobFile(pages, other, signer, paper));
    expect([v.verdict, v.findings]).toEqual(['changed', [{ f: 'addition', number: 1, why: 'record' }]]);
  });

  it('beyond the number that a record takes are refused, not passed over', async () => {
    const names = (['json', 'sig', 'pem'] as const).map((ending) => additionName(MAX_ADDITIONS + 1, ending));
    const v = await verify(
      repacked((m) => {
        for (let i = 3; i <= MAX_ADDITIONS; i++)
          for (const ending of ['json', 'sig', 'pem'] as const)
            m.set(additionName(i, ending), m.get(additionName(2, ending))!);
        for (const name of names) m.set(name, canonicalBytes({ schema: 'x' }));
      }),
    );
    expect(v.verdict).toBe('changed');
    expect(v.findings).toContainEqual({ f: 'addition', number: MAX_ADDITIONS + 1, why: 'too-many' });
  });

  it('by a key that is not known here are said in the verdict', async () => {
    const stranger = await newSigner();
    const own = await sealRun(pages, signer);
    const added = await addToSealed(own, { kind: 'note', body: 'x', utcMs: 3 }, stranger, recordCrypto);
    const v = await verify(await jobFile(pages, added, signer, paper));
    expect([v.verdict, v.findings, v.signer]).toEqual([
      'unknown-signer',
      [{ f: 'addition-signer', number: 1, fingerprint: stranger.fingerprint }],
      'tablet 3',
    ]);
  });
});

describe('a record from which files were taken', () => {
  it('is incomplete without its sums and the certificate that they name', async () => {
    const v = await verify(
      repacked((m) => {
        for (const name of [FILE.sums, FILE.sumsSignature, 'paper.html']) m.delete(name);
      }),
    );
    expect([v.verdict, v.findings]).toEqual(['incomplete', [{ f: 'missing', file: 'paper.html' }]]);
  });
});

/** A run of one page in which an event's text stands as somebody else wrote it, signed by a key that is known. */
async function withEventText(text: string): Promise<Uint8Array> {
  const room = 'x'.repeat(text.length - 2);
  const writer = createPageWriter(HEAD);
  writer.addEntry({ l: 'setup', tUs: 0, setup: RUN_SETUP });
  writer.addEvent({ tUs: 1, e: 'note', text: room });
  const page = writer.finish(HEAD.utcMs, 'ended');
  const own = await sealRun(page, signer);
  const at = Buffer.from(page).indexOf(`"${room}"`);
  page.set(new TextEncoder().encode(text), at);
  new DataView(page.buffer).setUint32(page.length - 4, crc32c(page, 0, page.length - 4), true);
  const read = parseManifest(own.manifest);
  if (!read.ok) throw new Error(read.what);
  const pagesSha256 = await sha256Hex(page);
  const manifest = canonicalBytes({ ...read.manifest, pagesSha256 });
  return jobFileOf(page, { manifest, signature: await signer.sign(manifest), additions: [], proof: [] });
}

/** The file around pages that no builder of ours would read. */
async function jobFileOf(page: Uint8Array, { manifest, signature }: Sealed): Promise<Uint8Array> {
  return repacked((m) => {
    for (const name of [...m.keys()]) if (name.startsWith('additions/')) m.delete(name);
    m.set(FILE.pages, page).set(FILE.manifest, manifest).set(FILE.signature, signature);
  });
}

describe('bytes of another hand', () => {
  const hostile: [string, string][] = [
    ['a number beyond all bounds', '1e999'],
    ['nesting without end', `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`],
    ['nesting beyond bounds', `${'['.repeat(100)}1${']'.repeat(100)}`],
  ];
  it.each(hostile)('%s in an event is no event', async (_, text) => {
    const v = await verify(await withEventText(text));
    expect(v.verdict).toBe('changed');
    expect(v.findings).toContainEqual({ f: 'contradiction', members: ['pages'] });
  });

  it('what has not the form of its kind is found, whoever signed it, and is not shown', async () => {
    const setup = { ...RUN_SETUP, limits: { ratedBar: 'x' } } as unknown as typeof RUN_SETUP;
    const extra = [
      { l: 'command', tUs: 3e7, command: { c: 'stage', to: '__proto__' } },
      { l: 'command', tUs: 3e7, command: { c: 'note', text: 'well', more: 1 } },
      { l: 'notice', tUs: 3e7, notice: { n: 'gap' } },
      { l: 'notice', tUs: 3e7, notice: { n: 'link', state: 'streaming' } },
    ] as unknown as readonly LogEntry[];
    const bad = runPages({ seconds: 2, setup, extra });
    const v = await verify(await jobFile(bad, await sealRun(bad, signer), signer, paper));
    expect(v.verdict).toBe('changed');
    expect(v.findings).toEqual([
      { f: 'entries', what: 'setup', count: 1, page: 0, tUs: 0 },
      { f: 'entries', what: 'command', count: 2, page: 4, tUs: 3e7 },
      { f: 'entries', what: 'notice', count: 1, page: 4, tUs: 3e7 },
    ]);
    expect(v.shown).toBe(false);
    const event = await verify(await withEventText('{"a":"b"}'));
    expect(event.findings).toContainEqual({ f: 'entries', what: 'event', count: 1, page: 0, tUs: 1 });
  });

  it('what a later program recorded in a form of its own is no change, and is not shown here', async () => {
    const extra = [{ l: 'notice', tUs: 3e7, notice: { n: 'later' } }] as unknown as readonly LogEntry[];
    const later = runPages({ seconds: 2, extra, ...OTHER_ENGINE });
    const v = await verify(await jobFile(later, await sealRun(later, signer), signer, paper));
    expect([v.verdict, v.findings, v.shown]).toEqual(['not-derived', [], false]);
  });

  it('a manifest whose lists hold nothing that can be looked into has not its form', async () => {
    const own = await sealRun(pages, signer);
    const read = parseManifest(own.manifest);
    if (!read.ok) throw new Error(read.what);
    for (const change of [
      { events: [...read.manifest.events, null] },
      { events: [{ e: 5 }] },
      { setups: [null] },
      { setups: [{ tUs: 0, setup: 'x' }] },
    ]) {
      const manifest = canonicalBytes({ ...read.manifest, ...change });
      const signature = await signer.sign(manifest);
      const v = await verify(await jobFileOf(pages, { manifest, signature, additions: [], proof: [] }));
      expect([v.verdict, v.findings]).toMatchObject(['changed', [{ f: 'manifest', why: 'form' }]]);
    }
    // Of the right form and not what the pages say: the pages are what is judged again.
    const events = [{ tUs: 1, e: 'note', text: 'another' }] as const;
    const manifest = canonicalBytes({ ...read.manifest, events });
    const signature = await signer.sign(manifest);
    const v = await verify(await jobFileOf(pages, { manifest, signature, additions: [], proof: [] }));
    expect(v.findings).toContainEqual({ f: 'contradiction', members: ['events'] });
    expect(v.findings.some((f) => f.f === 'judgement')).toBe(false);
  });

  it('a manifest larger than any is not read', async () => {
    const read = parseManifest(sealed.manifest);
    if (!read.ok) throw new Error(read.what);
    const manifest = canonicalBytes({ ...read.manifest, job: 'x'.repeat(MAX_MANIFEST_BYTES) });
    const v = await verify(
      repacked((m) => {
        m.set(FILE.manifest, manifest);
      }),
    );
    expect(v.findings).toContainEqual({ f: 'manifest', why: 'form' });
    expect(v.manifest).toBeNull();
  });
});
