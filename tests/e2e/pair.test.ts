import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { faults, open, profile, serve } from './app.ts';
import { openPanel, shownBar } from './stage.ts';

// A line with two pressure sensors, in the built app on the simulated site that has them.

let server: Awaited<ReturnType<typeof serve>>;
let place: ReturnType<typeof profile>;
let context: BrowserContext;
let page: Page;
let seen: string[];

beforeAll(async () => {
  server = await serve();
  place = profile(server.origin);
  context = await open(place.dir);
  page = await context.newPage();
  seen = faults(page);
});
afterAll(async () => {
  await context?.close();
  await server?.close();
  place?.dispose();
});

const rig = async (id: string, value?: string) => {
  await openPanel(page, 'rig');
  const control = page.getByTestId(id);
  if (value === undefined) {
    const faultList = page.getByTestId('rig-panel').locator('details');
    if ((await faultList.getAttribute('open')) === null) await faultList.locator('summary').click();
    await control.click();
    return;
  }
  await control.evaluate((input: HTMLInputElement, to) => {
    input.value = to;
    input.dispatchEvent(new Event('input', { bubbles: true }));
    input.dispatchEvent(new Event('change', { bubbles: true }));
  }, value);
};

it('a supply that sticks open in a fill is told at its outlet while the packer is low; one sensor goes on when the other is lost', async () => {
  await page.goto(`${server.origin}/#/live`);
  await page.locator('details.practices > summary').click();
  await page.getByTestId('connect-practice-pair').click();
  await page.getByTestId('use-practice').click();
  // The supply stands at its pressure: of this one the zero is asked, and not taken.
  await page
    .getByTestId('second-at-zero')
    .filter({ hasText: /1\.4|1\.5/ })
    .waitFor();
  await page.getByTestId('zero').click();
  await page.getByTestId('stage').waitFor();
  const stage = async () => {
    await page
      .getByTestId('stage-key')
      .click({ timeout: 2000 })
      .catch(() => undefined);
    return page.getByTestId('stage').getAttribute('data-stage');
  };
  await expect.poll(stage, { interval: 900, timeout: 15_000 }).toMatch(/seat|inflate/);
  await rig('rig-valve', '0.4');
  await expect.poll(() => shownBar(page), { timeout: 15_000 }).toBeGreaterThan(0.05);
  await rig('rig-fault-stuck-open');
  await page.locator('[data-testid="alarm-supply-over"][data-priority="urgent"]').waitFor();
  // Long before the packer is anywhere near.
  expect(await shownBar(page)).toBeLessThan(1);
  await rig('rig-fault-second-lost');
  await page.getByTestId('alarm-second-lost').waitFor({ state: 'attached' });
  // The packer's own goes on, and tells by itself what comes.
  expect(['good', 'over']).toContain(await page.getByTestId('pressure').getAttribute('data-trust'));
  await page
    .getByTestId('alarm-rising')
    .or(page.getByTestId('alarm-ceiling'))
    .or(page.getByTestId('alarm-over-rated'))
    .or(page.getByTestId('alarm-over-range'))
    .first()
    .waitFor({ state: 'attached' });
  expect(seen).toEqual([]);
}, 90_000);
