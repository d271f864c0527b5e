import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { english } from '../../src/words/testing/english.ts';
import { faults, open, profile, serve } from './app.ts';

// The start of the built app, each time in a profile that never saw it: no service worker holds anything yet, what the
// page needs and has not the network must give.

const { UI } = english.ui;

let server: Awaited<ReturnType<typeof serve>>;
let room: ReturnType<typeof profile>;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  server = await serve();
});
afterAll(async () => {
  await server?.close();
});
beforeEach(async () => {
  room = profile(server.origin);
  context = await open(room.dir);
  page = await context.newPage();
});
afterEach(async () => {
  await context?.close();
  room?.dispose();
});

const codeOf = (name: string) => new RegExp(`/assets/${name}-[^/]*\\.js$`);

it('the live page is fetched behind the start page: it comes up though the network is gone', async () => {
  const seen = faults(page);
  const fetched = page.waitForResponse(codeOf('Live'));
  await page.goto(server.origin);
  await page.getByTestId('start-live').waitFor();
  await (await fetched).finished();
  await page.waitForLoadState('networkidle');
  await page.route('**/*.js', (route) => route.abort());
  await page.getByTestId('start-live').click();
  await page.getByTestId('connect-rig').waitFor();
  expect(seen).toEqual([]);
});

it('where its code cannot be had the live page says so, and comes once it can', async () => {
  await page.route(codeOf('Live'), (route) => route.abort());
  await page.goto(server.origin);
  await page.getByTestId('start-live').click();
  await page.getByTestId('page-failed').waitFor();
  expect(await page.getByTestId('page-failed').textContent()).toContain(UI.pageFailedTodo);
  await page.unroute(codeOf('Live'));
  await page.getByText(UI.retry, { exact: true }).click();
  await page.getByTestId('connect-rig').waitFor();
});
