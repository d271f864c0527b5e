import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { canonicalBytes, type Json, parseCanonical } from './canonical.ts';
import { parseHead } from './entry-text.ts';
import { headerBytesFor, pageBytesFor, readHeader, writeHeader } from './layout.ts';
import { FILE } from './members.ts';
import { addToSealed } from './seal.ts';
import { HEAD } from './testing/arbitrary.ts';
import { firstOf, makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import { checkWords, jobFile, paper, recordCrypto, runPages, sealRun } from './testing/sealing.ts';
import { unzip, zipBytes } from './testing/zips.ts';

// What the crew itself could make, whose key is known: all of it is signed as it should be.

let made: SealedFile;
beforeAll(async () => {
  made = await makeSealedFile();
});

/** The file with members changed and its sums signed anew. */
async function signedAnew(change: (m: Map<string, Uint8Array>) => unknown, sumsOf = (s: string) => s) {
  const members = new Map<string, Uint8Array>(
    (await unzip(made.file)).members.map(({ name, bytes }) => [name, bytes.slice()]),
  );
  change(members);
  const summed = [...members].filter(([n]) => !n.startsWith('SHA256SUMS') && !n.startsWith('additions/'));
  const lines = summed.map(([n, b]) => `${createHash('sha256').update(b).digest('hex')}  ${n}\n`);
  const sums = new TextEncoder().encode(sumsOf(lines.join('')));
  members.set(FILE.sums, sums).set(FILE.sumsSignature, await made.signer.sign(sums));
  return zipBytes([...members].map(([name, bytes]) => ({ name, bytes })));
}

const withoutLine = (bytes: Uint8Array): Uint8Array =>
  bytes.slice(0, bytes.lastIndexOf(10, bytes.length - 2) + 1);

/** The manifest with members changed, signed; its file has no sums and no additions. */
async function manifestOf(change: (m: Record<string, Json>) => void) {
  const value = parseCanonical(made.sealed.manifest) as Record<string, Json>;
  change(value);
  const manifest = canonicalBytes(value);
  const signature = await made.signer.sign(manifest);
  return made.repacked((m) => {
    m.set(FILE.manifest, manifest).set(FILE.signature, signature);
    for (const name of [...m.keys()])
      if (name.startsWith('additions/') || name.startsWith('SHA256SUMS')) m.delete(name);
  });
}

describe('signed by a known key, and', () => {
  it('events or log otherwise than the pages have them: changed, though they are in the signed sums', async () => {
    expect((await made.verify(await signedAnew(() => undefined))).verdict).toBe('valid');
    for (const name of [FILE.events, FILE.log]) {
      const v = await made.verify(await signedAnew((m) => m.set(name, withoutLine(m.get(name)!))));
      expect([v.verdict, firstOf(v, 'file').file]).toEqual(['changed', name]);
    }
  });

  it('another CHECK.txt: changed where what is to be typed or compared is another, said where only its words are', async () => {
    const checkOf = (change: (text: string) => string) =>
      signedAnew((m) =>
        m.set(FILE.check, new TextEncoder().encode(change(new TextDecoder().decode(m.get(FILE.check))))),
      );
    for (const change of [
      (t: string) => t.replace('sha256sum -c SHA256SUMS', 'sha256sum --version'),
      (t: string) => t.replace(made.signer.fingerprint, '0'.repeat(64)),
      (t: string) => t.replace(/^ +ls -A \| .*$/m, ''),
      () => 'All is well.\n',
      () => '',
    ]) {
      const v = await made.verify(await checkOf(change));
      expect([v.verdict, firstOf(v, 'file')?.file]).toEqual(['changed', FILE.check]);
      // Nor does it help that this program has not its language.
      const unread = await made.verify(await checkOf(change), {
        words: () => Promise.reject(new Error('no language')),
      });
      expect(unread.verdict).toBe('changed');
    }
    const worded = await made.verify(await checkOf((t) => t.replace('Manifest', 'The manifest, well said')));
    expect([worded.verdict, worded.findings]).toEqual(['valid', []]);
    expect(worded.remarks).toContainEqual({ r: 'derived-otherwise', file: FILE.check });
  });

  it('sums with names that no file has: they are changed, and the names are shown to nobody', async () => {
    for (const line of [
      `${'0'.repeat(64)}  \u001b[2J\u001b[HVALID\n`,
      `${'0'.repeat(64)}  ../x\n`,
      `${'0'.repeat(64)} *pages.bin\n`,
      'VALID\n',
    ]) {
      const v = await made.verify(
        await signedAnew(
          () => undefined,
          (s) => s + line,
        ),
      );
      expect([v.verdict, v.findings]).toEqual(['changed', [{ f: 'file', file: FILE.sums, offset: null }]]);
    }
    const crlf = await signedAnew(
      () => undefined,
      (s) => s.replaceAll('\n', '\r\n'),
    );
    expect((await made.verify(crlf)).findings).toContainEqual({ f: 'file', file: FILE.sums, offset: null });
  });

  it('papers of another job than the one that the run was opened for: a contradiction', async () => {
    const v = await made.verify(
      await manifestOf((m) => {
        m.job = { ...(m.job as Record<string, Json>), jobId: 'job-8' };
      }),
    );
    expect(firstOf(v, 'contradiction').members).toEqual(['job']);
    expect(v.verdict).toBe('changed');
  });

  it('a time that no date can tell, or an engine that never was: not of the form', async () => {
    for (const change of [
      { sealedUtcMs: 9e15 },
      { sealedUtcMs: -1 },
      { openedUtcMs: 8.64e15 + 1 },
      { endedUtcMs: 9e15 },
      { engine: 0 },
      { engine: 1.5 },
      { seen: 'x' },
    ]) {
      const v = await made.verify(await manifestOf((m) => void Object.assign(m, change)));
      expect([v.verdict, firstOf(v, 'manifest')?.why], JSON.stringify(change)).toEqual(['changed', 'form']);
    }
    const head = (change: object) => parseHead(JSON.stringify({ ...HEAD, ...change }));
    expect(head({})).not.toBeNull();
    for (const change of [{ utcMs: 9e15 }, { engine: 0 }, { engine: 0.5 }, { seen: 'x' }])
      expect(head(change), JSON.stringify(change)).toBeNull();
    const headerBytes = headerBytesFor(0, 1);
    const page = new Uint8Array(pageBytesFor(headerBytes, 0, 0, 0));
    const fields = {
      format: 1 as const,
      headerBytes,
      pageBytes: page.length,
      index: 0,
      flags: 0,
      channels: 0,
      samples: 0,
    };
    const none = { entries: 0, entryBytes: 0, events: 0, eventBytes: 0, headBytes: 0, firstUs: 0, lastUs: 0 };
    for (const [utcMs, ok] of [
      [8.64e15, true],
      [8.64e15 + 1, false],
    ] as const) {
      const runId = new Uint8Array([65]);
      writeHeader(page, { ...fields, ...none, utcMs, previous: new Uint8Array(32), runId });
      expect(readHeader(page, 0).ok).toBe(ok);
    }
  });

  it('an addition whose time no date can tell: not of the form', async () => {
    const pages = runPages();
    const sealed = await sealRun(pages, made.signer);
    const more = { kind: 'note', body: { text: 't', by: 'b' }, utcMs: -9e15 } as const;
    const late = await addToSealed(sealed, more, made.signer, recordCrypto);
    const v = await made.verify(await jobFile(pages, late, made.signer, paper), { words: checkWords });
    expect(v.findings).toEqual([{ f: 'addition', number: 1, why: 'form' }]);
  });
});
