import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { faults, open, profile, serve } from './app.ts';
import { SCENES, showScene, stagedEngine } from './staged.ts';

// The live page in every stage and under alarms of each kind, at the sizes that it is drawn for: one screen, no scroll, nothing over
// anything, and what is read from three metres as large as that asks. Its engine shows the moments (staged.ts).

/** CSS px a millimetre: a 10-inch tablet, a laptop, a phone. */
const PX_PER_MM = { tablet: 5.2, laptop: 4.5, phone: 6 } as const;
/** Least heights in mm: pressure in a fill, in a hold, an urgent verb, a high one. */
const LEAST = {
  tablet: { fill: 24, hold: 20, urgent: 13.5, high: 9 },
  laptop: { fill: 30, hold: 21, urgent: 14, high: 10 },
  phone: { fill: 8, hold: 6.5, urgent: 4.5, high: 3 },
} as const;
const SIZES = [
  [360, 740, 'phone'],
  [740, 360, 'phone'],
  [820, 1180, 'tablet'],
  [1180, 820, 'tablet'],
  [1366, 768, 'laptop'],
  [1600, 1000, 'laptop'],
] as const;
const URGENT = ['rising', 'ceiling', 'over-rated', 'over-range', 'lost', 'several'];
const HIGH = ['lift', 'fall', 'rebound'];

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

const CAP_EM = 0.76;
const inside = (b: Box, w: number, h: number) =>
  b.x >= -0.6 && b.y >= -0.6 && b.x + b.w <= w + 0.6 && b.y + b.h <= h + 0.6;
const apart = (a: Box, b: Box) =>
  a.x + a.w <= b.x + 0.6 || b.x + b.w <= a.x + 0.6 || a.y + a.h <= b.y + 0.6 || b.y + b.h <= a.y + 0.6;

for (const [width, height, kind] of SIZES)
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
      const least = LEAST[kind];
      const stage = scene().view.stage;
      const isNumber = !['over-range', 'lost', 'several', 'connect'].includes(name);
      const wanted = stage === 'hold' ? least.hold : least.fill;
      const tagged = ['ceiling', 'over-rated', 'done'].includes(name);
      if (isNumber && mm(l.pressurePx) < wanted * (tagged ? 0.75 : 1))
        say(`pressure ${mm(l.pressurePx).toFixed(1)} mm`);
      if (URGENT.includes(name) && mm(l.verbPx) < least.urgent) say(`verb ${mm(l.verbPx).toFixed(1)} mm`);
      if (HIGH.includes(name) && mm(l.verbPx) < least.high) say(`verb ${mm(l.verbPx).toFixed(1)} mm`);
    }
    expect(found).toEqual([]);
    expect([...keys]).toHaveLength(1);
  });

it('threw and logged no error all the while', () => {
  expect(seen).toEqual([]);
});
