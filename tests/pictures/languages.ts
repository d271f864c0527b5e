import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { keepJob } from '../stand/repair.ts';
import { openStand, type Stand } from '../stand/stand.ts';
import type { LiveState } from '../stand/states.ts';
import { contactSheet, type Shot } from './contact-sheet.ts';
import { stumbles } from './measure.ts';
import type { PageName } from './pages.ts';
import { parseSize, type Size, sizeName } from './plan.ts';
import { shoot } from './shots.ts';
import { takeAll } from './take.ts';

/**
 * Every screen in other languages: each page, Live in its telling states with its drawer, the second screen, the bar of an alarm
 * on other pages. Each is measured where it stands; a contact sheet a language and width is kept.
 */

/** One sheet each. */
const WIDTHS: readonly Size[] = ['360x740', '820x1180', '1600x1000'].map(parseSize);
/** Windows in which Live is drawn in another way, measured besides. */
const LIVE_BESIDES: readonly Size[] = ['740x360', '1180x820'].map(parseSize);

const STATES: readonly LiveState[] = [
  'not-connected',
  'prepare',
  'inflate',
  'hold',
  'over-rated',
  'let-down',
  'done',
];
/** Of the drawer, in the hold. */
const TABS = ['numbers', 'spans', 'stages', 'checks', 'checklist', 'note', 'alarms', 'run'] as const;

export interface LanguagePlan {
  readonly languages: readonly string[];
  /** Where the built app is. */
  readonly app: string;
  /** Where contact sheets go. */
  readonly sheets: string;
  /** Where each picture goes in its own size; null: nowhere. */
  readonly out: string | null;
  /** Pages with what is below the window. */
  readonly full: boolean;
  readonly pages: readonly PageName[];
  /** With Live. */
  readonly live: boolean;
}

/** @returns how many things were found or failed */
export async function picturesOfLanguages(plan: LanguagePlan): Promise<number> {
  let found = 0;
  for (const language of plan.languages) found += await picturesOfOne(language, plan);
  return found;
}

async function picturesOfOne(language: string, plan: LanguagePlan): Promise<number> {
  const decimal = language === 'en' ? 'point' : 'comma';
  const { demo } = await loadCatalogue({ language, decimal });
  const stand = await openStand({ folder: plan.app, locale: language, names: demo.DEMO_NAMES });
  const shots: Shot[] = [];
  const stumbled = new Map<string, string[]>();
  const seen = async (name: string, size: Size, full = false, page = stand.page): Promise<void> => {
    const png =
      page === stand.page ? await shoot(stand, { size, theme: 'light' }, full) : await page.screenshot();
    for (const what of await stumbles(page, size))
      stumbled.set(what, [...(stumbled.get(what) ?? []), `${name} ${sizeName(size)}`]);
    shots.push({ name, size, png });
    if (plan.out === null) return;
    mkdirSync(plan.out, { recursive: true });
    writeFileSync(path.join(plan.out, `${language}-${name}-${sizeName(size)}.png`), png);
  };
  let failed: string[];
  try {
    await keepJob(stand);
    failed = await takeAll(stand, {
      states: plan.live ? STATES : [],
      async atState(state) {
        for (const size of [...WIDTHS, ...LIVE_BESIDES]) await seen(`live-${state}`, size);
        if (state === 'hold') await ofHold(stand, seen);
        if (state === 'over-rated') await ofAlarm(stand, seen);
        if (state === 'done') await ofAirTest(stand, seen);
      },
      pages: plan.pages,
      looks: WIDTHS.map((size) => ({ size, theme: 'light' })),
      atPage: (name, { size }) => seen(name, size, plan.full),
    });
  } finally {
    await stand.close();
  }
  for (const [what, where] of stumbled)
    console.log(`${language}: ${what}; ${where.slice(0, 4).join(', ')}${where.length > 4 ? ' …' : ''}`);
  for (const fault of stand.faults) console.log(`${language}: the page said: ${fault}`);
  const bytes = await Promise.all(
    WIDTHS.map(async (size) => {
      const sheet = await contactSheet(shots.filter((s) => s.size === size));
      mkdirSync(plan.sheets, { recursive: true });
      writeFileSync(path.join(plan.sheets, `${language}-${size.width}.png`), sheet);
      return sheet.length;
    }),
  );
  const kB = bytes.reduce((a, b) => a + b, 0) / 1000;
  console.log(
    `${language}: ${shots.length} pictures, ${stumbled.size} findings, sheets of ${kB.toFixed(0)} kB`,
  );
  return stumbled.size + failed.length + stand.faults.length;
}

type Seen = (name: string, size: Size, full?: boolean, page?: Page) => Promise<void>;

/** The drawer's panels; and the second screen, which has words while nothing comes: time stands still. */
async function ofHold(stand: Stand, seen: Seen): Promise<void> {
  const { page } = stand;
  for (const tab of TABS) {
    await page.setViewportSize({ width: 1180, height: 820 });
    if (!(await page.getByTestId('drawer').isVisible())) await page.getByTestId('more').click();
    const key = page.getByTestId(`more-${tab}`);
    if ((await key.count()) === 0) continue;
    await key.click();
    for (const size of WIDTHS) await seen(`drawer-${tab}`, size);
  }
  await page.keyboard.press('Escape');
  const far = await stand.context.newPage();
  try {
    await far.goto(`${stand.origin}/#/far`);
    await far.getByTestId('far').waitFor();
    for (const size of WIDTHS) {
      await far.setViewportSize({ ...size });
      await seen('second-screen', size, false, far);
    }
  } catch (error) {
    // The story goes on, and tells it at its end.
    stand.faults.push(`second screen: ${error instanceof Error ? error.message : String(error)}`);
  } finally {
    await far.close();
  }
}

/** An urgent alarm on another page. */
async function ofAlarm(stand: Stand, seen: Seen): Promise<void> {
  const back = await stand.page.evaluate(() => location.hash);
  await stand.goto('#/settings');
  await stand.page.getByTestId('settings-theme').waitFor();
  for (const size of WIDTHS) await seen('alarm-elsewhere', size);
  await stand.goto(back);
  await stand.page.locator('.face').waitFor();
}

/** The air test of the finished repair. */
async function ofAirTest(stand: Stand, seen: Seen): Promise<void> {
  const { page } = stand;
  await page.setViewportSize({ width: 1180, height: 820 });
  await stand.command({ c: 'stage', to: 'air-test' });
  await stand.pass(3);
  for (const size of [...WIDTHS, ...LIVE_BESIDES]) await seen('live-air-test', size);
  await page.setViewportSize({ width: 1180, height: 820 });
  await page.getByTestId('more').click();
  await page.getByTestId('more-checks').click();
  for (const size of WIDTHS) await seen('drawer-air-test', size);
  await page.keyboard.press('Escape');
  await stand.command({ c: 'stage', to: 'done', reason: 'agreed with the site manager' });
}
