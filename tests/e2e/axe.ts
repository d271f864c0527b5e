import axe from 'axe-core';
import type { Page } from 'playwright-core';

export const THEMES = ['light', 'dark', 'sun'] as const;
export type Theme = (typeof THEMES)[number];

/** A theme is colours and strokes: what axe finds in structure, names and order it finds in the first already. */
const BY_THEME = ['color-contrast', 'link-in-text-block', 'target-size'];

export interface Violation {
  readonly id: string;
  readonly impact: string | null;
  /** The elements that it is about. */
  readonly at: readonly string[];
}

/**
 * What axe finds in the page as it stands, by all its rules or by these. No page of ours holds a frame of another origin, so
 * it is brought into a document once and asked there, and of what it looked at only what it finds is told: the rest is a
 * hundred times as much.
 */
export async function violationsOf(page: Page, rules?: readonly string[]): Promise<Violation[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe.source);
  return page.evaluate(
    async (runOnly) => {
      const here = (globalThis as unknown as { axe: typeof axe }).axe;
      const { violations } = await here.run(document, { resultTypes: ['violations'], ...runOnly });
      return violations.map((v) => ({
        id: v.id,
        impact: v.impact ?? null,
        at: v.nodes.map((n) => n.target.join(' ')),
      }));
    },
    rules === undefined ? {} : { runOnly: { type: 'rule' as const, values: [...rules] } },
  );
}

/** Findings of axe, each with the element that it is about: all rules in the first theme, in the others what a theme can change. */
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
    for (const v of await violationsOf(page, i === 0 ? undefined : BY_THEME))
      for (const at of v.at) found.push(`${where}, ${theme}: ${v.id} ${at}`);
  }
  await page.evaluate(() => {
    document.documentElement.dataset.theme = 'light';
  });
  return found;
}
