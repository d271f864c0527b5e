import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BrowserContext, Locator, Page } from 'playwright-core';
import type { TestContext } from 'vitest';
import { type HostDevice, startDevice } from '../../firmware-protocol/host/run.ts';
import { compiler, notRun } from '../unit/not-run.ts';
import { faults, open, profile, serve, USB, until } from './app.ts';

export const sleep = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/** What a test with the real serial stack needs: root and a network namespace for the plug, a compiler. */
export function needSerial(context: TestContext): void {
  if (process.env.STEADYBAR_APART !== '1')
    notRun(context, 'the plug needs root and unshare (run by npm test)');
  if (compiler() === null) notRun(context, 'no C compiler');
}

export interface Stage {
  readonly origin: string;
  readonly page: Page;
  readonly context: BrowserContext;
  readonly device: HostDevice;
  /** Errors that the page threw or logged since it was opened. */
  readonly faults: string[];
  /** Every byte that the device's line took so far. */
  sent(): Buffer;
  /** The file of the only run in this profile, from the browser's private file system; the run must be closed. */
  runFile(): Promise<Uint8Array>;
  /** Another browser on the same profile, after the first one ended or was killed. */
  reopen(): Promise<void>;
  /** Process ids of the browser's processes. */
  browserPids(): number[];
  close(): Promise<void>;
}

/** Processes whose command line names this profile folder: the browser and all its children. */
export function pidsOf(dir: string): number[] {
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

/** The file of that run, or of the only one in this profile, from the browser's private file system; the run must be closed. */
export async function readRunFile(page: Page, runId = ''): Promise<Uint8Array> {
  const text = await page.evaluate(async (id) => {
    const found: File[] = [];
    const walk = async (d: FileSystemDirectoryHandle): Promise<void> => {
      for await (const handle of d.values()) {
        if (handle.kind === 'directory') await walk(handle as FileSystemDirectoryHandle);
        else found.push(await (handle as FileSystemFileHandle).getFile());
      }
    };
    await walk(await navigator.storage.getDirectory());
    const runs = found.filter((f) => f.name.endsWith('.run') && f.name.includes(id));
    if (runs.length !== 1) throw new Error(`files: ${found.map((f) => f.name).join(', ')}`);
    const bytes = new Uint8Array(await runs[0]!.arrayBuffer());
    let binary = '';
    for (let i = 0; i < bytes.length; i += 32_768)
      binary += String.fromCharCode(...bytes.subarray(i, i + 32_768));
    return btoa(binary);
  }, runId);
  return new Uint8Array(Buffer.from(text, 'base64'));
}

/** Serves the app, starts a browser on a fresh profile and the C device (or the one that is given), unplugged. */
export async function setStage(options: readonly string[] = [], begin = startDevice): Promise<Stage> {
  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const work = mkdtempSync(path.join(tmpdir(), 'steadybar-e2e-'));
  const tap = path.join(work, 'sent.bin');
  const device = begin(['--tap', tap, '--serial', USB.serial, '--baud', '0', ...options]);
  let context = await open(dir);
  let page = await context.newPage();
  const seen: string[] = [];
  const watch = () => {
    const list = faults(page);
    const timer = setInterval(() => seen.push(...list.splice(0)), 50);
    page.once('close', () => clearInterval(timer));
  };
  watch();
  await page.goto(server.origin);
  await page.getByTestId('start-live').waitFor();
  // The browser starts to listen for plugs at the origin's first serial call.
  await page.evaluate(() => navigator.serial.getPorts());
  const stage: Stage = {
    origin: server.origin,
    get page() {
      return page;
    },
    get context() {
      return context;
    },
    device,
    faults: seen,
    sent: () => readFileSync(tap),
    runFile: () => readRunFile(page),
    async reopen() {
      context = await open(dir);
      page = await context.newPage();
      watch();
      await page.goto(server.origin);
      await page.getByTestId('start-live').waitFor();
      await page.evaluate(() => navigator.serial.getPorts());
    },
    browserPids: () => pidsOf(dir),
    async close() {
      await context.close().catch(() => undefined);
      await device.quit();
      await server.close();
      dispose();
      rmSync(work, { recursive: true, force: true });
    },
  };
  return stage;
}

/** Enters a packer on its form: one size, one rating. */
export async function enterPacker(page: Page, name: string, ratedBar: number): Promise<void> {
  await page.goto(`${new URL(page.url()).origin}/#/packer/new`);
  await page.getByTestId('packer-name').fill(name);
  await page.getByTestId('packer-sizes.minMm').fill('100');
  await page.getByTestId('packer-sizes.maxMm').fill('150');
  await page.getByTestId('packer-ratings.0.diameterMm').fill('150');
  await page.getByTestId('packer-ratings.0.ratedBar').fill(String(ratedBar));
  await page.getByTestId('save-document').click();
  await page.waitForURL((url) => !url.hash.endsWith('/new'));
}

/** Plugs the device in and takes the three presses: connect, packer, zero. `connected` is done after the first of them. */
export async function startRun(
  stage: Pick<Stage, 'page' | 'device' | 'origin'>,
  packer: string,
  connected: () => Promise<void> = async () => {},
): Promise<void> {
  const { page, device } = stage;
  await page.goto(`${stage.origin}/#/live`);
  const plugged = await device.op('plug');
  if (!plugged.startsWith('ok')) throw new Error(plugged);
  await until(page, async () => (await navigator.serial.getPorts()).length === 1);
  await page.getByTestId('connect-device').click();
  await connected();
  await page.getByTestId('drawer').getByText(packer).first().click();
  await page.getByTestId('zero').click();
  await page.getByTestId('stage').waitFor();
}

/** A key that is to be held is held, for longer than it asks. */
export async function hold(key: Locator): Promise<void> {
  await key.hover();
  const page = key.page();
  await page.mouse.down();
  // By what the key shows, not by a clock: a busy machine is late.
  await page.waitForTimeout(1000);
  const holding = () =>
    key.evaluate((k) => k.classList.contains('holding'), null, { timeout: 300 }).catch(() => false);
  for (let i = 0; i < 40 && (await holding()); i++) await page.waitForTimeout(100);
  await page.mouse.up();
}

/** Opens a panel of the More drawer; under an alarm the demoted stage key leads there. */
export async function openPanel(page: Page, panel: string): Promise<void> {
  const drawer = page.getByTestId('drawer');
  const tab = page.getByTestId(`more-${panel}`);
  for (let tries = 0; tries < 10; tries++) {
    if (await drawer.isVisible()) {
      await tab.click({ timeout: 2000 }).catch(() => undefined);
      if ((await drawer.getAttribute('data-tab')) === panel) return;
    } else if (await page.getByTestId('more').isVisible()) {
      await page
        .getByTestId('more')
        .click({ timeout: 2000 })
        .catch(() => undefined);
    } else if (await page.getByTestId('stage-key').isVisible()) {
      await hold(page.getByTestId('stage-key'));
    }
    await page.waitForTimeout(150);
  }
  throw new Error(`the panel ${panel} does not open`);
}

/** Goes on to a stage, from among all of them; what something speaks against is held and given a reason at hand. */
export async function advance({ page }: Pick<Stage, 'page'>, to: string): Promise<void> {
  const stageNow = page.locator(`[data-testid=stage][data-stage="${to}"]`);
  const why = page.locator(`[data-testid=stage-doubt][data-to="${to}"]`);
  await openPanel(page, 'stages');
  const key = page.getByTestId(`stage-${to}`);
  for (let tries = 0; tries < 8; tries++) {
    await page.waitForTimeout(800);
    if (await key.isVisible()) {
      if ((await key.getAttribute('class'))?.includes('held')) await hold(key);
      else await key.click({ timeout: 2000 }).catch(() => undefined);
    }
    if (await why.isVisible()) {
      await page.waitForTimeout(800);
      await page.getByTestId('reason-0').click();
    }
    if (
      await stageNow.waitFor({ timeout: 1500 }).then(
        () => true,
        () => false,
      )
    ) {
      if (await page.getByTestId('drawer').isVisible())
        await page
          .getByTestId('more')
          .click({ timeout: 500 })
          .catch(() => undefined);
      return;
    }
    if (!(await page.getByTestId('drawer').isVisible())) await openPanel(page, 'stages');
  }
  throw new Error(`the stage ${to} is not reached`);
}

/** Ends the run and waits for its review. */
export async function endRun({ page }: Pick<Stage, 'page'>): Promise<void> {
  // The page goes to the review when the run is closed; on a busy machine its trace takes longer than that.
  const ended = () => new URL(page.url()).hash.startsWith('#/run/');
  for (let tries = 0; tries < 4 && !ended(); tries++) {
    await openPanel(page, 'run');
    await hold(page.getByTestId('end-run')).catch(() => undefined);
    await page.waitForURL((url) => url.hash.startsWith('#/run/'), { timeout: 5000 }).catch(() => undefined);
  }
  await page.getByTestId('review-trace').waitFor({ timeout: 30_000 });
}

/** The shown pressure in bar. */
export const shownBar = async (page: Page) => Number(await page.getByTestId('pressure-value').textContent());
