import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { HEAD } from '../record/testing/arbitrary.ts';
import { jobFile, newSigner, RUN_SETUP, runPages, sealRun } from '../record/testing/sealing.ts';
import { createPageWriter } from '../record/writer.ts';
import type { WatchEvent } from '../watch/events.ts';
import { loadCatalogue } from '../words/catalogue.ts';
import { english } from '../words/testing/english.ts';
import { runExtract } from './extract-run.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-extract-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('tables of sealed files', () => {
  it('name a file whose signed events are none of ours, and go on with the others', async () => {
    const signer = await newSigner();
    const writer = createPageWriter({ ...HEAD, runId: 'run-bad' });
    writer.addEntry({ l: 'setup', tUs: 0, setup: RUN_SETUP });
    const hold = { tUs: 1, e: 'hold', what: 'ended', leak: null };
    writer.addEvent(hold as unknown as WatchEvent);
    const bad = writer.finish(HEAD.utcMs, 'ended');
    const files: [string, Uint8Array][] = [
      ['a-bad', bad],
      ['b-good', runPages({ seconds: 2 })],
    ];
    const names: string[] = [];
    for (const [name, pages] of files) {
      const at = path.join(folder, `${name}.steadybar.zip`);
      writeFileSync(at, await jobFile(pages, await sealRun(pages, signer), signer));
      names.push(at);
    }
    const to = path.join(folder, 'tables');
    const said: string[] = [];
    const say = (line: string) => said.push(line);
    const { exitCode } = await runExtract(['--to', to, ...names], english, loadCatalogue, say);
    const text = said.join('\n');
    expect(exitCode).toBe(1);
    // Events of no form that a run has: signed as they are, they are no record's.
    expect(text).toContain(`refused  ${names[0]}: `);
    expect(text).toContain(`1 jobs in ${to}, 1 files refused`);
  });
});
