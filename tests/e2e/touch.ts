import type { CDPSession, Locator, Page } from 'playwright-core';
import { REST_MS } from '../../src/widgets/press-guard.ts';
import type { Hands } from './first-job.ts';

/** What a gloved finger hits, px; in the live page, where it counts, more (docs/face.md). */
const LEAST_PX = 44;

export interface Touch extends Hands {
  /** What was too small or off the screen, each once. */
  readonly wrong: ReadonlySet<string>;
  /** Draws on a pad with a finger. */
  sign(pad: Locator): Promise<void>;
  /** Unfolds what is folded. */
  unfold(testId: string): Promise<void>;
}

/** A finger on a phone: it taps, holds and draws. @param page of a context that has touch */
export async function byTouch(page: Page): Promise<Touch> {
  const wrong = new Set<string>();
  const cdp: CDPSession = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x = 0, y = 0) =>
    cdp.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y }] });

  const measure = (of: Locator) =>
    of.evaluate((e) => {
      // A box is pressed by its label.
      const target = e.closest('label') ?? e;
      const { left, top, width, height } = target.getBoundingClientRect();
      const at = { x: left + width / 2, y: top + height / 2 };
      const over = document.elementFromPoint(at.x, at.y);
      const root = document.documentElement;
      return {
        ...at,
        left,
        width,
        height,
        wide: innerWidth,
        over: root.scrollWidth - root.clientWidth,
        isFree: over !== null && (target.contains(over) || over.contains(target)),
      };
    });

  /** The middle of what a finger is meant for, once it is in sight by moving up and down alone. */
  async function aim(of: Locator, name: string): Promise<{ x: number; y: number }> {
    await of.waitFor();
    await of.scrollIntoViewIfNeeded();
    let found = await measure(of);
    // What it is aimed at may still move.
    for (let moved = true; moved; ) {
      await page.waitForTimeout(60);
      const then = found;
      found = await measure(of);
      moved = found.x !== then.x || found.y !== then.y;
    }
    if (!found.isFree) {
      // Seen under what stands at the edge of the screen: the page is moved on.
      await of.evaluate((e) => e.scrollIntoView({ block: 'center' }));
      found = await measure(of);
    }
    if (Math.min(found.width, found.height) < LEAST_PX - 0.5)
      wrong.add(`${name} is ${found.width.toFixed(0)} x ${found.height.toFixed(0)} px`);
    if (found.left < 0 || found.left + found.width > found.wide + 0.5)
      wrong.add(`${name} stands beside the screen`);
    if (found.over > 0) wrong.add(`${name}: the page is ${found.over} px wider than the screen`);
    if (!found.isFree) wrong.add(`${name}: something lies over it`);
    return found;
  }

  const clicks = () => page.evaluate(() => (globalThis as { clicks?: number }).clicks ?? 0);
  await page.addInitScript(() => {
    const counted = globalThis as { clicks?: number };
    document.addEventListener('click', () => (counted.clicks = (counted.clicks ?? 0) + 1), true);
  });
  await page.reload();

  /** A tap that only stops what a stroke before it set in motion presses nothing: one taps once more. */
  async function tap(x: number, y: number, most: number): Promise<void> {
    const before = await clicks();
    for (let tries = 0; tries < most; tries++) {
      await touch('touchStart', x, y);
      await touch('touchEnd');
      for (let i = 0; i < 20; i++) {
        if ((await clicks()) !== before) return;
        await page.waitForTimeout(50);
      }
    }
  }

  /** What has just come is looked at first: a key takes no press before that (widgets/press-guard.ts). */
  async function rested(of: Locator): Promise<void> {
    if (await of.evaluate((k) => k.classList.contains('key'))) await page.waitForTimeout(REST_MS + 50);
    for (let i = 0; i < 60 && (await of.getAttribute('aria-disabled')) === 'true'; i++)
      await page.waitForTimeout(50);
  }

  return {
    wrong,
    async press(id) {
      const key = page.getByTestId(id).first();
      const { x, y } = await aim(key, id);
      await rested(key);
      const isHeld = await key.evaluate((k) => k.classList.contains('held'));
      // A key of the live page may be another one by then: it is tapped once.
      if (!isHeld) return tap(x, y, (await key.evaluate((k) => k.classList.contains('key'))) ? 1 : 2);
      await touch('touchStart', x, y);
      const holding = () =>
        key.evaluate((k) => k.classList.contains('holding'), null, { timeout: 300 }).catch(() => false);
      await page.waitForTimeout(950);
      for (let i = 0; i < 40 && (await holding()); i++) await page.waitForTimeout(50);
      await touch('touchEnd');
    },
    async write(id, text) {
      const field = page.getByTestId(id).first();
      const { x, y } = await aim(field, id);
      await touch('touchStart', x, y);
      await touch('touchEnd');
      await field.evaluate((f) => (f as HTMLInputElement).select());
      await page.keyboard.insertText(text);
    },
    async choose(id, value) {
      const field = page.getByTestId(id).first();
      await aim(field, id);
      // The list itself is the phone's own.
      await field.selectOption(value);
    },
    async unfold(id) {
      const head = page.getByTestId(id).locator('summary').first();
      const { x, y } = await aim(head, id);
      await touch('touchStart', x, y);
      await touch('touchEnd');
    },
    async sign(pad) {
      const { x, y } = await aim(pad, 'pad');
      const before = await page.evaluate(() => scrollY);
      await touch('touchStart', x - 60, y);
      for (let i = 1; i <= 12; i++) await touch('touchMove', x - 60 + i * 10, y + (i % 3) * 12 - 12);
      await touch('touchEnd');
      // A page that moved under the finger drew nothing.
      if ((await page.evaluate(() => scrollY)) !== before)
        wrong.add('pad: the page moves while it is drawn on');
    },
  };
}
