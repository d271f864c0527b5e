import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { notRun } from '../../tests/unit/not-run.ts';
import { bytesSource } from './byte-source.ts';
import { type Unzipped, unzip, type ZipMember, zipBytes } from './testing/zips.ts';
import { isMemberName } from './zip-form.ts';
import { readZip } from './zip-reader.ts';

const text = (s: string): Uint8Array => new TextEncoder().encode(s);
const FILES: ZipMember[] = [
  { name: 'CHECK.txt', bytes: text('check me\n') },
  { name: 'empty', bytes: new Uint8Array(0) },
  { name: 'additions/0001.json', bytes: new Uint8Array(3000).fill(7) },
];
const faultOf = async (file: Uint8Array): Promise<Unzipped['fault']> => (await unzip(file)).fault;
const empty = (name: string): ZipMember => ({ name, bytes: new Uint8Array(0) });

describe('zip of one form', () => {
  it('is opened by another program, names, contents and all', (context) => {
    if (spawnSync('python3', ['--version']).status !== 0) notRun(context, 'no python3');
    const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-zip-'));
    try {
      writeFileSync(path.join(folder, 'a.zip'), zipBytes(FILES));
      // Python's zipfile checks every CRC in testzip().
      const script =
        'import sys,zipfile;z=zipfile.ZipFile(sys.argv[1]);assert z.testzip() is None;z.extractall(sys.argv[2]);print(z.namelist())';
      const run = spawnSync('python3', ['-c', script, path.join(folder, 'a.zip'), folder], {
        encoding: 'utf8',
      });
      expect(run.stderr).toBe('');
      expect(run.stdout.trim()).toBe("['CHECK.txt', 'empty', 'additions/0001.json']");
      expect(readFileSync(path.join(folder, 'CHECK.txt'), 'utf8')).toBe('check me\n');
      expect(readFileSync(path.join(folder, 'additions/0001.json')).length).toBe(3000);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('is read back, and made again byte for byte', async () => {
    const file = zipBytes(FILES);
    expect(await unzip(file)).toEqual({ members: FILES, fault: null });
    expect(zipBytes((await unzip(file)).members)).toEqual(file);
  });

  it('lets no changed byte through, wherever it stands', async () => {
    const file = zipBytes(FILES.map((f) => ({ ...f, bytes: f.bytes.subarray(0, 40) })));
    for (let at = 0; at < file.length; at++)
      for (const mask of [0x01, 0x80, 0xff]) {
        const bad = file.slice();
        bad[at]! ^= mask;
        expect(await faultOf(bad), `byte ${at}`).not.toBeNull();
      }
  });

  it('tells a cut file and bytes behind the end', async () => {
    const file = zipBytes(FILES);
    for (let size = 4; size < file.length; size += 11)
      expect(await faultOf(file.subarray(0, size)), `${size} bytes`).toBe('truncated');
    expect(await faultOf(zipBytes(FILES.slice(0, 1)).subarray(0, 3))).toBe('not-a-zip');
    expect(await faultOf(new Uint8Array([...file, 0]))).toBe('behind');
  });

  /** Sets a field of the first local header. */
  const edited = (offset: number, ...values: number[]): Uint8Array => {
    const bad = zipBytes(FILES);
    bad.set(values, offset);
    return bad;
  };

  it('takes no compressed, encrypted or oversized member, so nothing unpacks to more than it is', async () => {
    expect(await faultOf(edited(8, 8))).toBe('compressed');
    expect(await faultOf(edited(6, 1))).toBe('encrypted');
    expect(await faultOf(edited(18, 255, 255, 255, 255))).toBe('zip64');
    expect(await faultOf(edited(18, 255, 255, 255, 127, 255, 255, 255, 127))).toBe('truncated');
  });

  it('takes no name that is a path, a device or a second spelling', async () => {
    for (const name of [
      '../x',
      '/x',
      'a/../b',
      'a/b/c',
      'C:x',
      'a\\b',
      '.x',
      'x.',
      'a b',
      'ä',
      '',
      'a//b',
      'a/',
      'x'.repeat(121),
    ]) {
      expect(isMemberName(name), name).toBe(false);
      expect(() => zipBytes([empty(name)])).toThrow(RangeError);
    }
    const swapped = zipBytes([empty('aa/bb')]);
    const hostile = text('../bb');
    for (let at = 0; at < swapped.length - 5; at++)
      if (new TextDecoder().decode(swapped.subarray(at, at + 5)) === 'aa/bb') swapped.set(hostile, at);
    expect(await faultOf(swapped)).toBe('name');
    const twice = zipBytes([empty('ab'), empty('cd')]);
    for (let at = 0; at < twice.length - 2; at++)
      if (twice[at] === 0x63 && twice[at + 1] === 0x64) twice.set(text('AB'), at);
    expect(await faultOf(twice)).toBe('twice');
  });

  it('takes no endless list of members', async () => {
    const heads = Array.from({ length: 1001 }, (_, i) => {
      const name = `m${i}`;
      return zipBytes([empty(name)]).subarray(0, 30 + name.length);
    });
    expect(await faultOf(new Uint8Array(Buffer.concat(heads)))).toBe('too-many');
    expect(() => zipBytes(Array.from({ length: 1001 }, (_, i) => empty(`m${i}`)))).toThrow(/too many/);
  });

  it('never throws on noise (property)', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async (noise) => {
        await readZip(bytesSource(noise));
        const led = new Uint8Array(noise.length + 4);
        led.set([0x50, 0x4b, 3, 4]);
        led.set(noise, 4);
        expect((await readZip(bytesSource(led))).problem).not.toBeNull();
      }),
      { seed: 50, numRuns: 500 },
    );
  });
});
