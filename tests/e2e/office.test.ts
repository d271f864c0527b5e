import { existsSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { DEMO } from '../../src/words/testing/demo.ts';
import { notRun } from '../unit/not-run.ts';
import { chromiumPath, faults, open, profile, serve } from './app.ts';

// The shared folder and the backup in the built app, in real Chromium. Headless Chromium shows no folder picker, so
// the picker alone is replaced: it gives a folder of the private file system, a real handle of the same interface.

const WAIT = { timeout: 15_000 };

interface Put {
  readonly name: string;
  readonly base64: string;
}

const fill = (page: Page, files: readonly Put[]): Promise<void> =>
  page.evaluate(async (list) => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('shared', { create: true });
    for (const { name, base64 } of list) {
      const handle = await folder.getFileHandle(name, { create: true });
      const writer = await handle.createWritable();
      await writer.write(Uint8Array.from(atob(base64), (c) => c.charCodeAt(0)));
      await writer.close();
    }
  }, files);

const toPut = (name: string, bytes: Uint8Array): Put => ({
  name,
  base64: Buffer.from(bytes).toString('base64'),
});

it('reads a shared folder, keeps a job from it, restores a backup, writes its own jobs there', async (context) => {
  if (!existsSync(chromiumPath())) notRun(context, 'no Chromium');
  // Another tablet: two jobs, one of them sent by the folder, all of them in its backup.
  const there = createOffice();
  await there.keepJob();
  const runId = await there.record({ holdS: 2 });
  await there.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  const { file } = await there.ask({ q: 'job-file', ref: { kind: 'run', runId } });
  const job = new Uint8Array(await file.arrayBuffer());
  const changed = job.slice();
  changed[job.length >> 1]! ^= 1;
  const backup = new Uint8Array(await (await there.ask({ q: 'backup' })).file.arrayBuffer());

  const server = await serve(4688);
  const { dir, dispose } = profile(server.origin);
  const browser = await open(dir);
  try {
    await browser.addInitScript(() => {
      Object.assign(globalThis, {
        showDirectoryPicker: async () =>
          (await navigator.storage.getDirectory()).getDirectoryHandle('shared', { create: true }),
      });
    });
    const page = await browser.newPage();
    const seen = faults(page);
    await page.goto(`${server.origin}/#/settings`);
    await page.getByTestId('to-office').click();
    await page.getByTestId('office-choose').click();
    await page.getByTestId('office-empty').waitFor();
    await page.getByTestId('office-waiting-none').waitFor();

    await fill(page, [
      toPut('good.steadybar.zip', job),
      toPut('changed.steadybar.zip', changed),
      toPut('half.steadybar.zip', job.slice(0, 5000)),
    ]);
    await page.getByTestId('office-look').click();
    const line = (state: string) => page.locator(`[data-testid="office-list"] [data-state="${state}"]`);
    await line('whole').waitFor();
    expect(await page.getByTestId('office-fresh').textContent()).toContain('One new record');
    expect(await line('changed').count()).toBe(1);
    expect(await line('incomplete').count()).toBe(1);
    await line('whole').getByRole('button', { name: 'Keep in the archive' }).click();
    // The key that keeps it says 'in the archive' too: only once it has gone is the file kept.
    await line('whole').getByRole('button', { name: 'Keep in the archive' }).waitFor({ state: 'detached' });
    await expect.poll(() => line('whole').textContent(), WAIT).toContain('in the archive');
    await page.getByTestId('office-seen').click();
    await expect.poll(() => page.getByTestId('office-fresh').textContent(), WAIT).toContain('Nothing new');

    await page.goto(`${server.origin}/#/backup`);
    await page.getByTestId('restore-file').setInputFiles({
      name: 'cut.zip',
      mimeType: 'application/zip',
      buffer: Buffer.from(backup.slice(0, 9000)),
    });
    await page.getByText('The backup is damaged').waitFor();
    await page
      .getByTestId('restore-file')
      .setInputFiles({ name: 'backup.zip', mimeType: 'application/zip', buffer: Buffer.from(backup) });
    await page.getByTestId('restore-plan').waitFor();
    expect(await page.getByTestId('restore-run-new').textContent()).toBe('1');
    await page.getByTestId('restore-go').click();
    await page.getByTestId('restored').waitFor();
    expect(await page.getByTestId('restored-key').textContent()).toContain('A new signing key was made');
    await page.goto(`${server.origin}/#/jobs`);
    await page.getByTestId(`run-${runId}`).waitFor();
    await page.getByTestId(`job-${DEMO.jobId}`).or(page.getByTestId('job-job-1')).first().waitFor();

    // The restored job is written into the folder: its key is not here, so it has no sums, and is checked by deriving.
    await page.goto(`${server.origin}/#/office`);
    await page.getByTestId('office-all').click();
    await page.getByText('One file written.').waitFor();
    await page.getByTestId('office-waiting-none').waitFor();
    await page.getByTestId('office-look').click();
    await expect.poll(() => line('whole').count(), WAIT).toBe(2);
    // And so it is after a restart: the folder is known again.
    await page.reload();
    await expect.poll(() => page.getByTestId('office-folder').textContent(), WAIT).toBe('shared');
    await page.evaluate(async () => {
      await (await navigator.storage.getDirectory()).removeEntry('shared', { recursive: true });
    });
    await page.getByTestId('office-look').click();
    await page.getByTestId('office-away').waitFor();
    expect(seen).toEqual([]);
  } finally {
    await browser.close();
    await server.close();
    dispose();
  }
});

it('without the folder picker the page says what to do instead', async (context) => {
  if (!existsSync(chromiumPath())) notRun(context, 'no Chromium');
  const server = await serve(4688);
  const { dir, dispose } = profile(server.origin);
  const browser = await open(dir);
  try {
    await browser.addInitScript(() => {
      Object.defineProperty(globalThis, 'showDirectoryPicker', { value: undefined });
    });
    const page = await browser.newPage();
    await page.goto(`${server.origin}/#/office`);
    await page.getByTestId('office-unsupported').waitFor();
    await page.goto(`${server.origin}/#/backup`);
    await page.getByTestId('backup-empty').waitFor();
    expect(await page.getByTestId('make-backup').isDisabled()).toBe(true);
  } finally {
    await browser.close();
    await server.close();
    dispose();
  }
});
