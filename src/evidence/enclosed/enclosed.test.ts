import { beforeAll, describe, expect, it } from 'vitest';
import { addedHandIn, addedPhotoIn } from '../../job/added.ts';
import { dayOf } from '../../job/people.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { createRecordCrypto } from '../../record/signing.ts';
import { blobSource } from '../../record/stores/blob-source.ts';
import { unzip, type ZipMember, zipBytes } from '../../record/testing/zips.ts';
import { verifyBySums } from '../../record/verify.ts';
import { loadCatalogue } from '../../words/catalogue.ts';
import { PLAIN_CHOICE } from '../backup/messages.ts';
import { deriving } from '../deriving.ts';
import { createOffice, JOB_ID } from '../testing/office.ts';
import { photoFileName } from './kept.ts';
import { exifBlock, photoFile, pngHead, reduceInTest } from './testing/pictures.ts';

const FACTS = { occasion: 'before', utcMs: 1.77e12, source: 'camera', by: 'ab', note: '' } as const;
/** A whole PNG of one pixel (value from memory). */
const PIXEL =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg==';
const NAME = [
  [100, 200, 400, 90],
  [420, 150, 700, 160],
];
const office = () => createOffice({ reduce: reduceInTest });
const bytesOf = async (blob: Blob): Promise<Uint8Array> => new Uint8Array(await blob.arrayBuffer());
/** By the signed sums and the manifest; nothing is made again. */
async function quick(office: ReturnType<typeof createOffice>, file: Blob) {
  const { key } = await office.ask({ q: 'key' });
  const options = {
    crypto: createRecordCrypto(globalThis.crypto.subtle),
    trusted: new Map([[key!.fingerprint, '']]),
  };
  return verifyBySums(blobSource(file), options, () => deriving(loadCatalogue));
}
const blobOf = (bytes: Uint8Array) => new Blob([bytes as Uint8Array<ArrayBuffer>]);

describe('beside a job that has no run yet', () => {
  const beside = { jobId: JOB_ID, runId: null };

  it('a photograph is taken in, described and removed with its files', async () => {
    const here = office();
    const add = (file: Blob, more = {}) =>
      here.ask({ q: 'add-photo', beside, photo: { file, keepOriginal: false, ...FACTS, ...more } });
    const { photos } = await add(photoFile(1));
    expect(photos).toMatchObject([{ ...FACTS, width: 1600, height: 1200, original: null, runId: null }]);
    const { sha256, small } = photos[0]!;
    expect(small).toMatchObject({ width: 480, height: 360 });
    const shown = await here.ask({ q: 'photo', sha256: small.sha256 });
    expect([shown.type, shown.size]).toEqual(['image/jpeg', small.bytes]);
    await expect(add(photoFile(1))).rejects.toMatchObject({ code: 'picture-twice' });
    const changed = await here.ask({
      q: 'change-photo',
      beside,
      sha256,
      change: { occasion: 'seated', note: 'at the crack' },
    });
    expect(changed.photos).toMatchObject([{ occasion: 'seated', note: 'at the crack', by: 'ab' }]);
    expect((await here.ask({ q: 'remove-photo', beside, sha256 })).photos).toEqual([]);
    expect((await here.files.list()).filter((f) => f.name.startsWith('photo-'))).toEqual([]);
    expect(await here.documents.list('enclosed')).toEqual([]);
  });

  it('the original is kept on purpose only, and what it says is told', async () => {
    const here = office();
    const file = photoFile(2, exifBlock([0x8825, 0x013b]));
    const { photos } = await here.ask({
      q: 'add-photo',
      beside,
      photo: { file, keepOriginal: true, ...FACTS },
    });
    expect(photos[0]!.original).toMatchObject({
      type: 'jpeg',
      bytes: file.size,
      carries: ['place', 'person'],
    });
    const kept = await here.files.readAll(photoFileName(photos[0]!.original!.sha256));
    expect(kept).toEqual(await bytesOf(file));
  });

  it('what is no photograph is refused with its reason, and nothing is kept', async () => {
    const here = office();
    const add = (file: Blob) =>
      here.ask({ q: 'add-photo', beside, photo: { file, keepOriginal: true, ...FACTS } });
    const svg = '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>';
    const cases: readonly (readonly [Blob, string])[] = [
      [new Blob([svg], { type: 'image/jpeg' }), 'picture-drawing'],
      [new Blob(['%PDF-1.7']), 'picture-not-a-picture'],
      [new Blob(['....ftypheic']), 'picture-heic'],
      // 60 000 by 60 000 pixels are 14 GB when they are decoded: told from the header alone.
      [blobOf(pngHead(60_000, 60_000)), 'picture-large'],
      [blobOf(new Uint8Array((64 << 20) + 1)), 'picture-large'],
      [photoFile(0xee), 'picture-broken'],
      [new Blob([]), 'picture-not-a-picture'],
    ];
    for (const [file, code] of cases) await expect(add(file)).rejects.toMatchObject({ code });
    expect(await here.files.list()).toEqual([]);
    expect(await here.documents.list('enclosed')).toEqual([]);
  });

  it('a full disk is told, and no document names what was not written', async () => {
    const here = office();
    here.files.open = () => Promise.reject(Object.assign(new Error('full'), { code: 'full' }));
    await expect(
      here.ask({ q: 'add-photo', beside, photo: { file: photoFile(1), keepOriginal: false, ...FACTS } }),
    ).rejects.toThrow('full');
    expect(await here.documents.list('enclosed')).toEqual([]);
  });

  it('a signature is kept by name, an empty pad is not', async () => {
    const here = office();
    const sign = (strokes: number[][], name = 'C. Miller') =>
      here.ask({ q: 'add-signed', beside, signed: { as: 'client', name, strokes } });
    await expect(sign([])).rejects.toMatchObject({ code: 'signature-blank' });
    await expect(sign([[5, 5, 9, 9]])).rejects.toMatchObject({ code: 'signature-blank' });
    await expect(sign(NAME, '  ')).rejects.toMatchObject({ code: 'bad-request' });
    await expect(sign([[1, 2, 900, 4000]])).rejects.toMatchObject({ code: 'bad-request' });
    const { signed } = await sign(NAME);
    expect(signed).toMatchObject([{ as: 'client', name: 'C. Miller', strokes: NAME, sealed: false }]);
    const gone = await here.ask({ q: 'remove-signed', beside, as: 'client', utcMs: signed[0]!.utcMs });
    expect(gone.signed).toEqual([]);
  });
});

describe('sealed with a run', () => {
  let here: ReturnType<typeof office>;
  let runId: string;
  let file: Blob;
  let members: readonly ZipMember[];
  const ref = () => ({ kind: 'run', runId }) as const;
  const beside = () => ({ jobId: JOB_ID, runId });
  const changed = (change: (m: ZipMember) => ZipMember | null): Blob =>
    blobOf(zipBytes(members.flatMap((m) => change(m) ?? [])));

  beforeAll(async () => {
    here = office();
    await here.keepJob();
    runId = await here.record({ holdS: 5 });
    const add = (n: number, where: { jobId: string; runId: string | null }, more = {}) =>
      here.ask({
        q: 'add-photo',
        beside: where,
        photo: { file: photoFile(n, exifBlock([0x8825])), keepOriginal: false, ...FACTS, ...more },
      });
    await add(1, { jobId: JOB_ID, runId: null });
    await add(2, beside(), { occasion: 'after', keepOriginal: true, note: '<img src=x onerror=alert(1)>' });
    // Of another run of the same job: not in this one's record.
    await add(3, { jobId: JOB_ID, runId: 'another' });
    await here.ask({
      q: 'add-signed',
      beside: beside(),
      signed: { as: 'crew', name: 'A. & B.', strokes: NAME },
    });
    const openedUtcMs = (await here.ask({ q: 'run', runId })).summary.openedUtcMs;
    const settings = {
      ...defaultSettings(),
      firm: 'Drain & Sons',
      people: [
        { initials: 'AB', name: 'A. Brandt' },
        { initials: 'CD', name: 'C. Dahl' },
      ],
      here: [{ day: dayOf(openedUtcMs), initials: ['CD'] }],
      mark: { png: PIXEL, width: 1, height: 1 },
    };
    await here.documents.put({ kind: 'settings', id: 'tablet', revision: 0, savedUtcMs: 1, body: settings });
    await here.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
    ({ file } = await here.ask({ q: 'job-file', ref: ref() }));
    ({ members } = await unzip(await bytesOf(file)));
  }, 60_000);

  it('they are files of the record, named by its signed manifest, and it is valid', async () => {
    expect(members.map((m) => m.name).filter((n) => n.startsWith('photo-'))).toEqual([
      'photo-01-before.jpg',
      'photo-01-small.jpg',
      'photo-02-after.jpg',
      'photo-02-original.jpg',
      'photo-02-small.jpg',
    ]);
    const view = await here.ask({ q: 'verify', file, name: 'a.zip' });
    expect([view.verdict, view.findings]).toEqual(['valid', []]);
    expect(view.remarks.map((r) => r.r)).toEqual(['logged', 'no-witness']);
    // What is looked at out of a file is what was kept here.
    const record = await here.ask({ q: 'record', ref: { kind: 'opened' } });
    const { photos, signed } = record.sealed!.enclosed!;
    expect(signed).toMatchObject([{ name: 'A. & B.', strokes: NAME }]);
    const out = await here.ask({ q: 'photo', sha256: photos[1]!.sha256, ref: { kind: 'opened' } });
    expect(await bytesOf(out)).toEqual(
      await bytesOf(await here.ask({ q: 'photo', sha256: photos[1]!.sha256 })),
    );
  });

  it('the certificate shows them, and nothing of a text becomes markup', async () => {
    const { html } = await here.ask({ q: 'certificate', ref: ref() });
    expect(html.match(/<img src="data:image\/jpeg;base64,/g)).toHaveLength(2);
    expect(html).not.toContain('<img src=x');
    expect(html).toContain('M100 200L400 90M420 150L700 160');
    expect(html).toContain('A. &amp; B.');
    expect(html).toContain('img-src data:');
    expect(html).toContain(`data:image/png;base64,${PIXEL}`);
    expect(html).toContain('Drain &amp; Sons');
    expect(html).toContain('C. Dahl (CD)');
    expect(html).not.toContain('A. Brandt');
    expect(new TextDecoder().decode(members.find((m) => m.name === 'certificate.html')!.bytes)).toBe(html);
  });

  it('the client’s packet holds the record file as it is, and what is read without a program', async () => {
    const packet = await here.ask({ q: 'packet', ref: ref() });
    expect(packet.name).toMatch(/^2026-04-14_Crack-at-12-4-m_\w+_packet\.zip$/);
    const { members: inside, fault } = await unzip(await bytesOf(packet.file));
    expect(fault).toBeNull();
    expect(inside.map((m) => m.name)).toEqual([
      expect.stringMatching(/^record\/2026-04-14_Crack-at-12-4-m_\w+\.steadybar\.zip$/),
      'certificate.html',
      'HOW-TO-CHECK.txt',
      'photos/photo-01-before.jpg',
      'photos/photo-02-after.jpg',
    ]);
    const view = await quick(here, blobOf(inside[0]!.bytes));
    expect([view.verdict, view.findings]).toEqual(['valid', []]);
    const text = new TextDecoder().decode(inside[2]!.bytes);
    expect(text.replace(/\s/g, '').toLowerCase()).toContain(view.fingerprint!);
    expect(text).toContain(inside[0]!.name);
    expect(Math.max(...text.split('\n').map((l) => l.length))).toBeLessThanOrEqual(100);
    // Whoever is handed the packet verifies the packet: the record in it is what is held against its seal.
    const handed = await here.ask({ q: 'verify', file: packet.file, name: 'packet.zip' });
    expect([handed.verdict, handed.packet]).toEqual(['valid', 'packet.zip']);
    expect(handed.manifestSha256).not.toBeNull();
    const bytes = await bytesOf(packet.file);
    bytes[new TextDecoder('latin1').decode(bytes).indexOf('Sbarpage') + 3000]! ^= 1;
    const changed = await here.ask({ q: 'verify-first', file: blobOf(bytes) });
    expect(changed.verdict).toBe('changed');
    // The original, with what it carries, stays in the record file.
    expect(inside.some((m) => m.name.includes('original'))).toBe(false);
  });

  it('what stands in a sealed record is neither changed nor removed', async () => {
    const { photos, signed } = await here.ask({ q: 'enclosed', beside: beside() });
    const { sha256 } = photos[0]!;
    await expect(here.ask({ q: 'remove-photo', beside: beside(), sha256 })).rejects.toMatchObject({
      code: 'picture-sealed',
    });
    await expect(
      here.ask({ q: 'change-photo', beside: beside(), sha256, change: { note: 'x' } }),
    ).rejects.toMatchObject({ code: 'picture-sealed' });
    await expect(
      here.ask({ q: 'remove-signed', beside: beside(), as: 'crew', utcMs: signed[0]!.utcMs }),
    ).rejects.toMatchObject({ code: 'picture-sealed' });
  });

  it('a photograph that is exchanged is found and named, with or without sums', async () => {
    const other = (m: ZipMember) =>
      m.name === 'photo-02-after.jpg' ? { ...m, bytes: Uint8Array.of(...m.bytes, 0) } : m;
    const withSums = await quick(here, changed(other));
    expect(withSums.verdict).toBe('changed');
    expect(withSums.findings).toEqual([{ f: 'file', file: 'photo-02-after.jpg', offset: null }]);
    const bare = (m: ZipMember) => (m.name.startsWith('SHA256SUMS') ? null : m);
    const without = await quick(
      here,
      changed((m) => bare(m) && other(m)),
    );
    expect(without.findings).toContainEqual({ f: 'file', file: 'photo-02-after.jpg', offset: null });
  });

  it('one that is missing is named, one laid beside is strange', async () => {
    const less = await quick(
      here,
      changed((m) => (m.name === 'photo-01-small.jpg' ? null : m)),
    );
    expect(less.verdict).toBe('incomplete');
    expect(less.findings).toContainEqual({ f: 'missing', file: 'photo-01-small.jpg' });
    const more = [...members];
    const at = more.findIndex((m) => m.name === 'photo-02-after.jpg');
    more.splice(at + 3, 0, { name: 'photo-03-other.jpg', bytes: members[at]!.bytes });
    const beside = await quick(here, blobOf(zipBytes(more)));
    expect(beside.findings).toContainEqual({ f: 'strange', file: 'photo-03-other.jpg' });
  });

  it('a changed signature is a changed manifest', async () => {
    const text = (m: ZipMember) => new TextDecoder().decode(m.bytes);
    const view = await quick(
      here,
      changed((m) =>
        m.name === 'manifest.json'
          ? { ...m, bytes: new TextEncoder().encode(text(m).replace('[100,200,', '[100,201,')) }
          : m,
      ),
    );
    expect(view.findings).toContainEqual({ f: 'manifest', why: 'signature' });
  });

  it('what comes after the sealing is an addition, signed by itself', async () => {
    const add = (more: object) =>
      here.ask({ q: 'add', runId, kind: 'note', text: 'After', by: 'ab', ...more });
    const photo = {
      file: photoFile(9, exifBlock([0x8825])),
      occasion: 'after',
      utcMs: 1.77e12,
      source: 'file',
    };
    await add({ photo });
    await add({ hand: { as: 'client', name: 'C. Dahl', strokes: NAME } });
    await expect(add({ hand: { as: 'client', name: 'C. Dahl', strokes: [] } })).rejects.toMatchObject({
      code: 'signature-blank',
    });
    await expect(add({ photo: { ...photo, file: new Blob(['<svg >']) } })).rejects.toMatchObject({
      code: 'picture-drawing',
    });
    const { file: grown } = await here.ask({ q: 'job-file', ref: ref() });
    const view = await quick(here, grown);
    expect([view.verdict, view.findings]).toEqual(['valid', []]);
    const [first, second] = view.additions.map((a) => a.body);
    expect(addedPhotoIn(first)).toMatchObject({ occasion: 'after', width: 800, height: 600 });
    expect(atob(addedPhotoIn(first)!.jpeg)).not.toContain('Exif');
    expect(addedHandIn(second)).toMatchObject({ as: 'client', name: 'C. Dahl', strokes: NAME });
    // Of anybody's: what is no JPEG by its form is no picture here.
    for (const jpeg of ['', 'PHN2Zz4=', '/9j/" onerror="x', `/9j/${'A'.repeat(60_000)}`])
      expect(addedPhotoIn({ photo: { ...addedPhotoIn(first)!, jpeg } })).toBeNull();
  });

  it('a backup carries them; restored elsewhere the record builds the same file', async () => {
    const { file: backup, groups } = await here.ask({ q: 'backup' });
    expect(groups.enclosed).toBe(1);
    const there = office();
    const look = await there.ask({ q: 'restore-look', file: backup });
    expect(look.counts.enclosed.new).toBe(1);
    await there.ask({ q: 'restore', file: backup, token: look.token, choice: PLAIN_CHOICE });
    const again = await there.ask({ q: 'restore-look', file: backup });
    expect(again.counts.enclosed.same).toBe(1);
    const built = await there.ask({ q: 'job-file', ref: ref() });
    const theirs = (await unzip(await bytesOf(built.file))).members;
    for (const { name, bytes } of theirs)
      if (/^photo-|certificate/.test(name))
        expect(bytes, name).toEqual(members.find((m) => m.name === name)?.bytes);
    // A photograph gone here: the file is built without it, and says so when it is verified.
    const { photos } = (await here.ask({ q: 'enclosed', beside: beside() }))!;
    await there.files.remove(photoFileName(photos[0]!.sha256));
    const less = await there.ask({ q: 'job-file', ref: ref() });
    const view = await quick(here, less.file);
    expect(view.findings).toContainEqual({ f: 'missing', file: 'photo-01-before.jpg' });
  }, 60_000);

  it('a run that is removed takes its own along, and leaves its job’s', async () => {
    await here.ask({ q: 'remove-run', runId });
    const { photos } = await here.ask({ q: 'enclosed', beside: { jobId: JOB_ID, runId: null } });
    expect(photos.map((p) => p.runId)).toEqual([null, 'another']);
    const left = (await here.files.list()).filter((f) => f.name.startsWith('photo-'));
    expect(left).toHaveLength(4);
  });
});
