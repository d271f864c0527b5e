import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deriving } from '../evidence/deriving.ts';
import { bytesSource } from '../record/byte-source.ts';
import { joinBytes } from '../record/bytes.ts';
import { buildJobFile } from '../record/job-file.ts';
import {
  inMemory,
  newSigner,
  OTHER_ENGINE,
  recordCrypto,
  runPages,
  sealRun,
} from '../record/testing/sealing.ts';
import { type Catalogue, loadCatalogue } from '../words/catalogue.ts';
import { PSEUDO, untranslated, WITH_PSEUDO } from '../words/testing/pseudo.ts';
import { readCsv } from './csv.ts';
import { runExtract } from './extract-run.ts';
import { InputFault } from './fault.ts';
import { parseOptions } from './options.ts';
import { wordingOf } from './reader.ts';
import { replay } from './run.ts';
import { runVerify } from './verify-run.ts';

// The commands in a language that no file of theirs knows: what they print comes from the catalogue alone.

let words: Catalogue;
let folder = '';
beforeAll(async () => {
  words = await loadCatalogue({ language: PSEUDO, decimal: 'point' }, WITH_PSEUDO);
  folder = mkdtempSync(path.join(tmpdir(), 'steadybar-words-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The line that refuses; the test fails where nothing is refused. */
async function refusal(work: () => unknown): Promise<string> {
  try {
    await work();
  } catch (cause) {
    if (cause instanceof InputFault) return cause.text(words);
    throw cause;
  }
  throw new Error('nothing was refused');
}

describe('the language of a command', () => {
  it.each([
    [{}, 'en'],
    [{ LANG: 'C' }, 'en'],
    [{ LANG: 'de_DE.UTF-8', LC_ALL: 'en_GB.UTF-8' }, 'en'],
    [{ LC_ALL: '', LANG: 'POSIX' }, 'en'],
    [{ LANG: '../../etc' }, 'en'],
  ])('of %j is %s, with a point', (environment, language) => {
    expect(wordingOf(environment)).toEqual({ language, decimal: 'point' });
  });
});

describe('what a command says', () => {
  const text = (t: string): Uint8Array => new TextEncoder().encode(t);
  const judged = (trace: Uint8Array, ...args: string[]) =>
    replay(parseOptions(['--trace', 'x', ...args]), trace, null, words);

  it('of bad input comes from the catalogue', async () => {
    const verify = (...args: string[]) => runVerify(args, words, loadCatalogue);
    const extract = (...args: string[]) => runExtract(args, words, loadCatalogue, () => undefined);
    const job = path.join(folder, 'job.json');
    writeFileSync(job, '{"schema": 1}');
    const inputs: (() => unknown)[] = [
      () => parseOptions([]),
      () => parseOptions(['--speed']),
      () => parseOptions(['--trace']),
      () => parseOptions(['--trace', 'a', '--trace', 'b']),
      () => parseOptions(['--trace', 'a', '--rated', '99']),
      () => parseOptions(['--trace', 'a', '--line', 'open']),
      () => parseOptions(['--trace', 'a', '--u', '1']),
      () => parseOptions(['--trace', 'a', '--rated', '1', '--u', '1']),
      () => parseOptions(['--trace', 'a', '--rated', '1', '--working', '2']),
      () => judged(text('')),
      () => judged(text('hello')),
      () => readCsv('time_s\n'),
      () => readCsv('time_s,pressure_bar,wind\n0,0,0\n'),
      () => readCsv('time_s,pressure_bar,time_s\n0,0,0\n'),
      () => readCsv('time_s,pressure_bar\n'),
      () => readCsv('time_s,pressure_bar\n0,0\n0,0\n'),
      () => readCsv('time_s,pressure_bar\n0,0\n1\n'),
      () => readCsv('time_s,pressure_bar\n0,0\n,0\n'),
      () => readCsv('time_s,pressure_bar\n0,999\n'),
      () => readCsv('time_s,pressure_bar,temperature_c\n0,0,x\n'),
      () => readCsv('time_s,pressure_bar\n0,\n1,\n'),
      () =>
        replay(parseOptions(['--trace', 'x', '--job', job]), text('time_s,pressure_bar\n0,0\n'), '{}', words),
      () => verify(),
      () => verify(path.join(folder, 'none')),
      () => verify(folder),
      () => verify('a', '--quick=1'),
      () => verify('a', '--key', job),
      () => verify('a', '--keys', job),
      () => extract(),
      () => extract('--to', folder, path.join(folder, 'none')),
      () => extract('--to', folder, '--key', 'x', 'a'),
    ];
    const said = await Promise.all(inputs.map(refusal));
    for (const line of said) expect(untranslated(line), line).toBe('');
    expect(new Set(said).size).toBeGreaterThan(inputs.length - 3);
  });

  it('of a trace and its alarms comes from the catalogue', () => {
    const rows = Array.from({ length: 400 }, (_, i) => `${i / 10},${Math.min(3, i * 0.01).toFixed(3)}`);
    const { alarms } = judged(text(`time_s,pressure_bar\n${rows.join('\n')}\n`), '--rated', '1.5');
    expect(alarms.length).toBeGreaterThan(0);
    for (const a of alarms) expect(untranslated(a.text), a.text).toBe('');
    const { unusable } = judged(text('time_s,pressure_bar\n0,0\n1,999\n'));
    for (const one of unusable.listed) {
      const said = words.commands.REPLAY.unusable(one.text);
      expect(untranslated(said), said).toBe('');
    }
    expect(unusable.listed).toHaveLength(1);
  });

  it('of a record comes from the catalogue, whatever the record’s own language', async () => {
    const signer = await newSigner();
    const pages = runPages({ seconds: 5, ...OTHER_ENGINE });
    const sealed = await sealRun(pages, signer);
    const { sense, words: check, extras } = deriving(loadCatalogue);
    const input = { pages: bytesSource(pages), sealed, sense, words: check, extras, signer };
    const file = joinBytes(await buildJobFile(input, recordCrypto, inMemory));
    const good = path.join(folder, 'good.steadybar.zip');
    writeFileSync(good, file);
    const bad = file.slice();
    bad[file.length >> 1]! ^= 1;
    const changed = path.join(folder, 'bad.steadybar.zip');
    writeFileSync(changed, bad);
    const key = ['--key', signer.fingerprint];
    for (const args of [[good], [good, ...key], [changed, ...key]]) {
      const { text } = await runVerify(args, words, loadCatalogue);
      expect(untranslated(text), text).toBe('');
    }
    const to = path.join(folder, 'tables');
    const said: string[] = [];
    const say = (line: string) => said.push(line);
    const taken = await runExtract(['--to', to, good, changed], words, loadCatalogue, say);
    expect(untranslated(said.join('\n')), said.join('\n')).toBe('');
    expect(taken.exitCode).toBe(1);
    expect((await runVerify([good, ...key, '--quick'], words, loadCatalogue)).exitCode).toBe(0);
  });
});
