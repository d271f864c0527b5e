import { beforeAll, expect, it } from 'vitest';
import { readAll } from './byte-source.ts';
import { canonicalBytes } from './canonical.ts';
import { isWhole } from './findings.ts';
import { type Manifest, PRACTICE_SCHEMA, parseManifest, RECORD_SCHEMA } from './manifest.ts';
import { FILE } from './members.ts';
import { HEAD } from './testing/arbitrary.ts';
import { flip, makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import { jobFile, paper, RUN_SETUP, runPages, sealRun } from './testing/sealing.ts';

let { signer, verify } = {} as SealedFile;
beforeAll(async () => {
  ({ signer, verify } = await makeSealedFile());
});

const PRACTICE_PAGES = [
  ['head', () => runPages({ seconds: 2, head: { ...HEAD, practice: true } })],
  ['Setup', () => runPages({ seconds: 2, setup: { ...RUN_SETUP, practice: true } })],
] as const;

it.each(PRACTICE_PAGES)(
  'of a practice run, by its %s, is a practice record and never valid',
  async (_, made) => {
    const bytes = made();
    const own = await sealRun(bytes, signer);
    const read = parseManifest(own.manifest);
    expect(read.ok && [read.manifest.schema, read.manifest.practice]).toEqual([PRACTICE_SCHEMA, true]);
    const whole = await jobFile(bytes, own, signer, paper);
    const v = await verify(whole);
    expect([v.verdict, v.findings]).toEqual(['practice', [{ f: 'practice' }]]);
    expect(isWhole(v.verdict)).toBe(false);
    expect(new TextDecoder().decode(await readAll(v.files.get(FILE.check)!))).toContain('A practice record.');
    // By a key that nobody knows it is none the less; cut or changed it says that first.
    expect((await verify(whole, { trusted: new Map() })).verdict).toBe('practice');
    expect((await verify(whole, { sense: null, judge: null, firstOnly: true })).verdict).toBe('practice');
    expect((await verify(whole.slice(0, -400))).verdict).toBe('incomplete');
    const bad = whole.slice();
    flip(bad, bad.length >> 1);
    expect((await verify(bad)).verdict).toBe('changed');
  },
);

it.each(PRACTICE_PAGES)(
  'a practice run, by its %s, is made into no job, not even by whoever holds the key',
  async (_, made) => {
    const bytes = made();
    const own = await sealRun(bytes, signer);
    const read = parseManifest(own.manifest);
    if (!read.ok) throw new Error(read.what);
    const under = async (change: Partial<Manifest>, resigned: boolean) => {
      const manifest = canonicalBytes({ ...read.manifest, ...change });
      const signature = resigned ? await signer.sign(manifest) : own.signature;
      const forged = { manifest, signature, additions: [], proof: [] };
      return (await verify(await jobFile(bytes, forged, signer, paper))).verdict;
    };
    expect(await under({ schema: RECORD_SCHEMA }, false)).toBe('refused');
    expect(await under({ schema: RECORD_SCHEMA }, true)).toBe('refused');
    // The pages contradict a manifest that says it was work.
    expect(await under({ schema: RECORD_SCHEMA, practice: false }, true)).toBe('changed');
    expect(parseManifest(canonicalBytes({ ...read.manifest, practice: false }))).toEqual({
      ok: false,
      what: 'form',
    });
    expect(parseManifest(canonicalBytes({ ...read.manifest, schema: 'steadybar-practice/2' }))).toEqual({
      ok: false,
      what: 'version',
    });
  },
);
