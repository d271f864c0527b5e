import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';

export const THEMES = ['light', 'dark', 'sun'] as const;
export type Theme = (typeof THEMES)[number];

/** A theme is colours and strokes: what axe finds in structure, names and order it finds in the first already. */
const BY_THEME = ['color-contrast', 'link-in-text-block', 'target-size'];

/**
 * Findings of axe, each with the element that it is about: all rules in the first theme, in the others what a theme can
 * change. No page of ours holds a frame of another origin, so everything is asked in the page itself (legacy mode).
 */
export async function axeFindings(
  page: Page,
  where: string,
  themes: readonly Theme[] = ['light'],
): Promise<string[]> {
  const found: string[] = [];
  for (const [i, theme] of themes.entries()) {
    await page.evaluate((t) => {
      document.documentElement.dataset.theme = t;
    }, theme);
    const axe = new AxeBuilder({ page: page as never }).setLegacyMode(true);
    const { violations } = await (i === 0 ? axe : axe.withRules(BY_THEME)).analyze();
    for (const v of violations)
      for (const n of v.nodes) found.push(`${where}, ${theme}: ${v.id} ${n.target.join(' ')}`);
  }
  await page.evaluate(() => {
    document.documentElement.dataset.theme = 'light';
  });
  return found;
}
