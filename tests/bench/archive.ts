import path from 'node:path';
import type { Page } from 'playwright-core';
import { open, profile, serve } from '../e2e/app.ts';
import { NAMES, quantile, type Row } from './measure.ts';

/** A supervisor's archive after some years of several crews. */
const RECORDS = 2000;
/** The one that is looked for: nothing else tells it from the others than what a record says. */
const BAD = 1234;
const FIXTURE = 'fixtures/records/sealed.steadybar.zip';
const OPEN_MS = 500;
const FILTER_MS = 100;

/** Keeps the fixture's file by the page itself, and then what the store holds of it under other names. */
async function fill(page: Page, origin: string): Promise<void> {
  await page.goto(`${origin}/#/verify`);
  await page.locator('input[type=file]').first().setInputFiles(path.resolve(FIXTURE));
  await page.getByTestId('verdict').waitFor({ timeout: 60_000 });
  await page.getByTestId('keep').click();
  await page.getByTestId('kept').waitFor({ timeout: 30_000 });
  await page.evaluate(
    async ({ records, bad }) => {
      type Kept = { kind: string; id: string; body: Record<string, unknown> };
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const asked = indexedDB.open('steadybar');
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
      });
      const all = await new Promise<Kept[]>((resolve) => {
        const asked = db.transaction('documents').objectStore('documents').getAll();
        asked.onsuccess = () => resolve(asked.result as Kept[]);
      });
      const kept = all.find((d) => d.id.startsWith('import-'))!;
      const label = all.find((d) => d.id.startsWith('label-'))!;
      const store = db.transaction('documents', 'readwrite').objectStore('documents');
      for (let i = 0; i < records; i++) {
        const sha256 = (i + 1).toString(16).padStart(64, '0');
        const opened = 1_700_000_000_000 + i * 11 * 3_600_000;
        const isBad = i === bad;
        store.put({
          ...kept,
          id: `import-${sha256}`,
          body: {
            ...kept.body,
            sha256,
            runId: `run-${i}`,
            name: `${i}.steadybar.zip`,
            importedUtcMs: opened,
          },
        });
        store.put({
          ...label,
          id: `label-${sha256}`,
          body: {
            ...label.body,
            title: `Joint at ${(i % 97) + 3}.${i % 10} m`,
            site: `Yard ${i % 40}, chamber ${i}`,
            packer: `Packer ${i % 12}`,
            openedUtcMs: opened,
            alarms: isBad ? 3 : 0,
            cure: isBad ? 'not-met' : label.body.cure,
          },
        });
      }
      await new Promise<void>((resolve, reject) => {
        store.transaction.oncomplete = () => resolve();
        store.transaction.onerror = () => reject(store.transaction.error);
      });
      db.close();
    },
    { records: RECORDS, bad: BAD },
  );
}

/**
 * From an act until the count says what is asked for, rows stand and a frame was painted, ms.
 * @param act done in the page; @param says what the count begins with
 */
function untilShown(page: Page, act: 'open' | 'search' | 'alarms' | 'clear', says: string): Promise<number> {
  return page.evaluate(
    async ({ act, says }) => {
      const write = (text: string) => {
        const box = document.querySelector<HTMLInputElement>('[data-testid="archive-search"]')!;
        box.value = text;
        box.dispatchEvent(new Event('input', { bubbles: true }));
        box.dispatchEvent(new Event('change', { bubbles: true }));
      };
      const t = performance.now();
      if (act === 'open') location.hash = '#/archive';
      if (act === 'search') write('chamber 1234');
      if (act === 'clear') write('');
      if (act === 'alarms') document.querySelector<HTMLElement>('[data-testid="chip-alarms"]')!.click();
      const there = () =>
        document.querySelector('[data-testid="archive-count"]')?.textContent?.startsWith(says) === true &&
        document.querySelector('.record-row') !== null;
      for (;;) {
        await new Promise(requestAnimationFrame);
        if (there()) break;
        if (performance.now() - t > 60_000)
          throw new Error(
            `not shown: ${document.querySelector('[data-testid="archive-count"]')?.textContent}`,
          );
      }
      // What was made in this frame is painted when the next one's task begins.
      await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
      return performance.now() - t;
    },
    { act, says },
  );
}

/** The archive of 2,000 records: opened, and the bad job found in it by a word and by a press. */
export async function benchArchive(): Promise<Row[]> {
  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const context = await open(dir, { width: 1180, height: 820 });
  await context.addInitScript(NAMES);
  try {
    const page = await context.newPage();
    await fill(page, server.origin);
    const opened: number[] = [];
    const filtered: number[] = [];
    for (let i = 0; i < 5; i++) {
      await page.goto(`${server.origin}/#/about`);
      await page.reload();
      await page.locator('h1').waitFor();
      await page.waitForTimeout(1500);
      opened.push(await untilShown(page, 'open', `${RECORDS + 1} `));
      await page.waitForTimeout(500);
      filtered.push(await untilShown(page, 'search', '1 of'));
      filtered.push(await untilShown(page, 'clear', `${RECORDS + 1} `));
      filtered.push(await untilShown(page, 'alarms', '1 of'));
    }
    const worst = (all: readonly number[]) => Math.max(...all).toFixed(0);
    return [
      {
        what: `archive of ${RECORDS} records: press → rows`,
        value: `median ${quantile(opened, 0.5).toFixed(0)} ms, worst ${worst(opened)} ms`,
        beside: `5 times, each after a reload; goal ≤ ${OPEN_MS} ms`,
        met: quantile(opened, 0.5) <= OPEN_MS,
      },
      {
        what: 'a word, all again, with alarms: entry → rows',
        value: `median ${quantile(filtered, 0.5).toFixed(0)} ms, worst ${worst(filtered)} ms`,
        beside: `15 times; goal ≤ ${FILTER_MS} ms`,
        met: quantile(filtered, 0.5) <= FILTER_MS,
      },
    ];
  } finally {
    await context.close();
    await server.close();
    dispose();
  }
}
