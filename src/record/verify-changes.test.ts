import { beforeAll, describe, expect, it } from 'vitest';
import { bytesSource } from './byte-source.ts';
import { canonicalBytes } from './canonical.ts';
import type { Finding } from './findings.ts';
import { parseManifest } from './manifest.ts';
import { FILE } from './members.ts';
import { addToSealed } from './seal.ts';
import { firstOf, flip, makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import { jobFile, newSigner, paper, recordCrypto, runPages, sealRun } from './testing/sealing.ts';
import { unzip, zipBytes } from './testing/zips.ts';
import { readZip } from './zip-reader.ts';

let { signer, office, pages, sealed, file, offsets, verify, repacked } = {} as SealedFile;
beforeAll(async () => {
  ({ signer, office, pages, sealed, file, offsets, verify, repacked } = await makeSealedFile());
});

describe('a changed byte', () => {
  it('is caught wherever it stands: every region of the file, by mutation', async () => {
    const { entries } = await readZip(bytesSource(file));
    const places: number[] = [];
    for (const e of entries) {
      // Header, first, middle and last bytes of each member.
      for (const d of [0, 5, 12, 16, 20, 27, 31]) places.push(e.offset + d);
      const n = e.size;
      for (const part of [0, 0.13, 0.37, 0.5, 0.71, 0.93])
        if (n > 0) places.push(e.start + Math.floor(n * part));
      if (n > 0) places.push(e.start + n - 1);
    }
    const directory = entries.at(-1)!.start + entries.at(-1)!.size;
    for (let at = directory; at < file.length; at += 5) places.push(at);
    for (const at of places) {
      const bad = file.slice();
      flip(bad, at);
      const v = await verify(bad, { sense: null });
      expect(v.verdict, `byte ${at}`).toMatch(/^(changed|incomplete|refused)$/);
      if (at >= 39) expect(v.verdict, `byte ${at}`).not.toBe('refused');
    }
  }, 120_000);

  it('is caught without signed sums too, by making the files again', async () => {
    const bare = await jobFile(pages, sealed, null, paper);
    expect((await verify(bare)).verdict).toBe('valid');
    for (const e of (await unzip(bare)).members)
      for (const part of [0.2, 0.6, 0.9]) {
        const bad = await repackedFrom(bare, e.name, part);
        expect((await verify(bad)).verdict, `${e.name} ${part}`).toBe('changed');
      }
  }, 120_000);

  it('in the pages is named by page and time', async () => {
    for (const k of [0, 1, 17, 40]) {
      const bad = repacked((m) => flip(m.get(FILE.pages)!, offsets[k]! + 150));
      const v = await verify(bad);
      expect(v.verdict).toBe('changed');
      const found = firstOf(v, 'pages');
      expect(found).toMatchObject({ page: k, pages: 1, offset: offsets[k] });
      if (k > 0 && k < 40) {
        expect(found.fromUs! / 1e6).toBeCloseTo(k * 0.5, 1);
        expect(found.toUs! / 1e6).toBeCloseTo((k + 1) * 0.5, 1);
      }
    }
  });

  it('in the container is named by its place, also with all contents sound', async () => {
    const bad = file.slice();
    const { entries } = await readZip(bytesSource(file));
    const entry = entries.find((e) => e.name === FILE.pages)!;
    flip(bad, entry.offset + 10);
    expect(firstOf(await verify(bad), 'container')).toEqual({
      f: 'container',
      why: 'header',
      offset: entry.offset + 10,
      file: FILE.pages,
    });
  });

  it('in a derived file is named, with the place where it differs', async () => {
    for (const name of [FILE.csv, FILE.parquet, FILE.log, FILE.events, FILE.check, 'paper.html']) {
      const v = await verify(repacked((m) => flip(m.get(name)!, 40)));
      expect([v.verdict, firstOf(v, 'file')], name).toEqual([
        'changed',
        { f: 'file', file: name, offset: 40 },
      ]);
      const unsigned = repacked((m) => {
        m.delete(FILE.sums);
        m.delete(FILE.sumsSignature);
        flip(m.get(name)!, 40);
      });
      expect(firstOf(await verify(unsigned), 'file'), name).toEqual({ f: 'file', file: name, offset: 40 });
    }
  });

  it('in the manifest, its signature, the key, the sums breaks the signature or is named', async () => {
    const text = (m: Map<string, Uint8Array>, name: string, from: string, to: string): void => {
      m.set(name, new TextEncoder().encode(new TextDecoder().decode(m.get(name)!).replace(from, to)));
    };
    const cases: [string, (m: Map<string, Uint8Array>) => void, Finding][] = [
      ['job', (m) => text(m, FILE.manifest, 'Repair', 'Repaid'), { f: 'manifest', why: 'signature' }],
      ['form', (m) => text(m, FILE.manifest, '{', '{ '), { f: 'manifest', why: 'form' }],
      ['signature', (m) => flip(m.get(FILE.signature)!, 3), { f: 'manifest', why: 'signature' }],
      [
        'fingerprint',
        (m) => text(m, FILE.manifest, signer.fingerprint, office.fingerprint),
        { f: 'manifest', why: 'fingerprint' },
      ],
      ['pem', (m) => flip(m.get(FILE.signer)!, 60), { f: 'file', file: FILE.signer, offset: 60 }],
      ['sums', (m) => flip(m.get(FILE.sums)!, 3), { f: 'file', file: FILE.sums, offset: null }],
      [
        'addition',
        (m) => text(m, 'additions/0001.json', 'wrongly', 'rightly'),
        { f: 'addition', number: 1, why: 'signature' },
      ],
      [
        'addition key',
        (m) => flip(m.get('additions/0002.pem')!, 50),
        { f: 'file', file: 'additions/0002.pem', offset: 50 },
      ],
    ];
    for (const [name, change, finding] of cases) {
      const v = await verify(repacked(change));
      expect([v.verdict, v.findings], name).toEqual(['changed', expect.arrayContaining([finding])]);
    }
  });
});

describe('a forger', () => {
  it('who makes a page and the chain behind it anew is found, to the span between checkpoints', async () => {
    const long = runPages({ seconds: 400 });
    const own = await sealRun(long, signer);
    const forged = rewritten(12_345);
    expect(forged.length).toBe(long.length);
    const whole = await jobFile(long, own, signer);
    const members = (await unzip(whole)).members.map((m) =>
      m.name === FILE.pages ? { ...m, bytes: forged } : m,
    );
    const v = await verify(zipBytes(members));
    const found = firstOf(v, 'pages');
    const page = Math.floor(12_345 / 25);
    expect([v.verdict, found.why]).toEqual(['changed', 'rewritten']);
    expect(found.page).toBeLessThanOrEqual(page);
    expect(found.page + found.pages).toBeGreaterThan(page);
    expect(found.pages).toBeLessThan(800);
  });

  it('who signs a changed manifest with another key is an unknown signer at best', async () => {
    const mine = await newSigner();
    const own = await sealRun(pages, mine);
    expect((await verify(await jobFile(pages, own, mine, paper))).verdict).toBe('unknown-signer');
    const mixed = repacked((m) => {
      m.set(FILE.manifest, own.manifest);
      m.set(FILE.signature, own.signature);
    });
    expect((await verify(mixed)).verdict).toBe('changed');
  });

  it('who signs what the pages contradict is told apart from one who does not', async () => {
    const read = parseManifest(sealed.manifest);
    if (!read.ok) throw new Error(read.what);
    const lie = canonicalBytes({
      ...read.manifest,
      events: read.manifest.events.slice(1),
      end: 'interrupted',
    });
    const signature = await signer.sign(lie);
    const v = await verify(
      await jobFile(pages, { manifest: lie, signature, additions: [], proof: [] }, signer),
    );
    expect([v.verdict, firstOf(v, 'contradiction').members]).toEqual(['changed', ['end', 'events']]);
  });

  it('of a file that ends within them are told from where on they are missing, and what was changed before', async () => {
    const start = Buffer.from(file).indexOf(Buffer.from(pages.subarray(0, 64)));
    for (const at of [0, 9, offsets[7]!, offsets[7]! + 500, pages.length - 1]) {
      const v = await verify(file.slice(0, start + at));
      const page = offsets.findLastIndex((o) => o <= at);
      expect([v.verdict, firstOf(v, 'pages')], `${at}`).toMatchObject([
        'incomplete',
        { why: 'cut', page, pages: offsets.length - page, offset: offsets[page] },
      ]);
    }
    const both = file.slice(0, start + offsets[20]!);
    flip(both, start + offsets[4]! + 300);
    const v = await verify(both);
    expect(v.findings.filter((f) => f.f === 'pages').map((f) => [f.why, f.page])).toEqual([
      ['crc', 4],
      ['cut', 20],
    ]);
    expect(v.verdict).toBe('changed');
  });

  it('can not take pages off the end, nor an addition out of the middle, nor bring one from elsewhere', async () => {
    const cut = await verify(repacked((m) => m.set(FILE.pages, m.get(FILE.pages)!.slice(0, offsets[30]))));
    expect([cut.verdict, firstOf(cut, 'pages')]).toMatchObject(['changed', { why: 'end', page: 30 }]);
    const gone = await verify(
      repacked((m) => {
        for (const e of ['json', 'sig', 'pem']) m.delete(`additions/0001.${e}`);
      }),
    );
    expect(gone.verdict).not.toBe('valid');
    const other = await addToSealed(
      await sealRun(runPages({ seconds: 5 }), signer),
      { kind: 'note', body: 'x', utcMs: 1 },
      signer,
      recordCrypto,
    );
    const brought = await verify(
      repacked((m) => {
        m.set('additions/0001.json', other.additions[0]!.statement);
        m.set('additions/0001.sig', other.additions[0]!.signature);
      }),
    );
    expect(brought.findings).toContainEqual({ f: 'addition', number: 1, why: 'record' });
    const swapped = { ...sealed, additions: [sealed.additions[1]!, sealed.additions[0]!] };
    const v = await verify(await jobFile(pages, swapped, signer, paper));
    expect(v.findings).toContainEqual({ f: 'addition', number: 1, why: 'order' });
  });

  it('can not slip a file in, nor change the sequence', async () => {
    const slipped = await verify(repacked((m) => m.set('additions/0009.json', Uint8Array.of(1))));
    expect(slipped.findings).toContainEqual({ f: 'strange', file: 'additions/0009.json' });
    const folder = await verify(repacked((m) => m.set('more/file.txt', Uint8Array.of(1))));
    expect(folder.findings).toContainEqual({ f: 'strange', file: 'more/file.txt' });
    const extra = repacked((m) => {
      const rest = [...m].filter(
        ([n]) => n === FILE.sums || n === FILE.sumsSignature || n.startsWith('additions/'),
      );
      for (const [n] of rest) m.delete(n);
      m.set('zz.html', Uint8Array.of(1));
      for (const [n, b] of rest) m.set(n, b);
    });
    expect((await verify(extra)).findings).toContainEqual({ f: 'strange', file: 'zz.html' });
    const turned = repacked((m) => {
      const csv = m.get(FILE.csv)!;
      m.delete(FILE.csv);
      m.set(FILE.csv, csv);
    });
    expect(firstOf(await verify(turned), 'container').why).toBe('sequence');
  });
});

/** The run of 400 s with one count changed, everything behind chained and CRCed again. */
const rewritten = (sample: number): Uint8Array =>
  runPages({
    seconds: 400,
    change: (entry, i) => {
      if (i !== sample || entry.l !== 'frame' || entry.frame.t !== 'S') return entry;
      const [bar, c] = entry.frame.counts;
      return { ...entry, frame: { ...entry.frame, counts: [bar! - 1, c ?? null] } };
    },
  });

/** One byte of a member changed, and packed again with sound CRCs. */
async function repackedFrom(whole: Uint8Array, name: string, part: number): Promise<Uint8Array> {
  const { members } = await unzip(whole);
  return zipBytes(
    members.map((m) => {
      const bytes = m.bytes.slice();
      if (m.name === name) flip(bytes, Math.floor(bytes.length * part));
      return { name: m.name, bytes };
    }),
  );
}
