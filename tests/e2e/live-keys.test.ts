import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { faults, open, profile, serve } from './app.ts';
import { byKeys, type Focus, type Keys } from './by-keys.ts';

// A practice on the built app to an urgent alarm, by the keyboard alone: every key and panel is reached, and the focus is not lost
// where what had it goes away. A whole job by the keyboard: technician.test.ts.

let server: Awaited<ReturnType<typeof serve>>;
let place: ReturnType<typeof profile>;
let context: BrowserContext;
let page: Page;
let seen: string[];
let keys: Keys;

beforeAll(async () => {
  server = await serve();
  place = profile(server.origin);
  context = await open(place.dir, { width: 1180, height: 820 });
  page = await context.newPage();
  seen = faults(page);
  keys = byKeys(page);
  await page.goto(`${server.origin}/#/live`);
  await page.getByTestId('stage-key').waitFor();
});
afterAll(async () => {
  await context?.close();
  await server?.close();
  place?.dispose();
});

/** Presses a key of the keyboard on an element, once it takes presses, and looks where the focus is when all is done. */
async function press(testId: string, key: string, done: () => Promise<unknown>): Promise<Focus> {
  await keys.tabTo(testId);
  await page.waitForFunction(
    (id) => document.querySelector(`[data-testid="${id}"]`)?.getAttribute('aria-disabled') !== 'true',
    testId,
  );
  await page.waitForTimeout(800);
  await page.keyboard.press(key);
  await done();
  await page.waitForTimeout(400);
  return keys.look(`after ${testId}`);
}
const there = (testId: string) => () => page.getByTestId(testId).first().waitFor();
const stage = (name: string) => () =>
  page.waitForFunction((s) => document.querySelector('.face')?.getAttribute('data-stage') === s, name);
const drawer = (isOpen: boolean) => () =>
  page.getByTestId('drawer').waitFor({ state: isOpen ? 'visible' : 'hidden' });

it('from the first press to the first stage', async () => {
  await press('connect-rig', 'Enter', there('use-practice'));
  await press('use-practice', 'Space', there('zero'));
  await press('zero', 'Enter', there('stage'));
  await press('to-sound', 'Enter', drawer(true));
  expect((await keys.focus()).name).toBe('sound-play');
  await press('sound-heard', 'Space', there('sound-heard-today'));
  await page.keyboard.press('Escape');
  await drawer(false)();
  await page.waitForTimeout(400);
  await keys.look('after the drawer was shut');
  await press('mixed', 'Enter', async () => page.getByTestId('mixed').waitFor({ state: 'detached' }));
  const { name } = await press('stage-key', 'Enter', stage('seat'));
  expect(name).toBe('stage-key');
});

it('More and all that is in it, and back to where one came from', async () => {
  await press('more', 'Enter', drawer(true));
  expect((await keys.focus()).name).toBe('drawer');
  for (const tab of ['numbers', 'spans', 'stages', 'checks', 'note', 'alarms', 'run', 'rig'])
    await press(`more-${tab}`, tab === 'spans' ? 'Space' : 'Enter', async () =>
      page.waitForFunction((t) => document.querySelector('.drawer')?.getAttribute('data-tab') === t, tab),
    );
  await page.keyboard.press('Escape');
  await drawer(false)();
  await page.waitForTimeout(400);
  expect((await keys.look('after Escape')).name).toBe('more');
});

it('an alarm comes while the rig is worked: the drawer goes, the focus does not', async () => {
  await press('more', 'Enter', drawer(true));
  await press('more-rig', 'Enter', there('rig-panel'));
  // To its end, as a slider goes by the keyboard.
  for (const slider of ['rig-valve', 'rig-regulator']) {
    await keys.tabTo(slider);
    await page.keyboard.press('End');
    await page.waitForTimeout(300);
  }
  await page.locator('[data-testid="zone-order"][data-form="urgent"]').waitFor({ timeout: 60_000 });
  await page.waitForTimeout(400);
  await keys.look('when an urgent alarm came');
  await press('ack', 'Enter', async () => page.getByTestId('acknowledged').first().waitFor());
});

it('a key that is to be held is held down, and a press that is let go leads nowhere', async () => {
  const stages = page.locator('[data-testid="drawer"][data-tab="stages"]');
  // The line is still filling: the next urgent alarm shuts the drawer once more.
  for (let i = 0; i < 5 && !(await stages.isVisible()); i++) {
    if ((await page.getByTestId('ack').count()) > 0) await press('ack', 'Enter', async () => undefined);
    await keys.tabTo('stage-key');
    await page.waitForTimeout(1300);
    await page.keyboard.press('Space');
    await page.waitForTimeout(300);
    expect(await stages.isVisible()).toBe(false);
    await page.keyboard.down('Space');
    await page.waitForTimeout(1300);
    await page.keyboard.up('Space');
    await page.waitForTimeout(300);
  }
  expect(await stages.isVisible()).toBe(true);
  await keys.look('with the stages open');
  await page.keyboard.press('Escape');
  await drawer(false)();
  await page.waitForTimeout(400);
  await keys.look('after the stages');
});

it('the focus was seen all the way and never lost, and no error was thrown', () => {
  expect([...keys.wrong]).toEqual([]);
  expect(seen).toEqual([]);
});
