import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { INDEX_WORDS } from '../../src/words/index-page.ts';
import { english } from '../../src/words/testing/english.ts';
import { faults, open, profile, serve } from './app.ts';
import { violationsOf } from './axe.ts';

// The start of the built app, each time in a profile that never saw it: no service worker holds anything, what the
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

it('a browser whose language is no language tag starts all the same, plots included', async () => {
  const seen = faults(page);
  // WebKitGTK under the C locale names itself so.
  await page.addInitScript(() => {
    Object.defineProperty(navigator, 'language', { get: () => 'C', configurable: true });
    Object.defineProperty(navigator, 'languages', { get: () => ['C'], configurable: true });
  });
  await page.goto(server.origin);
  await page.getByTestId('practice').click();
  await page.getByTestId('use-practice').click();
  await page.locator('.lanes canvas').first().waitFor();
  expect(await page.getByTestId('start-failed').count()).toBe(0);
  expect(seen).toEqual([]);
});

for (const [how, fail] of [
  ['throws', { body: "throw new RangeError('Incorrect locale information provided')" }],
  ['cannot be read', { body: 'const {' }],
  ['is not there', { status: 404, body: '' }],
] as const)
  it(`a program that ${how} leaves no blank page: nothing is watched, and what to do`, async () => {
    await page.route(codeOf('index'), (route) =>
      route.fulfill({ contentType: 'text/javascript', status: 200, ...fail }),
    );
    await page.goto(server.origin);
    const said = page.getByTestId('start-failed');
    await said.waitFor();
    const { guard } = INDEX_WORDS.en;
    const text = await said.textContent();
    for (const part of [guard.title, guard.nothing, guard.todo]) expect(text).toContain(part);
    if (how === 'throws') expect(text).toContain('Incorrect locale information provided');
    if (how === 'is not there') expect(text).toContain(guard.missing);
    const violations = await violationsOf(page);
    expect(violations.filter((v) => v.impact === 'serious' || v.impact === 'critical')).toEqual([]);
    // Its button tries again, and what can start does.
    await page.unroute(codeOf('index'));
    await said.getByRole('button').click();
    await page.getByTestId('start-live').waitFor();
    expect(await said.count()).toBe(0);
  });

it('a part of the start that fails behind the entry is told too', async () => {
  await page.route(codeOf('web'), (route) => route.abort());
  await page.goto(server.origin);
  await page.getByTestId('start-failed').waitFor();
  expect(await page.getByTestId('start-failed').textContent()).toContain(INDEX_WORDS.en.guard.nothing);
});
