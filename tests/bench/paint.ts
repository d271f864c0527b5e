import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { open, profile, serve } from '../e2e/app.ts';
import { NAMES, quantile, type Row } from './measure.ts';

const GOAL_MS = 50;
const ROUNDS = 15;
const PLAIN_PORT = 4681;

/** The build with every script of the page replaced by a comment of the same length, and the start page as it stands. */
function makePlain(folder: string, startPage: string): string {
  const plain = path.join(folder, 'plain');
  cpSync('dist', plain, { recursive: true });
  const assets = path.join(plain, 'assets');
  for (const name of readdirSync(assets).filter((f) => f.endsWith('.js'))) {
    const { length } = readFileSync(path.join(assets, name));
    writeFileSync(path.join(assets, name), `/*${'x'.repeat(Math.max(0, length - 4))}*/`);
  }
  const index = path.join(plain, 'index.html');
  const html = readFileSync(index, 'utf8')
    .replace(
      /<script>[\s\S]*?<\/script>/g,
      (script) => `<!--${'x'.repeat(Math.max(0, script.length - 7))}-->`,
    )
    .replace(/<div id="app">[\s\S]*?<\/body>/, (body) => {
      const scripts = body.match(/<script [^>]*><\/script>/g) ?? [];
      return `<div id="app">${startPage}</div>${scripts.join('')}</body>`;
    });
  writeFileSync(index, html);
  return plain;
}

/** The service worker holds the page: it can be opened with no server. */
async function keepOffline(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.register('./sw.js');
    await navigator.serviceWorker.ready;
  });
}

interface Arrival {
  /** First paint of anything that can be read, ms after the navigation began. */
  readonly paintMs: number;
  /** The start page's own button is there. */
  readonly usableMs: number;
}

/** A fresh page from the service worker. */
async function arrival(context: BrowserContext, origin: string): Promise<Arrival> {
  const page = await context.newPage();
  try {
    await page.goto(`${origin}/`);
    await page.waitForFunction(
      () =>
        performance.getEntriesByName('first-contentful-paint').length > 0 &&
        performance.getEntriesByName('usable').length > 0,
      null,
      { polling: 50 },
    );
    return await page.evaluate(() => {
      const at = (name: string) => performance.getEntriesByName(name)[0]!.startTime;
      return { paintMs: at('first-contentful-paint'), usableMs: at('usable') };
    });
  } finally {
    await page.close();
  }
}

/**
 * First paint with no server, beside a page of the same bytes whose scripts say nothing and whose content stands in its
 * HTML; the one after the other, from service workers alike.
 */
export async function benchPaint(folder: string): Promise<Row> {
  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const context = await open(dir, undefined, 'allow');
  let plainServer: Awaited<ReturnType<typeof serve>> | null = null;
  try {
    await context.addInitScript(NAMES);
    const page = await context.newPage();
    await page.goto(server.origin);
    await page.getByTestId('start-live').waitFor();
    await page.waitForLoadState('networkidle');
    await keepOffline(page);
    const startPage = await page.evaluate(() => document.getElementById('app')!.innerHTML);
    plainServer = await serve(PLAIN_PORT, makePlain(folder, startPage));
    await page.goto(plainServer.origin);
    await keepOffline(page);
    await server.close();
    await plainServer.close();
    await context.addInitScript(() => {
      const observer = new MutationObserver(() => {
        if (document.querySelector('[data-testid="start-live"]') === null) return;
        observer.disconnect();
        performance.mark('usable');
      });
      observer.observe(document, { childList: true, subtree: true });
    });
    const app: Arrival[] = [];
    const plain: Arrival[] = [];
    for (let i = 0; i < ROUNDS + 2; i++) {
      const a = await arrival(context, server.origin);
      const p = await arrival(context, plainServer.origin);
      // The first ones warm the browser up.
      if (i < 2) continue;
      app.push(a);
      plain.push(p);
    }
    const median = (list: readonly Arrival[], of: keyof Arrival) =>
      quantile(
        list.map((one) => one[of]),
        0.5,
      );
    const [ours, theirs] = [median(app, 'paintMs'), median(plain, 'paintMs')];
    return {
      what: 'first paint, server down',
      value: `median ${ours.toFixed(0)} ms`,
      beside: `a page with the same bytes and no script ${theirs.toFixed(0)} ms, ${ROUNDS} times in turn; the start page can be used after ${median(app, 'usableMs').toFixed(0)} ms; goal ≤ ${GOAL_MS} ms more`,
      met: ours - theirs <= GOAL_MS,
    };
  } finally {
    await context.close();
    dispose();
  }
}
