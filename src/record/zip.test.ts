import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { notRun } from '../../tests/unit/not-run.ts';
import { zipBytes } from './testing/zip-bytes.ts';
import { isMemberName, readZip, type ZipMember } from './zip.ts';

const text = (s: string): Uint8Array => new TextEncoder().encode(s);
const FILES: ZipMember[] = [
  { name: 'CHECK.txt', chunks: [text('check '), text('me\n')] },
  { name: 'empty', chunks: [] },
  { name: 'additions/0001.json', chunks: [new Uint8Array(3000).fill(7)] },
];

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

  it('is read back, and made again byte for byte', () => {
    const file = zipBytes(FILES);
    const { entries, problems } = readZip(file);
    expect(problems).toEqual([]);
    expect(entries.map((e) => e.name)).toEqual(FILES.map((f) => f.name));
    expect(zipBytes(entries.map((e) => ({ name: e.name, chunks: [e.bytes] })))).toEqual(file);
  });

  it('lets no changed byte through, wherever it stands', () => {
    const file = zipBytes(FILES.map((f) => ({ ...f, chunks: f.chunks.map((c) => c.subarray(0, 40)) })));
    for (let at = 0; at < file.length; at++)
      for (const mask of [0x01, 0x80, 0xff]) {
        const bad = file.slice();
        bad[at]! ^= mask;
        expect(readZip(bad).problems.length, `byte ${at}`).toBeGreaterThan(0);
      }
  });

  it('tells a cut file and bytes behind the end', () => {
    const file = zipBytes(FILES);
    for (let size = 4; size < file.length; size += 11)
      expect(readZip(file.subarray(0, size)).problems[0]?.fault, `${size} bytes`).toBe('truncated');
    expect(readZip(zipBytes(FILES.slice(0, 1)).subarray(0, 3)).problems[0]?.fault).toBe('not-a-zip');
    expect(readZip(new Uint8Array([...file, 0])).problems[0]?.fault).toBe('behind');
  });

  /** Sets a field of the first local header. */
  const edited = (offset: number, ...values: number[]): Uint8Array => {
    const bad = zipBytes(FILES);
    bad.set(values, offset);
    return bad;
  };

  it('takes no compressed, encrypted or oversized member, so nothing unpacks to more than it is', () => {
    expect(readZip(edited(8, 8)).problems[0]?.fault).toBe('compressed');
    expect(readZip(edited(6, 1)).problems[0]?.fault).toBe('encrypted');
    expect(readZip(edited(18, 255, 255, 255, 255)).problems[0]?.fault).toBe('zip64');
    expect(readZip(edited(18, 255, 255, 255, 127, 255, 255, 255, 127)).problems[0]?.fault).toBe('truncated');
  });

  it('takes no name that is a path, a device or a second spelling', () => {
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
      expect(() => zipBytes([{ name, chunks: [] }])).toThrow(RangeError);
    }
    const swapped = zipBytes([{ name: 'aa/bb', chunks: [] }]);
    const hostile = text('../bb');
    for (let at = 0; at < swapped.length - 5; at++)
      if (new TextDecoder().decode(swapped.subarray(at, at + 5)) === 'aa/bb') swapped.set(hostile, at);
    expect(readZip(swapped).problems[0]?.fault).toBe('name');
    const twice = zipBytes([
      { name: 'ab', chunks: [] },
      { name: 'cd', chunks: [] },
    ]);
    for (let at = 0; at < twice.length - 2; at++)
      if (twice[at] === 0x63 && twice[at + 1] === 0x64) twice.set(text('AB'), at);
    expect(readZip(twice).problems[0]?.fault).toBe('twice');
  });

  it('takes no endless list of members', () => {
    const heads = Array.from({ length: 1001 }, (_, i) => {
      const name = `m${i}`;
      return zipBytes([{ name, chunks: [] }]).subarray(0, 30 + name.length);
    });
    expect(readZip(new Uint8Array(Buffer.concat(heads))).problems[0]?.fault).toBe('too-many');
    expect(() => zipBytes(Array.from({ length: 1001 }, (_, i) => ({ name: `m${i}`, chunks: [] })))).toThrow(
      /too many/,
    );
  });

  it('never throws on noise (property)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (noise) => {
        readZip(noise);
        const led = new Uint8Array(noise.length + 4);
        led.set([0x50, 0x4b, 3, 4]);
        led.set(noise, 4);
        expect(readZip(led).problems.length).toBeGreaterThan(0);
      }),
      { seed: 50, numRuns: 500 },
    );
  });
});
