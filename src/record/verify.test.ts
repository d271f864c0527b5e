import { beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../job/testing/wording.ts';
import { ENGINE } from '../watch/codes.ts';
import { bytesSource, readAll } from './byte-source.ts';
import { canonicalBytes } from './canonical.ts';
import { EXIT_CODE, type Verdict } from './findings.ts';
import { fromHex, toHex } from './hex.ts';
import { contentOf, parseManifest } from './manifest.ts';
import { CORE_FILES, FILE } from './members.ts';
import { seal } from './seal.ts';
import type { Signer } from './signing.ts';
import { successionText } from './signing.ts';
import { HEAD } from './testing/arbitrary.ts';
import { firstOf, flip, makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import {
  asRecorded,
  checkWords,
  JOB,
  jobFile,
  newSigner,
  paper,
  recordCrypto,
  runPages,
  sealRun,
  twoPoint,
} from './testing/sealing.ts';
import { unzip, zipBytes } from './testing/zips.ts';
import { type VerifyOptions, verifyBySums } from './verify.ts';

let { signer, office, pages, sealed, file, offsets, verify, repacked } = {} as SealedFile;
beforeAll(async () => {
  ({ signer, office, pages, sealed, file, offsets, verify, repacked } = await makeSealedFile());
});

describe('an untouched record', () => {
  it('is valid, and says what should be known of it', async () => {
    const v = await verify(file);
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
    expect(v.signer).toBe('tablet 3');
    expect(v.remarks).toEqual([{ r: 'additions', count: 2 }, { r: 'not-logged' }]);
    expect(v.additions.map((a) => [a.number, a.kind])).toEqual([
      [1, 'correction'],
      [2, 'status'],
    ]);
    expect(v.manifest).toMatchObject({
      job: JOB,
      runId: HEAD.runId,
      sealedUtcMs: 2e12,
      sealedBy: 'test 2',
      end: 'ended',
    });
    expect(v.manifest?.events).toHaveLength(20);
    expect(await readAll(v.files.get(FILE.pages)!)).toEqual(pages);
  });

  it('is the same bytes whenever it is built', async () => {
    expect(await jobFile(pages, sealed, signer, paper)).toEqual(file);
  });

  it('of a key that is not known here is of an unknown signer', async () => {
    const v = await verify(file, { trusted: new Map() });
    expect([v.verdict, v.findings, v.signer]).toEqual([
      'unknown-signer',
      [
        { f: 'addition-signer', number: 1, fingerprint: signer.fingerprint },
        { f: 'addition-signer', number: 2, fingerprint: office.fingerprint },
        { f: 'signer', fingerprint: signer.fingerprint },
      ],
      null,
    ]);
  });

  it('in a language that this program has not is as its sums say, and only these can tell', async () => {
    const gone = async () => {
      throw new RangeError('no such language');
    };
    const v = await verify(file, { words: gone });
    expect([v.verdict, v.remarks[0]]).toEqual(['not-derived', { r: 'not-derived', file: FILE.check }]);
    const bare = await verify(await jobFile(pages, sealed, null, paper), { words: gone });
    expect([bare.verdict, bare.findings]).toEqual(['incomplete', [{ f: 'missing', file: FILE.sums }]]);
  });

  it('is held against its sums where nothing derives it again', async () => {
    const v = await verify(file, {
      sense: null,
      judge: null,
      words: undefined as never,
      extras: undefined as never,
    });
    expect(v.verdict).toBe('valid');
    expect(v.remarks.filter((r) => r.r === 'not-derived').map((r) => 'file' in r && r.file)).toEqual([
      FILE.check,
      FILE.events,
      FILE.log,
      FILE.csv,
      FILE.parquet,
      'paper.html',
    ]);
  });

  it('built when the key was gone has no sums, and is derived again instead', async () => {
    const bare = await jobFile(pages, sealed, null, paper);
    const v = await verify(bare);
    expect([v.verdict, v.remarks[0]]).toEqual(['valid', { r: 'no-sums' }]);
    const blind = await verify(bare, { sense: null, extras: undefined as never });
    expect([blind.verdict, blind.findings[0]]).toEqual(['incomplete', { f: 'missing', file: FILE.sums }]);
  });

  it('is derived again by whoever looks quickly, but only where it has no sums', async () => {
    let derived = 0;
    const derive = () => {
      derived++;
      return { sense: twoPoint, words: checkWords, extras: paper };
    };
    const options = {
      crypto: recordCrypto,
      trusted: new Map([signer, office].map((s) => [s.fingerprint, 'ours'])),
    };
    expect((await verifyBySums(bytesSource(file), options, derive)).verdict).toBe('valid');
    expect(derived).toBe(0);
    const bare = await jobFile(pages, sealed, null, paper);
    expect((await verifyBySums(bytesSource(bare), options, derive)).verdict).toBe('valid');
    expect(derived).toBe(1);
    // One digit of the trace as CSV, its container made anew: nothing but deriving it can tell.
    const other = repacked((members) => {
      const csv = members.get(FILE.csv)!;
      flip(csv, csv.length - 20);
      for (const name of [FILE.sums, FILE.sumsSignature]) members.delete(name);
    });
    const forged = await verifyBySums(bytesSource(other), options, derive);
    expect([forged.verdict, forged.findings]).toMatchObject(['changed', [{ f: 'file', file: FILE.csv }]]);
    // Cut short it is that, and nobody derives it for hours to learn so.
    expect((await verifyBySums(bytesSource(bare.slice(0, -9)), options, derive)).verdict).toBe('incomplete');
    expect(derived).toBe(2);
  });

  it('whose derived files another program would make otherwise is unchanged, and it is said', async () => {
    const other: VerifyOptions['sense'] = (head, events) => {
      const read = twoPoint(head, events);
      return (entry) => {
        const reading = read(entry);
        return reading === null ? null : { ...reading, bar: (reading.bar ?? 0) + 0.5 };
      };
    };
    const later = { ...asRecorded, engine: ENGINE + 1 };
    const v = await verify(file, { sense: other, judge: later });
    // That its judgements were not derived again weighs more.
    expect(v.verdict).toBe('not-derived');
    expect(v.remarks).toContainEqual({ r: 'derived-otherwise', file: FILE.csv });
    // Of one engine the same counts give the same values: whoever signed others wrote them himself.
    const same = await verify(file, { sense: other });
    expect([same.verdict, firstOf(same, 'file').file]).toEqual(['changed', FILE.csv]);
  });
});

describe('incomplete and refused files', () => {
  it('tell a missing file from a changed one', async () => {
    for (const name of CORE_FILES.slice(2)) {
      const v = await verify(repacked((m) => m.delete(name)));
      expect([v.verdict, v.findings], name).toEqual(['incomplete', [{ f: 'missing', file: name }]]);
    }
    expect((await verify(repacked((m) => m.delete('paper.html')))).verdict).toBe('incomplete');
  });

  it('are named when cut short, at any length', async () => {
    for (let size = 40; size < file.length; size += 997)
      expect((await verify(file.slice(0, size), { sense: null })).verdict, `${size}`).toBe('incomplete');
  });

  it('are refused when they are something else', async () => {
    const text = new TextEncoder().encode('time_s,pressure_bar\r\n0,1\r\n');
    expect((await verify(text)).findings).toEqual([{ f: 'refused', why: 'not-a-zip', offset: 0 }]);
    expect((await verify(new Uint8Array(0))).verdict).toBe('refused');
    const other = zipBytes([{ name: 'photo.jpg', bytes: text }]);
    expect((await verify(other)).findings).toEqual([{ f: 'refused', why: 'not-a-record', offset: 0 }]);
  });

  it('of a later program are refused as that, not as broken', async () => {
    const later = (m: Map<string, Uint8Array>): void => {
      m.set(FILE.manifest, canonicalBytes({ schema: 'steadybar-record/3', what: 'ever' }));
    };
    const v = await verify(repacked(later));
    expect([v.verdict, firstOf(v, 'refused').why]).toEqual(['refused', 'version']);
  });

  it('with members of wrong types never get further than the form', async () => {
    const read = parseManifest(sealed.manifest);
    if (!read.ok) throw new Error(read.what);
    const m = read.manifest as unknown as Record<string, unknown>;
    const wrong: Record<string, unknown>[] = [
      { ...m, pages: null },
      { ...m, pages: { ...(m.pages as object), checkpoints: [1] } },
      { ...m, signer: [] },
      { ...m, signer: { ...(m.signer as object), publicKey: 'zz' } },
      { ...m, signer: { ...(m.signer as object), previous: 7 } },
      { ...m, events: {} },
      { ...m, runId: 5 },
      { ...m, engine: -1 },
      { ...m, schema: 1 },
      { ...m, practice: 'no' },
    ];
    for (const value of wrong) {
      const bytes = canonicalBytes(value);
      const signature = await signer.sign(bytes);
      const v = await verify(repacked((f) => f.set(FILE.manifest, bytes).set(FILE.signature, signature)));
      expect(v.findings).toContainEqual({ f: 'manifest', why: 'form' });
    }
    const deep = new TextEncoder().encode(`${'['.repeat(90_000)}${']'.repeat(90_000)}`);
    expect((await verify(repacked((f) => f.set(FILE.manifest, deep)))).verdict).toBe('changed');
  });

  it('have the exit codes that scripts rely on', () => {
    const codes: Record<Verdict, number> = {
      valid: 0,
      changed: 1,
      refused: 2,
      'unknown-signer': 3,
      incomplete: 4,
      'not-derived': 5,
      practice: 6,
    };
    expect(EXIT_CODE).toEqual(codes);
  });
});

describe('what is told first', () => {
  const first = (bytes: Uint8Array) => verify(bytes, { sense: null, judge: null, firstOnly: true });

  it('is signature, pages, chain and additions, and nothing of what is made again', async () => {
    const v = await first(file);
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
    expect(v.remarks.some((r) => r.r === 'not-derived' || r.r === 'no-sums')).toBe(false);
    const { members } = await unzip(file);
    const changed = (name: string) =>
      first(
        zipBytes(
          members.map((m) => {
            if (m.name !== name) return m;
            const bad = m.bytes.slice();
            bad[bad.length >> 1]! ^= 1;
            return { ...m, bytes: bad };
          }),
        ),
      );
    expect((await changed(FILE.csv)).verdict).toBe('valid');
    for (const name of [FILE.manifest, FILE.signature, FILE.pages, FILE.signer, 'additions/0001.json'])
      expect((await changed(name)).verdict, name).toBe('changed');
  });

  it('hashes the pages that are named and no other, and places a change as the whole look does', async () => {
    let hashed = 0;
    const counting = {
      ...recordCrypto,
      hashing: {
        ...recordCrypto.hashing,
        of: (bytes: Uint8Array) => {
          if (bytes[0] === 0x53) hashed++;
          return recordCrypto.hashing.of(bytes);
        },
      },
    };
    const v = await verify(file, { sense: null, judge: null, firstOnly: true, crypto: counting });
    expect(v.verdict).toBe('valid');
    // The first page and the last one.
    expect([hashed, offsets.length > 2]).toEqual([2, true]);
    const bad = repacked((m) => flip(m.get(FILE.pages)!, offsets[2]! + 200));
    const [soon, whole] = [await first(bad), await verify(bad)];
    expect(soon.findings.filter((f) => f.f === 'pages')).toEqual(
      whole.findings.filter((f) => f.f === 'pages'),
    );
    expect(firstOf(soon, 'pages').page).toBe(2);
  });
});

describe('sealing', () => {
  it('names in what language and with what decimal mark its papers are written', async () => {
    const done = await seal(
      { ...input(pages), wording: { language: 'de', decimal: 'comma' } },
      signer,
      recordCrypto,
    );
    if (!done.ok) throw new Error(done.refusal);
    expect(parseManifest(done.sealed.manifest)).toMatchObject({
      ok: true,
      manifest: { wording: { language: 'de', decimal: 'comma' } },
    });
    for (const wording of [undefined, { language: 'en' }, { language: 'C', decimal: 'point' }, 'en']) {
      const bytes = canonicalBytes({ ...done.value, wording });
      expect(parseManifest(bytes), JSON.stringify(wording)).toEqual({ ok: false, what: 'form' });
    }
  });

  const input = (bytes: Uint8Array) => ({
    pages: bytes,
    job: JOB,
    log: null,
    sealedUtcMs: 1,
    software: 's',
    wording: PLAIN_WORDING,
  });

  it('refuses an open run, and one of which nothing stands', async () => {
    const cases: [Uint8Array, string][] = [
      [runPages({ seconds: 2, end: null }), 'open'],
      [pages.slice(8), 'unreadable'],
      [new Uint8Array(0), 'unreadable'],
    ];
    for (const [bytes, refusal] of cases)
      expect(await seal(input(bytes), signer, recordCrypto)).toEqual({ ok: false, refusal });
  });

  it('of a practice run by another hand does not verify', async () => {
    const bytes = runPages({ seconds: 2, head: { practice: true } });
    const real = await sealRun(runPages({ seconds: 2 }), signer);
    const read = parseManifest(real.manifest);
    if (!read.ok) throw new Error(read.what);
    const manifest = canonicalBytes({
      ...read.manifest,
      ...contentOf(bytes)!.content,
      pagesSha256: toHex(await recordCrypto.sha256(bytes)),
    });
    const forged = { manifest, signature: await signer.sign(manifest), additions: [], proof: [] };
    const v = await verify(await jobFile(bytes, forged, signer, paper));
    expect([v.verdict, v.findings]).toEqual(['refused', [{ f: 'manifest', why: 'practice' }]]);
  });

  it('says that a run was interrupted, resumed, or damaged on the tablet', async () => {
    const gap = {
      l: 'notice',
      tUs: 30e6,
      notice: { n: 'gap', reason: 'resumed', fromUs: 20e6, toUs: 30e6, lost: 0 },
    } as const;
    const bytes = runPages({ end: 'interrupted', extra: [gap] });
    flip(bytes, offsets[7]! + 130);
    const own = await sealRun(bytes, signer);
    const v = await verify(await jobFile(bytes, own, signer, paper));
    expect(v.verdict).toBe('not-derived');
    expect(v.remarks).toEqual([
      { r: 'not-judged', why: 'damaged' },
      { r: 'interrupted' },
      { r: 'resumed', times: 1 },
      { r: 'damaged-at-sealing', pages: 1 },
      { r: 'not-logged' },
    ]);
  });

  it('says which key came before, and whether it vouched for this one', async () => {
    const next = await newSigner();
    const endorsement = toHex(await signer.sign(successionText(signer.fingerprint, next.fingerprint)));
    const from = { fingerprint: signer.fingerprint, publicKey: toHex(signer.publicKey) };
    const signers: [Signer, boolean][] = [
      [{ ...next, previous: { ...from, reason: 'changed', endorsement } }, true],
      [{ ...next, previous: { ...from, reason: 'changed', endorsement: toHex(new Uint8Array(64)) } }, false],
      [{ ...next, previous: { ...from, reason: 'lost', endorsement: null } }, false],
    ];
    for (const [s, endorsed] of signers) {
      const v = await verify(await jobFile(pages, await sealRun(pages, s), s, paper));
      expect(v.verdict).toBe('unknown-signer');
      expect(v.remarks).toContainEqual({
        r: 'key-followed',
        fingerprint: signer.fingerprint,
        reason: s.previous!.reason,
        endorsed,
      });
    }
    expect(fromHex(endorsement)).toHaveLength(64);
  });
});
