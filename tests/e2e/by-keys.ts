import type { Page } from 'playwright-core';
import { REST_MS } from '../../src/widgets/press-guard.ts';
import type { Hands } from './first-job.ts';

export interface Focus {
  /** Test id, or what it is; null: the focus is nowhere. */
  readonly name: string | null;
  /** It has a ring, is in sight, and nothing lies over it. */
  readonly isSeen: boolean;
}

export interface Keys extends Hands {
  /** What was wrong with the focus on the way, each once. */
  readonly wrong: ReadonlySet<string>;
  focus(): Promise<Focus>;
  /** Notes a focus that is nowhere, or that nobody sees. */
  look(when: string): Promise<Focus>;
  /** Goes on by Tab to an element; every stop on the way is looked at. */
  tabTo(testId: string): Promise<void>;
}

/** A keyboard and nothing else: the focus is looked at wherever it goes, and when all is done. */
export function byKeys(page: Page): Keys {
  const wrong = new Set<string>();

  const focus = (): Promise<Focus> =>
    page.evaluate(() => {
      const at = document.activeElement;
      if (!(at instanceof HTMLElement) || at === document.body) return { name: null, isSeen: false };
      // Where a page or a step begins: a place to go on from, no control.
      if (at.tabIndex < 0 && /^(MAIN|H[1-3])$/.test(at.tagName)) return { name: at.tagName, isSeen: true };
      const style = getComputedStyle(at);
      const ring = Number.parseFloat(style.outlineWidth) >= 2 && style.outlineStyle !== 'none';
      const { left, top, width, height } = at.getBoundingClientRect();
      const [x, y] = [left + width / 2, top + height / 2];
      const inSight = width > 0 && x >= 0 && y >= 0 && x <= innerWidth && y <= innerHeight;
      const over = inSight ? document.elementFromPoint(x, y) : null;
      return {
        name: at.dataset.testid ?? `${at.tagName} ${at.className} ${at.textContent?.slice(0, 30)}`,
        isSeen: ring && over !== null && (at.contains(over) || over.contains(at)),
      };
    });

  /** What is scrolled into sight may be on its way. */
  async function seen(): Promise<Focus> {
    let now = await focus();
    for (let i = 0; i < 10 && now.name !== null && !now.isSeen; i++) {
      await page.waitForTimeout(100);
      now = await focus();
    }
    return now;
  }

  async function look(when: string): Promise<Focus> {
    const now = await seen();
    if (now.name === null) wrong.add(`${when}: the focus is lost`);
    else if (!now.isSeen) wrong.add(`${when}: ${now.name} does not show that it has the focus`);
    return now;
  }

  /** Whoever sees the key goes to it the shorter way. */
  const isBehind = (testId: string): Promise<boolean> =>
    page.evaluate((id) => {
      const [at, to] = [document.activeElement, document.querySelector(`[data-testid="${id}"]`)];
      return at !== null && to !== null && (at.compareDocumentPosition(to) & 2) !== 0;
    }, testId);

  async function tabTo(testId: string): Promise<void> {
    const passed: (string | null)[] = [];
    const key = (await isBehind(testId)) ? 'Shift+Tab' : 'Tab';
    for (let i = 0; i < 120; i++) {
      await page.keyboard.press(key);
      // Behind the last one the browser itself has the focus for a stop.
      const { name, isSeen } = await seen();
      if (name !== null && !isSeen) wrong.add(`by ${key}: ${name} does not show that it has the focus`);
      passed.push(name);
      if (name === testId) return;
    }
    throw new Error(`Tab does not reach ${testId}: ${[...new Set(passed)].join(', ')}`);
  }

  async function reach(testId: string): Promise<void> {
    const of = page.getByTestId(testId).first();
    await of.waitFor();
    if ((await focus()).name !== testId) await tabTo(testId);
    // What has just come is looked at first: a key takes no press before that (widgets/press-guard.ts).
    if (await of.evaluate((k) => k.classList.contains('key'))) await page.waitForTimeout(REST_MS + 50);
    for (let i = 0; i < 60 && (await of.getAttribute('aria-disabled')) === 'true'; i++)
      await page.waitForTimeout(50);
  }

  return {
    wrong,
    focus,
    look,
    tabTo,
    async press(id) {
      await reach(id);
      const key = page.getByTestId(id).first();
      if (await key.evaluate((k) => k.classList.contains('held'))) {
        await page.keyboard.down('Space');
        const holding = () =>
          key.evaluate((k) => k.classList.contains('holding'), null, { timeout: 300 }).catch(() => false);
        await page.waitForTimeout(950);
        for (let i = 0; i < 40 && (await holding()); i++) await page.waitForTimeout(50);
        await page.keyboard.up('Space');
      } else await page.keyboard.press('Enter');
      await page.waitForTimeout(150);
      await look(`after ${id}`);
    },
    async write(id, text) {
      await reach(id);
      await page.keyboard.press('Control+A');
      await page.keyboard.insertText(text);
    },
    async choose(id, value) {
      await reach(id);
      const list = page.getByTestId(id).first();
      if ((await list.inputValue()) !== value) await page.keyboard.press('Home');
      for (let i = 0; (await list.inputValue()) !== value; i++) {
        if (i > 30) throw new Error(`the arrows do not reach ${value} in ${id}`);
        await page.keyboard.press('ArrowDown');
      }
    },
  };
}
