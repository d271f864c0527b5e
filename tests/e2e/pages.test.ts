import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { faults, open, profile, serve } from './app.ts';
import { axeFindings, THEMES } from './axe.ts';

// Every page but the live one, over a record and the practice job: readable to all in the three themes, at 320 px (400 %
// of a window of 1280 px: WCAG 2.2, 1.4.10 Reflow), and by keys alone.

let server: Awaited<ReturnType<typeof serve>>;
let room: ReturnType<typeof profile>;
let context: BrowserContext;
let page: Page;
let record: string;

beforeAll(async () => {
  const office = createOffice();
  await office.keepJob();
  const runId = await office.record({ holdS: 60 });
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  const { name, file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
  server = await serve();
  room = profile(server.origin);
  context = await open(room.dir);
  page = await context.newPage();
  await page.goto(`${server.origin}/#/verify`);
  await page
    .getByTestId('verify-file')
    .setInputFiles({ name, buffer: Buffer.from(await file.arrayBuffer()), mimeType: 'application/zip' });
  await page.getByTestId('keep').click();
  await page.getByTestId('kept').waitFor();
  await page.goto(`${server.origin}/#/archive`);
  const href = await page.locator('[data-testid^="record-"]').getAttribute('href');
  record = href?.replace('#/record/', '') ?? '';
}, 300_000);
afterAll(async () => {
  await context?.close();
  room?.dispose();
  await server?.close();
});

/** Address, and what is there once the page is. */
const PAGES: readonly (readonly [name: string, hash: () => string, there: string])[] = [
  ['start', () => 'jobs', '.guide-picture svg'],
  ['archive', () => 'archive', '.record-row .sparkline'],
  ['review', () => `record/${record}`, '[data-testid=account-say]'],
  ['compare', () => `compare/${record}`, '.compare-picture svg'],
  ['certificate', () => `certificate/${record}`, '.certificate h1'],
  ['job sheet', () => 'job/demo-job', '[data-testid=step-next]'],
  ['packers', () => 'packer', '[data-testid=new-packer]'],
  ['a packer', () => 'packer/new', '[data-testid=save-document]'],
  ['a resin', () => 'resin/new', '[data-testid=save-document]'],
  ['a sensor', () => 'sensor/new', '[data-testid=save-document]'],
  ['bench', () => 'bench', '[data-testid=bench-practice]'],
  ['settings', () => 'settings', '[data-testid=key]'],
  ['verify', () => 'verify', '[data-testid=drop]'],
  ['backup', () => 'backup', '[data-testid=make-backup]'],
  ['folder', () => 'office', 'main h1'],
  ['about', () => 'about', '[data-testid=licences]'],
];

async function show(hash: string, there: string): Promise<void> {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.goto(`${server.origin}/#/${hash}`);
  await page.locator(there).first().waitFor();
  // What is folded is a part of the page.
  await page.evaluate(() => {
    for (const d of document.querySelectorAll<HTMLDetailsElement>('main details')) d.open = true;
  });
}

for (const [name, hash, there] of PAGES)
  it(`${name}: no finding of axe in three themes, and nothing runs out of 320 px`, async () => {
    const seen = faults(page);
    await show(hash(), there);
    expect(await axeFindings(page, name, THEMES)).toEqual([]);
    await page.setViewportSize({ width: 320, height: 640 });
    await expect
      .poll(() => page.evaluate(() => document.documentElement.scrollWidth))
      .toBeLessThanOrEqual(320);
    expect(seen).toEqual([]);
  }, 240_000);

it('what is wrong would be found: a key without a name in the first theme, letters that are hardly seen in each', async () => {
  await show('about', '[data-testid=licences]');
  await page.evaluate(() => {
    const key = document.createElement('button');
    key.id = 'nameless';
    const text = document.createElement('p');
    text.id = 'faint';
    text.textContent = 'hardly seen';
    text.style.color = '#777777';
    text.style.backgroundColor = '#808080';
    document.querySelector('main')?.append(key, text);
  });
  const found = await axeFindings(page, 'about', THEMES);
  await page.evaluate(() => {
    for (const id of ['nameless', 'faint']) document.getElementById(id)?.remove();
  });
  expect(found).toContain('about, light: button-name #nameless');
  for (const theme of THEMES) expect(found).toContain(`about, ${theme}: color-contrast #faint`);
});

/** What a page computes after it is shown (a plan, sketches) has come: its controls have stayed as they are for a moment. */
async function settled(): Promise<void> {
  const count = () => page.locator('main :is(a, button, input, select, textarea, summary)').count();
  for (let before = -1, now = await count(); now !== before; now = await count()) {
    before = now;
    await page.waitForTimeout(300);
  }
}

it('each control of each page is reached by Tab, and is seen to be', async () => {
  // All pages are one document: what has the focus says so by an outline, or is missed.
  await page.evaluate(() => {
    document.addEventListener('focusin', ({ target }) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(target as HTMLElement);
      if (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2)
        (target as HTMLElement).dataset.seen = '';
    });
  });
  for (const [name, hash, there] of PAGES) {
    await show(hash(), there);
    await settled();
    const missed = async (): Promise<readonly string[]> =>
      page.evaluate(() => {
        const controls = document.querySelectorAll<HTMLElement>(
          'main :is(a[href], button, input, select, textarea, summary)',
        );
        return [...controls]
          .filter((e) => e.checkVisibility() && e.tabIndex >= 0 && !(e as HTMLButtonElement).disabled)
          .filter((e) => e.dataset.seen === undefined)
          .map((e) => e.outerHTML.slice(0, 120));
      });
    const wanted = (await missed()).length;
    // The frame's own keys come first, and the round goes through the browser's bars.
    for (let i = 0; i < wanted + 40; i++) {
      if (i > wanted && i % 5 === 0 && (await missed()).length === 0) break;
      await page.keyboard.press('Tab');
    }
    expect(await missed(), name).toEqual([]);
  }
}, 240_000);

it('without motion where the reader wants none, and with the reader’s own colours', async () => {
  await page.emulateMedia({ reducedMotion: 'reduce', forcedColors: 'active' });
  await show('jobs', '.guide-picture svg');
  const moving = await page.evaluate(
    () =>
      [...document.querySelectorAll('*')].filter((e) => {
        const { animationName, transitionDuration } = getComputedStyle(e);
        return (
          animationName !== 'none' || transitionDuration.split(',').some((d) => Number.parseFloat(d) > 0)
        );
      }).length,
  );
  expect(moving).toBe(0);
  // A door is still a box: its edge is drawn in a system colour.
  const edge = await page
    .getByTestId('start-live')
    .evaluate((e) => Number.parseFloat(getComputedStyle(e).borderTopWidth));
  expect(edge).toBeGreaterThanOrEqual(1);
  await page.emulateMedia({ reducedMotion: null, forcedColors: null });
});
