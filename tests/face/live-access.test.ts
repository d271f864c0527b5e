import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { WatchView } from '../../src/watch/view.ts';
import { faults, open, profile, serve } from '../e2e/app.ts';
import { axeFindings, THEMES } from '../e2e/axe.ts';
import { SCENES } from '../e2e/scenes.ts';
import { openPanel } from '../e2e/stage.ts';
import { goOn, type Scene, showScene, stagedEngine } from '../e2e/staged.ts';

// Who does not see the live page as it is drawn: axe in every state, what a screen reader is told and in which order, the
// reader's own colours, no motion. Its engine shows the moments (staged.ts). STEADYBAR_FACE=whole: all states in all themes.

const WHOLE = process.env.STEADYBAR_FACE === 'whole';
type SceneName = keyof typeof SCENES;
/** In all themes: what is calm, and a face of each kind. */
const CHOSEN: readonly SceneName[] = ['hold', 'met', 'over-rated', 'lost', 'lift', 'cold', 'connect'];

let server: Awaited<ReturnType<typeof serve>>;
let place: ReturnType<typeof profile>;
let context: BrowserContext;
let page: Page;
let seen: string[];

beforeAll(async () => {
  server = await serve(4690);
  place = profile(server.origin);
  context = await open(place.dir, { width: 1180, height: 820 });
  await stagedEngine(context);
  page = await context.newPage();
  seen = faults(page);
  await page.goto(`${server.origin}/#/live`);
  await page.locator('.face').waitFor();
});
afterAll(async () => {
  await context?.close();
  await server?.close();
  place?.dispose();
});

async function show(scene: Scene): Promise<void> {
  await showScene(page, scene);
  await page.waitForTimeout(120);
}

const inPractice = (scene: Scene): Scene => ({
  ...scene,
  link: { ...scene.link, kind: 'rig' },
  run: scene.run === null ? null : { ...scene.run, practice: true },
});

describe('axe finds nothing', () => {
  for (const [name, scene] of Object.entries(SCENES))
    it(`in ${name}`, async () => {
      await show(scene());
      const themes = WHOLE || CHOSEN.includes(name) ? THEMES : (['light'] as const);
      expect(await axeFindings(page, name, themes)).toEqual([]);
    });

  it('in a practice, on a phone and in each panel of the drawer', async () => {
    await show(inPractice(SCENES.hold!()));
    const found = await axeFindings(page, 'practice');
    await page.setViewportSize({ width: 360, height: 740 });
    for (const name of ['hold', 'over-rated']) {
      await show(SCENES[name]!());
      found.push(...(await axeFindings(page, `${name} on a phone`)));
    }
    await page.setViewportSize({ width: 1180, height: 820 });
    await show(SCENES.cold!());
    for (const panel of ['numbers', 'spans', 'stages', 'checks', 'note', 'alarms', 'run']) {
      await openPanel(page, panel);
      found.push(...(await axeFindings(page, `panel ${panel}`, WHOLE ? THEMES : ['light'])));
    }
    expect(found).toEqual([]);
  });
});

describe('a screen reader', () => {
  it('is told the pressure, the stage, the alarm and its order, in this order and before all else', async () => {
    await show(SCENES.lift!());
    const tree = await page.locator('.face').ariaSnapshot();
    const order = [
      'Line pressure',
      '1.61 bar',
      'paragraph: Hold',
      '1 h 02',
      'alert:',
      'LET OUT',
      'Acknowledge',
      'img ',
    ];
    const at = order.map((word) => tree.indexOf(word));
    expect(
      at.filter((place) => place < 0),
      tree,
    ).toEqual([]);
    expect([...at].sort((a, b) => a - b)).toEqual(at);
  });

  /** What live regions said while so many seconds passed, a moment each with readings that move. */
  async function saidIn(seconds: number, scene: Scene): Promise<string[]> {
    await show(scene);
    await page.evaluate(() => {
      const said: string[] = [];
      Object.assign(globalThis, { said });
      new MutationObserver((changes) => {
        for (const { target } of changes) {
          const element = target instanceof Element ? target : target.parentElement;
          const region = element?.closest('[aria-live], [role=status], [role=alert], [role=log], output');
          if (region && region.getAttribute('aria-live') !== 'off') said.push(region.textContent ?? '');
        }
      }).observe(document.body, { subtree: true, childList: true, characterData: true });
    });
    const { view } = scene;
    const later = (i: number): WatchView => ({
      ...view,
      tUs: view.tUs + i * 1_000_000,
      bar: view.bar === null ? null : view.bar + 0.02 * Math.sin(i / 2),
    });
    await goOn(
      page,
      Array.from({ length: seconds }, (_, i) => later(i + 1)),
    );
    return page.evaluate(() => (globalThis as unknown as { said: string[] }).said);
  }

  it('is not told again what stands: nothing in a minute of a hold, of an alarm that waits, of one that was put aside', async () => {
    for (const name of ['hold', 'lift', 'cold', 'over-rated'])
      expect(await saidIn(60, SCENES[name]!())).toEqual([]);
  });

  it('is told an alarm once when it comes', async () => {
    const calm = SCENES.hold!();
    await saidIn(1, calm);
    const { alarms } = SCENES.lift!().view;
    await goOn(page, [{ ...calm.view, alarms }]);
    const said = await page.evaluate(() => (globalThis as unknown as { said: string[] }).said);
    expect(new Set(said.filter((text) => text !== '')).size).toBe(1);
  });
});

describe('who sees it otherwise', () => {
  /** Animations that go on for ever, as the page runs them now. */
  const endless = () =>
    page.evaluate(
      () =>
        document.getAnimations().filter((a) => a.effect?.getComputedTiming().iterations === Infinity).length,
    );

  it('has nothing that moves where no motion is asked for', async () => {
    await show(SCENES['over-rated']!());
    expect(await endless()).toBeGreaterThan(0);
    await page.emulateMedia({ reducedMotion: 'reduce' });
    expect(await endless()).toBe(0);
    await page.emulateMedia({ reducedMotion: null });
  });

  it('reads every text in colours of the reader’s own', async () => {
    await page.emulateMedia({ forcedColors: 'active' });
    const found: string[] = [];
    for (const [name, scene] of Object.entries(SCENES)) {
      await show(scene());
      const unread = await page.evaluate(() =>
        [...document.querySelectorAll<HTMLElement>('body *')]
          // A drawing's text has another colour than a page's; digits of a hollow face are their outline.
          .filter((e) => !(e instanceof SVGElement) && getComputedStyle(e).webkitTextStrokeWidth === '0px')
          .filter((e) =>
            [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim()),
          )
          .filter((e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true }))
          .filter((e) => {
            const chain: Element[] = [];
            for (let x: Element | null = e; x !== null; x = x.parentElement) chain.push(x);
            const ground = chain
              .map((x) => getComputedStyle(x).backgroundColor)
              .find((c) => !/^rgba\(.*, 0\)$|transparent/.test(c));
            const { color, forcedColorAdjust } = getComputedStyle(e);
            // Behind text that is forced a plate of the ground's colour is drawn.
            return ground === color || forcedColorAdjust !== 'none';
          })
          .map((e) => `${e.className}: ${e.textContent?.trim().slice(0, 20)}`),
      );
      found.push(...unread.map((text) => `${name}: ${text}`));
    }
    await page.emulateMedia({ forcedColors: null });
    expect(found).toEqual([]);
  });
});

it('threw and logged no error all the while', () => {
  expect(seen).toEqual([]);
});
