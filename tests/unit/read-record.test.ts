import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { contentOf } from '../../src/record/manifest.ts';
import { captureOf } from '../../src/record/testing/capture.ts';
import { runPages } from '../../src/record/testing/sealing.ts';
import { notRun } from './not-run.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-read-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('a reader written from docs/record.md in another language reads the same run', async (context) => {
  if (spawnSync('python3', ['--version']).status !== 0) notRun(context, 'no python3');
  const pages = runPages({ seconds: 12, end: 'interrupted' });
  const at = path.join(folder, 'pages.bin');
  writeFileSync(at, pages);
  const read = (): { status: number | null; stdout: string; stderr: string } =>
    spawnSync('python3', [path.join(import.meta.dirname, 'read-record.py'), at], { encoding: 'utf8' });
  const run = read();
  expect(run.stderr).toBe('');
  const theirs = JSON.parse(run.stdout);
  const { content, head } = contentOf(pages)!;
  expect(theirs).toMatchObject({
    head,
    pages: content.pages.count,
    samples: content.pages.samples,
    chainHead: content.pages.chainHead,
    end: content.end,
    events: content.events,
  });
  // The device's bytes, rebuilt there and here.
  expect(theirs.device).toBe(
    createHash('sha256')
      .update(await captureOf(pages))
      .digest('hex'),
  );
  const bad = pages.slice();
  bad[5000]! ^= 1;
  writeFileSync(at, bad);
  expect(read().stderr).toMatch(/CRC of page \d/);
});
