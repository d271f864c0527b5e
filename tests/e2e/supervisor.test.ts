import { afterEach, expect, it } from 'vitest';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { faults, open, profile, serve } from './app.ts';
import { keepMany } from './many-records.ts';

// A supervisor before two thousand records of several crews: the one job that went to its ceiling is found, looked into, and
// decided about.

const RECORDS = 2000;
const closers: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

/** A sealed job whose ceiling lies under what the crew worked at. */
async function badJob() {
  const office = createOffice();
  await office.keepJob({ title: 'Joint at 31.4 m', site: 'Mill Lane, manhole M3' });
  const runId = await office.record({ limits: { workingBar: 1, ceilingBar: 1.2 } });
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  const { name, file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
  return { name, buffer: Buffer.from(await file.arrayBuffer()), mimeType: 'application/zip' };
}

it('finds the one bad job among 2,000, reads why, and enters the review', async () => {
  const server = await serve();
  closers.push(() => server.close());
  const { dir, dispose } = profile(server.origin);
  closers.push(dispose);
  const context = await open(dir, { width: 1180, height: 820 });
  closers.push(() => context.close());
  const page = await context.newPage();
  const seen = faults(page);
  const { origin } = server;
  // One in seven had some alarm: by that alone it is not found.
  const alarmed = Array.from({ length: RECORDS }, (_, i) => i).filter((i) => i % 7 === 0);
  await keepMany(page, origin, RECORDS, Object.fromEntries(alarmed.map((i) => [i, { alarms: 1 }])));
  await page.getByTestId('verify-file').setInputFiles(await badJob());
  await page.getByTestId('verdict').waitFor();
  await page.getByTestId('keep').click();
  await page.getByTestId('kept').waitFor();

  await page.getByTestId('nav-archive').or(page.locator('a[href="#/archive"]')).first().click();
  const count = () => page.getByTestId('archive-count').textContent();
  await expect.poll(count, { timeout: 30_000 }).toMatch(new RegExp(`^${RECORDS + 2} `));
  await page.getByTestId('chip-alarms').click();
  expect(await count()).toMatch(new RegExp(`^${alarmed.length + 1} of`));
  await page.getByTestId('chip-ceiling').click();
  await expect.poll(count).toMatch(/^1 of/);
  await page.locator('.record-job a').click();

  // Why it is among those stands first; nothing has to be looked for in the trace.
  await expect.poll(() => page.getByTestId('account-say').textContent()).toMatch(/the ceiling was reached/);
  await page.getByTestId('review-by').fill('E.F.');
  await page.getByTestId('release').click(); // without a reason: refused
  expect(await page.getByTestId('review-status').textContent()).toBe('No decision');
  await page.getByTestId('review-reason').fill('Went to the ceiling: packer to be inspected');
  await page.getByTestId('reject').click();
  await expect
    .poll(() => page.getByTestId('review-status').textContent())
    .toMatch(/^Rejected, .*E\.F\.: Went/);

  // Back in the list, found still and decided; and so after a new start.
  await page.goBack();
  const row = page.locator('.record-row');
  await expect.poll(() => row.textContent()).toContain('Rejected');
  await page.reload();
  await page.locator('summary', { hasText: 'Filters' }).click();
  await page.getByTestId('filter-status').selectOption('rejected');
  await expect.poll(count, { timeout: 30_000 }).toMatch(/^1 of/);
  expect(await row.textContent()).toContain('Joint at 31.4 m');
  expect(seen).toEqual([]);
}, 120_000);
