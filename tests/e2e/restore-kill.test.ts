import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { createTestLocks } from '../../src/engine/testing/bench.ts';
import { createEvidenceHost } from '../../src/evidence/host.ts';
import type { EvidenceAnswers, FromEvidence } from '../../src/evidence/messages.ts';
import { bytesSource } from '../../src/record/byte-source.ts';
import { summarise } from '../../src/record/recovery.ts';
import { createMemoryDocuments } from '../../src/record/stores/memory-documents.ts';
import { createMemoryStore } from '../../src/record/stores/testing/memory.ts';
import { recordCrypto, runPages, subtle } from '../../src/record/testing/sealing.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { notRun } from '../unit/not-run.ts';
import { chromiumPath, open, profile, serve } from './app.ts';

// The browser's processes are killed with SIGKILL while a backup is restored, each time at another moment. After the
// next start either everything of it is there or nothing.

// Few in every run of the tests; `npm run faults -- kills` makes a hundred.
const KILLS = Number(process.env.STEADYBAR_KILLS ?? 2);
/** Half as many take half the time, in which the kills fall at the same shares. */
const RUNS = KILLS > 2 ? 120 : 60;

/** A tablet's backup, made by the very code that the browser runs. */
async function makeBackup(): Promise<Uint8Array> {
  const files = createMemoryStore();
  const documents = createMemoryDocuments();
  for (let i = 0; i < RUNS; i++) {
    const runId = `run-${String(i).padStart(3, '0')}`;
    const pages = runPages({ seconds: 60, head: { runId } });
    const file = await files.open(`${runId}.run`);
    file.append(pages);
    file.close();
    const body = await summarise(bytesSource(pages), { title: `Repair ${i}`, peakBar: 1 });
    await documents.put({ kind: 'run', id: runId, revision: 0, savedUtcMs: 1, body });
  }
  return new Promise((resolve, reject) => {
    const host = createEvidenceHost({
      utcMs: () => 1_780_000_000_000,
      pause: async () => undefined,
      files,
      documents,
      locks: createTestLocks(),
      subtle,
      crypto: recordCrypto,
      software: 'test',
      catalogueOf: loadCatalogue,
      post(message: FromEvidence) {
        if (message.m !== 'answer') return;
        if (!message.ok) reject(new Error(message.detail));
        else
          (message.value as EvidenceAnswers['backup']).file
            .arrayBuffer()
            .then((b) => resolve(new Uint8Array(b)), reject);
      },
    });
    host.receive({ id: 1, request: { q: 'backup' } });
  });
}

function kill(dir: string): void {
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      if (readFileSync(`/proc/${name}/cmdline`, 'utf8').includes(dir)) process.kill(Number(name), 'SIGKILL');
    } catch {
      // ended in between
    }
  }
}

/** What rests in the browser: files of the private file system, documents of IndexedDB. */
const resting = (page: Page): Promise<{ files: number; runs: number; staged: number; journal: number }> =>
  page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open('steadybar');
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    const count = (kind: string): Promise<number> =>
      new Promise((resolve, reject) => {
        const store = db.transaction('documents').objectStore('documents');
        const request = store.count(IDBKeyRange.bound([kind], [kind, []]));
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    // The journal first: once it is gone nothing is moved any more, and what is listed then stays.
    const journal = await count('restore');
    const runs = await count('run');
    db.close();
    const root = await navigator.storage.getDirectory();
    const names: string[] = [];
    const folder = await root.getDirectoryHandle('runs', { create: true });
    for await (const handle of folder.values()) names.push(handle.name);
    return {
      files: names.filter((n) => n.endsWith('.run')).length,
      runs,
      staged: names.filter((n) => n.startsWith('restore')).length,
      journal,
    };
  });

const ALL = { files: RUNS, runs: RUNS, staged: 0, journal: 0 };
const NOTHING = { files: 0, runs: 0, staged: 0, journal: 0 };

async function begin(page: Page, origin: string, backup: string): Promise<void> {
  await page.goto(`${origin}/#/backup`);
  await page.getByTestId('restore-file').setInputFiles(backup);
  await page.getByTestId('restore-go').click({ timeout: 60_000 });
}

it(`killed ${KILLS} times while a backup is restored: all of it or nothing`, async (context) => {
  if (!existsSync(chromiumPath())) notRun(context, 'no Chromium');
  if (!existsSync('/proc/self/cmdline')) notRun(context, 'no /proc to find the browser by');
  const work = mkdtempSync(path.join(tmpdir(), 'steadybar-restore-'));
  const backup = path.join(work, 'backup.zip');
  writeFileSync(backup, await makeBackup());
  const server = await serve(4687);
  const outcomes: string[] = [];
  try {
    // Once undisturbed, to learn how long it takes here.
    let place = profile(server.origin);
    let browser = await open(place.dir);
    let page = await browser.newPage();
    await begin(page, server.origin, backup);
    const from = Date.now();
    await page.getByTestId('restored').waitFor({ timeout: 120_000 });
    const tookMs = Date.now() - from;
    expect(await resting(page)).toEqual(ALL);
    expect(await page.getByTestId('restored-key').textContent()).toMatch(/[0-9a-f]{8}/);
    await browser.close();
    place.dispose();
    for (let round = 0; round < KILLS; round++) {
      place = profile(server.origin);
      browser = await open(place.dir);
      page = await browser.newPage();
      await begin(page, server.origin, backup);
      await new Promise((resolve) => setTimeout(resolve, (tookMs * (round + 0.5)) / KILLS));
      kill(place.dir);
      browser = await open(place.dir);
      page = await browser.newPage();
      await page.goto(server.origin);
      await page.getByTestId('start-live').waitFor();
      let found = await resting(page);
      for (let waited = 0; waited < 100 && found.journal + found.staged > 0; waited++) {
        await new Promise((resolve) => setTimeout(resolve, 100));
        found = await resting(page);
      }
      expect([ALL, NOTHING], `kill ${round}`).toContainEqual(found);
      outcomes.push(found.runs === 0 ? 'nothing' : 'all');
      if (found.runs === 0 && round % 4 === 0) {
        await begin(page, server.origin, backup);
        await page.getByTestId('restored').waitFor({ timeout: 120_000 });
        expect(await resting(page)).toEqual(ALL);
      }
      await browser.close();
      place.dispose();
    }
    console.log(`restore of ${RUNS} runs took ${tookMs} ms; after each kill: ${outcomes.join(' ')}`);
  } finally {
    await server.close();
    rmSync(work, { recursive: true, force: true });
  }
}, 400_000);
