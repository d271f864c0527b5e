import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { nodeCrypto } from '../../src/cli/node-crypto.ts';
import { createNodeStore } from '../../src/record/stores/testing/node-files.ts';
import type { Row } from './measure.ts';
import { measureRecord, type RecordTimes } from './record-work.ts';
import { serveWorker } from './worker-page.ts';

const ms = (v: number): string => (v < 10 ? `${v.toFixed(2)} ms` : `${v.toFixed(0)} ms`);
const pair = ([a, b]: readonly [number, number]): string => `${ms(a)} / ${ms(b)}`;

function rows(where: string, t: RecordTimes): Row[] {
  const row = (what: string, value: string, beside: string, met: boolean | null = null): Row => ({
    what: `${where}: ${what}`,
    value,
    beside,
    met,
  });
  const sha = `plain SHA-256 of ${t.pagesMb.toFixed(0)} MB: ${ms(t.shaMs)}, by the platform ${ms(t.platformShaMs)}`;
  return [
    row('page at 50 Hz cut, appended, flushed, p50 / p99', pair(t.page50Hz), 'twice a second'),
    row('page at 1 kHz, p50 / p99', pair(t.page1kHz), 'twice a second'),
    row('12 h at 50 Hz, open to first picture', ms(t.openMs), 'goal 300 ms', t.openMs <= 300),
    row('zoom, p50 / p99', pair(t.zoomMs), 'goal 16 ms', t.zoomMs[1] <= 16),
    row('read all pages, check CRCs', `${ms(t.readMs)} + ${ms(t.scanMs)}`, ''),
    row('seal (chain, manifest, signature)', ms(t.sealMs), `goal 2 s; ${sha}`, t.sealMs <= 2000),
    row('chain verified', ms(t.chainMs), `goal 2 s; ${sha}`, t.chainMs <= 2000),
  ];
}

async function inNode(): Promise<RecordTimes> {
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-bench-'));
  try {
    return await measureRecord(createNodeStore(folder), nodeCrypto());
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** In a dedicated worker of Chromium, over OPFS in a profile on disk. */
async function inChromium(executablePath: string): Promise<RecordTimes> {
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-bench-'));
  const server = await serveWorker(path.join(import.meta.dirname, 'record.worker.ts'));
  const context = await chromium.launchPersistentContext(path.join(folder, 'profile'), {
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
    ],
  });
  try {
    const page = await context.newPage();
    await page.goto(server.origin);
    const answer = await page.evaluate(
      () =>
        new Promise<{ times?: RecordTimes; error?: string }>((resolve) => {
          const worker = new Worker('/worker.js', { type: 'module' });
          worker.onmessage = (event: MessageEvent<{ times?: RecordTimes; error?: string }>) =>
            resolve(event.data);
          worker.onerror = (event) => resolve({ error: event.message });
        }),
    );
    if (answer.times === undefined) throw new Error(answer.error);
    return answer.times;
  } finally {
    await context.close();
    server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

export async function benchRecord(): Promise<Row[]> {
  const list = rows('Node', await inNode());
  const executable = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium';
  if (existsSync(executable)) list.push(...rows('Chromium', await inChromium(executable)));
  return list;
}
