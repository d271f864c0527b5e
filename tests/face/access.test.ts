import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { PAGE_STORIES, PAGES, preparePages } from '../pictures/pages.ts';
import { keepJob } from '../stand/repair.ts';
import { openStand, type Stand, THEMES } from '../stand/stand.ts';
import { ENOUGH, type LiveState, play, STORIES, type StoryName } from '../stand/states.ts';

// Every state of Live and every other page, by axe in three themes; what is drawn and what a screen reader is told.

let stand: Stand;
const runs = new Map<StoryName, string>();

beforeAll(async () => {
  stand = await openStand();
  await keepJob(stand);
});
afterAll(() => stand?.close());

/** Findings of axe in each theme, each with the element that it is about. Colours follow the page's attribute at once. */
async function findings(where: string): Promise<string[]> {
  const { page } = stand;
  const found: string[] = [];
  const kept = await page.evaluate(() => document.documentElement.dataset.theme ?? '');
  for (const theme of THEMES) {
    await page.evaluate((t) => {
      document.documentElement.dataset.theme = t;
    }, theme);
    const { violations } = await new AxeBuilder({ page: page as never }).setLegacyMode(true).analyze();
    for (const v of violations)
      for (const n of v.nodes) found.push(`${where}, ${theme}: ${v.id} ${n.target.join(' ')}`);
  }
  await page.evaluate((t) => {
    document.documentElement.dataset.theme = t;
  }, kept);
  return found;
}

/** Animations that go on for ever, as the page runs them now. */
const endless = () =>
  stand.page.evaluate(
    () =>
      document.getAnimations().filter((a) => a.effect?.getComputedTiming().iterations === Infinity).length,
  );

/** What an urgent alarm does to who asked for no motion, and under the reader's own colours. */
async function othersEyes(): Promise<string[]> {
  const { page } = stand;
  const found: string[] = [];
  if ((await endless()) === 0) found.push('nothing of an urgent alarm that waits moves');
  await page.emulateMedia({ reducedMotion: 'reduce' });
  if ((await endless()) > 0) found.push('it moves for who asked for no motion');
  await page.emulateMedia({ reducedMotion: 'no-preference', forcedColors: 'active' });
  await stand.drawn();
  // Whatever the reader's colours are, text is not of its ground's colour.
  const unread = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main *')]
      .filter((e) => [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim()))
      .filter((e) => e.getClientRects().length > 0 && getComputedStyle(e).visibility === 'visible')
      .filter((e) => {
        const chain: Element[] = [];
        for (let x: Element | null = e; x !== null; x = x.parentElement) chain.push(x);
        const ground = chain
          .map((x) => getComputedStyle(x).backgroundColor)
          .find((c) => !/, 0\)$|transparent/.test(c));
        return ground === getComputedStyle(e).color;
      })
      .map((e) => `${e.className}: ${e.textContent?.trim().slice(0, 20)}`),
  );
  found.push(...unread.map((text) => `forced colours: not to be read: ${text}`));
  await page.emulateMedia({ forcedColors: 'none' });
  return found;
}

for (const story of Object.keys(STORIES) as StoryName[])
  it(`Live has no finding of axe: ${story}`, async () => {
    const found: string[] = [];
    const seen: LiveState[] = [];
    runs.set(
      story,
      await play(stand, story, async (state) => {
        seen.push(state);
        await stand.drawn();
        found.push(...(await findings(state)));
        if (state === 'over-rated') found.push(...(await othersEyes()));
      }),
    );
    expect(found).toEqual([]);
    expect(seen).toEqual(STORIES[story]);
  });

it('a screen reader is told pressure, state, alarm and order in this order, and live regions do not chatter', async () => {
  const { page } = stand;
  const told: string[] = [];
  let tree = '';
  await play(stand, 'leak', async (state) => {
    if (state !== 'leaking') return;
    tree = await page.locator('body').ariaSnapshot();
    // A minute of a hold with an alarm that stands: nothing new is said.
    await page.evaluate(() => {
      const kept: string[] = [];
      Object.assign(globalThis, { told: kept });
      new MutationObserver((changes) => {
        for (const { target } of changes) {
          const element = target instanceof Element ? target : target.parentElement;
          const region = element?.closest('[aria-live], [role=status], [role=alert], [role=log]');
          if (region && region.getAttribute('aria-live') !== 'off') kept.push(region.textContent ?? '');
        }
      }).observe(document.body, { subtree: true, childList: true, characterData: true });
    });
    for (let second = 0; second < 60; second += 5) {
      await stand.pass(5);
      await stand.drawn();
    }
    told.push(...(await page.evaluate(() => (globalThis as unknown as { told: string[] }).told)));
    throw ENOUGH;
  });
  expect(told).toEqual([]);
  const at = ['Line pressure', 'Hold', 'leak', 'Hands off'].map((word) => tree.search(new RegExp(word, 'i')));
  expect(at.every((place) => place >= 0)).toBe(true);
  expect([...at].sort((a, b) => a - b)).toEqual(at);
});

it('every other page has no finding of axe, reflows at 320 px and at 200 % zoom', async () => {
  const { page } = stand;
  expect([...runs.keys()]).toEqual(expect.arrayContaining([...PAGE_STORIES]));
  const open = await preparePages(stand, runs);
  const found: string[] = [];
  for (const name of PAGES) {
    await page.setViewportSize({ width: 1280, height: 800 });
    await open(name);
    found.push(...(await findings(name)));
    // 320 px is 1280 px at 400 % (WCAG 2.2, 1.4.10); 640 px is 1280 px at 200 % (1.4.4).
    for (const width of [640, 320]) {
      await page.setViewportSize({ width, height: 400 });
      await page.waitForTimeout(80);
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      if (over > 0) found.push(`${name} is ${over} px wider than ${width} px`);
    }
  }
  await page.setViewportSize({ width: 1180, height: 820 });
  expect(found).toEqual([]);
});

it('threw and logged no error all the while', () => {
  expect(stand.faults).toEqual([]);
});
