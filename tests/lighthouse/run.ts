import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import lighthouse from 'lighthouse';
import { chromium, type Page } from 'playwright-core';
import { chromiumPath, FLAGS, profile } from '../e2e/app.ts';
import { endRun } from '../e2e/stage.ts';
import { serveZipped } from './serve.ts';

/**
 * npm run lighthouse: performance, accessibility and best practices of the built app, on a phone of the middle class and
 * a slow net as Lighthouse simulates them. Each page must reach the goal in each; the start page is one that was never
 * there before, the others hold a run of practice.
 */

const GOAL = 95;
const CATEGORIES = ['performance', 'accessibility', 'best-practices'] as const;

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer().once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });

/** A short run of practice. @returns its id */
async function practise(page: Page, origin: string): Promise<string> {
  await page.goto(origin);
  await page.getByTestId('practice').click();
  await page.getByTestId('use-practice').click();
  await page.getByTestId('zero').click();
  await page.getByTestId('stage').waitFor();
  await page.waitForTimeout(4000);
  await endRun({ page });
  return new URL(page.url()).hash.replace('#/run/', '');
}

if (!existsSync('dist/index.html')) {
  console.error('lighthouse: there is no built app; run npm run build first');
  process.exit(2);
}
const port = await freePort();
const server = await serveZipped('dist');
const place = profile(server.origin);
const context = await chromium.launchPersistentContext(place.dir, {
  executablePath: chromiumPath(),
  headless: true,
  args: [...FLAGS, `--remote-debugging-port=${port}`],
});
let under = 0;

async function look(name: string, hash: string, emptied: boolean): Promise<void> {
  const result = await lighthouse(`${server.origin}/${hash}`, {
    port,
    onlyCategories: [...CATEGORIES],
    logLevel: 'error',
    disableStorageReset: !emptied,
  });
  if (result === undefined) throw new Error(`Lighthouse gave no result for ${name}`);
  const { categories, audits } = result.lhr;
  const scores = CATEGORIES.map((c) => Math.round(100 * (categories[c]?.score ?? 0)));
  console.log(`${name.padEnd(10)} ${CATEGORIES.map((c, i) => `${c} ${scores[i]}`).join('   ')}`);
  for (const [i, c] of CATEGORIES.entries()) {
    if (scores[i]! >= GOAL) continue;
    under++;
    for (const { id, weight } of categories[c]?.auditRefs ?? []) {
      const audit = audits[id];
      if (weight > 0 && audit?.score != null && audit.score < 0.9)
        console.log(`  ${c}: ${audit.title} ${audit.displayValue ?? ''}`);
    }
  }
}

try {
  const page = context.pages()[0] ?? (await context.newPage());
  await look('start', '', true);
  const runId = await practise(page, server.origin);
  await page.goto('about:blank');
  await look('live', '#/live', false);
  await look('archive', '#/archive', false);
  await look('review', `#/run/${runId}`, false);
} finally {
  await context.close();
  await server.close();
  place.dispose();
}
console.log(under === 0 ? `all at ${GOAL} or more` : `${under} under ${GOAL}`);
process.exit(under === 0 ? 0 : 1);
