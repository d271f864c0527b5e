import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { serveWorker } from '../bench/worker-page.ts';
import { notRun } from '../unit/not-run.ts';
import { chromiumPath, FLAGS } from './app.ts';

// The browser's processes are killed with SIGKILL while leaves are logged and records are sealed, added to and imported, ten times over
// on one profile. What was told to be at rest must be there, and nothing may be there in part.

// Few in every run of the tests; `npm run faults -- kills` makes a hundred.
const KILLS = Number(process.env.STEADYBAR_KILLS ?? 4);

interface Found {
  logged: string[];
  sealed: string[];
  added: string[];
  imported: string[];
  swept: number;
  faults: string[];
}
type Told = {
  logged?: string;
  sealed?: string;
  added?: string;
  imported?: string;
  found?: Found;
  ready?: true;
  error?: string;
};

/** Processes whose command line names this test's own profile folder. */
function pidsOf(dir: string): number[] {
  const found: number[] = [];
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      if (readFileSync(`/proc/${name}/cmdline`, 'utf8').includes(dir)) found.push(Number(name));
    } catch {
      // ended in between
    }
  }
  return found;
}

async function start(
  dir: string,
  origin: string,
  hear: (told: Told) => void,
): Promise<{ context: BrowserContext; page: Page }> {
  const context = await chromium.launchPersistentContext(dir, {
    executablePath: chromiumPath(),
    headless: true,
    args: FLAGS,
  });
  const page = await context.newPage();
  await page.exposeFunction('hear', hear);
  await page.goto(origin);
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const worker = new Worker('/worker.js', { type: 'module' });
        const scope = globalThis as unknown as { hear(told: unknown): void; worker: Worker };
        scope.worker = worker;
        worker.onerror = (event) => reject(new Error(event.message));
        worker.onmessage = (event: MessageEvent<{ ready?: true }>) => {
          if (event.data.ready) resolve();
          scope.hear(event.data);
        };
      }),
  );
  return { context, page };
}

const say = (page: Page, message: object): Promise<void> =>
  page.evaluate((m) => (globalThis as unknown as { worker: Worker }).worker.postMessage(m), message);

it(`killed ${KILLS} times while logging, sealing and importing: nothing lost, nothing half there`, async (context) => {
  if (!existsSync(chromiumPath())) notRun(context, 'no Chromium');
  if (!existsSync('/proc/self/cmdline')) notRun(context, 'no /proc to find the browser by');
  const server = await serveWorker(path.join(import.meta.dirname, 'record-kill.worker.ts'));
  const dir = mkdtempSync(path.join(tmpdir(), 'steadybar-kill-'));
  const told = {
    logged: new Set<string>(),
    sealed: new Set<string>(),
    added: new Set<string>(),
    imported: new Set<string>(),
  };
  let swept = 0;
  try {
    for (let round = 0; round <= KILLS; round++) {
      let found: Found | null = null;
      let error: string | null = null;
      let steps = 0;
      const { context: browser, page } = await start(dir, server.origin, (m) => {
        if (m.logged) told.logged.add(m.logged);
        if (m.sealed) told.sealed.add(m.sealed);
        if (m.added) told.added.add(m.added);
        if (m.imported) told.imported.add(m.imported);
        if (m.found) found = m.found;
        if (m.error) error = m.error;
        steps++;
      });
      await say(page, { look: true });
      await expect.poll(() => found ?? error, { timeout: 60_000 }).not.toBeNull();
      expect(error).toBeNull();
      const rest = found! as Found;
      expect(rest.faults, `after kill ${round}`).toEqual([]);
      for (const what of ['logged', 'sealed', 'added', 'imported'] as const)
        for (const run of told[what]) expect(rest[what], `${what} after kill ${round}`).toContain(run);
      swept += rest.swept;
      if (round === KILLS) {
        await browser.close();
        break;
      }
      steps = 0;
      await say(page, { from: round * 1000 });
      // At another moment of the work each time, and never before one run was logged, sealed, added to and imported.
      await expect.poll(() => steps, { timeout: 60_000, interval: 5 }).toBeGreaterThan(4 + round);
      await new Promise((resolve) => setTimeout(resolve, 17 * round));
      for (const pid of pidsOf(dir)) {
        try {
          process.kill(pid, 'SIGKILL');
        } catch {
          // a child that went with its parent
        }
      }
      await expect.poll(() => pidsOf(dir).length, { timeout: 10_000 }).toBe(0);
    }
    expect(told.imported.size).toBeGreaterThan(KILLS);
    console.log(
      `sealed ${told.sealed.size}, imported ${told.imported.size}, half-written files swept ${swept}`,
    );
  } finally {
    server.close();
    rmSync(dir, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}, 240_000);
