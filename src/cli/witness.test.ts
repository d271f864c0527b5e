import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createOffice } from '../evidence/testing/office.ts';
import { PLAIN_WORDING } from '../job/testing/wording.ts';
import { bytesSource } from '../record/byte-source.ts';
import { recordCrypto } from '../record/testing/sealing.ts';
import { unzip } from '../record/testing/zips.ts';
import { verifyJobFile } from '../record/verify.ts';
import { type Authority, createAuthority } from '../record/witness/testing/authority.ts';
import { english } from '../words/testing/english.ts';
import { runCheckpoint } from './checkpoint-run.ts';
import { InputFault } from './fault.ts';
import { runStamp } from './stamp-run.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-witness-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => path.join(folder, name);
const office = createOffice();
let authority: Authority;
let runId = '';

async function save(name: string, content: string | Blob | Uint8Array): Promise<string> {
  writeFileSync(at(name), content instanceof Blob ? new Uint8Array(await content.arrayBuffer()) : content);
  return at(name);
}
const checkpoint = async () => (await office.ask({ q: 'log' })).checkpoint;
const record = async () => (await office.ask({ q: 'job-file', ref: { kind: 'run', runId } })).file;

beforeAll(async () => {
  authority = createAuthority(folder);
  await office.keepJob();
  // A run that is left out when it comes to sealing.
  await office.record({ holdS: 2 });
  await save('start.txt', await checkpoint());
  runId = await office.record({ holdS: 2 });
  await save('end.txt', await checkpoint());
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  await office.bench.run(1000);
  await office.ask({ q: 'backup' });
  await save('later.txt', await checkpoint());
  await save('job.zip', await record());
  await save('log.txt', await office.ask({ q: 'log-file' }));
  const { members } = await unzip(new Uint8Array(readFileSync(at('job.zip'))));
  await save('log.pem', members.find((m) => m.name === 'witness/log.pem')!.bytes);
}, 120_000);

const run = (...args: string[]) => runCheckpoint(args, english);

it('a photograph of the start and of the end against the record: what each holds of it', async () => {
  const start = await run(at('start.txt'), at('job.zip'));
  expect([start.exitCode, start.text]).toEqual([0, expect.stringContaining('from before the run')]);
  const end = await run(at('end.txt'), at('job.zip'));
  expect([end.exitCode, end.text]).toEqual([0, expect.stringContaining('holds the opening of this run')]);
  const later = await run(at('later.txt'), at('job.zip'));
  expect([later.exitCode, later.text]).toEqual([3, expect.stringContaining('Not told')]);
  const told = await run(at('later.txt'), at('job.zip'), '--log', at('log.txt'));
  expect(told.exitCode).toBe(0);
  expect(told.text).toContain('2 runs opened, 1 of them not sealed');
});

it('two checkpoints of one log, with the leaves between them or without', async () => {
  const key = ['--key', at('log.pem')];
  expect((await run(at('start.txt'), at('later.txt'), ...key)).exitCode).toBe(3);
  expect((await run(at('later.txt'), at('later.txt'), ...key)).exitCode).toBe(0);
  const both = [at('start.txt'), at('later.txt'), ...key, '--log'];
  expect((await run(...both, at('log.txt'))).exitCode).toBe(0);
  // The opening of the run that was never sealed, left out of the log.
  const lines = readFileSync(at('log.txt'), 'utf8').split('\n');
  await save('short.txt', lines.slice(1).join('\n'));
  const out = await run(...both, at('short.txt'));
  expect([out.exitCode, out.text]).toEqual([1, expect.stringContaining('DIFFERENT')]);
  await save('cut.txt', `${lines.slice(0, 3).join('\n')}\n`);
  expect((await run(at('later.txt'), ...key, '--log', at('cut.txt'))).text).toContain('taken away');
  await save('changed.txt', readFileSync(at('later.txt'), 'utf8').replace(/\n\d+\n/, '\n3\n'));
  expect((await run(at('changed.txt'), at('later.txt'), ...key)).exitCode).toBe(1);
});

it('bad input is a sentence', async () => {
  await expect(run()).rejects.toThrow(InputFault);
  await expect(run(at('start.txt'), at('end.txt'))).rejects.toThrow(InputFault);
  await save('none.zip', 'nothing');
  await expect(run(at('start.txt'), at('none.zip'))).rejects.toThrow(InputFault);
  expect((await run(at('log.pem'), at('job.zip'))).exitCode).toBe(2);
  expect(() => runStamp(['take'], english)).toThrow(InputFault);
  expect(() => runStamp(['request', at('log.pem')], english)).toThrow(InputFault);
});

it('a day’s stamp: asked for, answered, taken in, and openssl says that it is the authority’s', async () => {
  expect(runStamp(['request', at('later.txt')], english).exitCode).toBe(0);
  const answer = authority.answer(new Uint8Array(readFileSync(at('later.tsq'))));
  await save('later.tsr', answer);
  const taken = runStamp(['take', at('later.txt'), at('later.tsr')], english);
  expect([taken.exitCode, taken.text]).toEqual([0, expect.stringContaining('openssl ts -verify')]);
  expect(authority.verify(answer, at('later.stamped.txt'))).toContain('Verification: OK');
  // Another day's answer, and one that was asked for by somebody else.
  expect(runStamp(['request', at('end.txt')], english).exitCode).toBe(0);
  expect(runStamp(['take', at('end.txt'), at('later.tsr')], english).text).toContain('something else');
  expect(runStamp(['request', at('later.txt')], english).exitCode).toBe(0);
  expect(runStamp(['take', at('later.txt'), at('later.tsr')], english).text).toContain('nonce');
  expect(runStamp(['take', at('later.txt'), at('log.pem')], english).exitCode).toBe(2);

  const text = readFileSync(at('later.txt'), 'utf8');
  const give = (checkpointText: string, bytes: Uint8Array) =>
    office.ask({
      q: 'take-stamp',
      checkpoint: checkpointText,
      response: new Blob([bytes as Uint8Array<ArrayBuffer>]),
    });
  expect(await give(readFileSync(at('end.txt'), 'utf8'), answer)).toBe('no-stamp-of');
  expect(await give('x', answer)).toBe('form');
  expect(await give(text, Uint8Array.of(1))).toBe('form');
  expect(await give(text, answer)).toBe('taken');
  const file = new Uint8Array(await (await record()).arrayBuffer());
  const v = await verifyJobFile(bytesSource(file), {
    crypto: recordCrypto,
    trusted: new Map([[(await office.ask({ q: 'key' })).key!.fingerprint, 'Tablet']]),
    sense: null,
    judge: null,
  });
  expect([v.verdict, v.findings]).toEqual(['valid', []]);
  const bounds = v.remarks.filter((r) => r.r === 'bounded');
  expect(bounds).toMatchObject([{ side: 'not-after', fingerprint: null }]);
  // As docs/record.md says it: from the file alone.
  const { members } = await unzip(file);
  const member = (name: string) => members.find((m) => m.name === `witness/${name}`)!.bytes;
  await save('stamped', member('stamped.txt'));
  expect(authority.verify(member('stamp.tsr'), at('stamped'))).toContain('Verification: OK');
}, 60_000);
