import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BrowserContext, CDPSession, Page } from 'playwright-core';
import { type HostDevice, startDevice } from '../../firmware-protocol/host/run.ts';
import { blankJob, type JobDocument } from '../../src/job/job-document.ts';
import { blankPacker, type PackerDocument } from '../../src/job/packer-document.ts';
import { open, profile, serve, USB, until } from '../e2e/app.ts';
import { pidsOf, sleep } from '../e2e/stage.ts';
import { eyesScript, type Noted, readEyes } from './eyes.ts';

/** UTC in ms, by the clock that pages use too. */
export const nowMs = (): number => performance.timeOrigin + performance.now();

export const RATED_BAR = 2;

/** A packer of one rating, and a sheet with it: 150 mm, read at the hose behind a closed valve. */
const PACKER: PackerDocument = {
  ...blankPacker('Packer of the faults'),
  sizes: { minMm: 100, maxMm: 150 },
  ratings: [{ diameterMm: 150, ratedBar: RATED_BAR }],
};
export const JOB_ID = 'job-faults';
const JOB: JobDocument = {
  ...blankJob('Faults'),
  packerId: 'packer-faults',
  pipe: { ...blankJob('').pipe, innerMm: 150 },
  device: { ...blankJob('').device, rateHz: 50 },
  tap: 'hose',
  line: 'closed',
};

/** Puts both documents where the app keeps its own, as a restored backup would. */
async function seedDocuments(page: Page): Promise<void> {
  const documents = [
    { kind: 'packer', id: 'packer-faults', revision: 1, savedUtcMs: 0, body: PACKER },
    { kind: 'job', id: JOB_ID, revision: 1, savedUtcMs: 0, body: JOB },
  ];
  // The app makes its database itself; made here first it would stay empty.
  await until(page, async () => (await indexedDB.databases()).some((d) => d.name === 'steadybar'));
  await page.evaluate(async (rows) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open('steadybar');
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    const tx = db.transaction('documents', 'readwrite');
    for (const row of rows) tx.objectStore('documents').put(row);
    await new Promise<void>((resolve, reject) => {
      tx.oncomplete = () => resolve();
      tx.onabort = () => reject(tx.error);
    });
    db.close();
  }, documents);
}

/**
 * One place where a repair goes on: the built app in a Chromium of its own, a C device on a pseudo-terminal, an operator
 * who can press what a crew can. It needs a network namespace of its own: the device's plug reaches every browser in it.
 */
export interface Site {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly device: HostDevice;
  readonly origin: string;
  /** Bytes that the device's line took so far. */
  taken(): number;
  tap(): Buffer;
  /** What the page showed and sounded since the mark before. Nothing where the page is gone. */
  noted(): Promise<Noted>;
  /** Forgets what was noted until now. */
  mark(): Promise<void>;
  /** Of the browser's own tools. */
  cdp(): Promise<CDPSession>;
  /** A new page in place of the one that is gone or is not wanted any more. */
  newPage(hash?: string): Promise<void>;
  /** Loads the page again. */
  reload(): Promise<void>;
  /** Tells the engine's worker something, where the app was built with the hook (worker-hook.ts). */
  tellWorker(order: Readonly<Record<string, unknown>>): Promise<void>;
  browserPids(): number[];
  /** Ends the browser's processes as a crash of the whole program would. */
  killBrowser(): Promise<void>;
  /** A browser on the same profile, after the other was killed. */
  reopen(): Promise<void>;
  /** Another device with the same plug, in place of the own one. */
  swapDevice(): Promise<void>;
  /** The own device is back. */
  swapBack(): Promise<void>;
  close(): Promise<void>;
}

const NOTHING: Noted = { document: 0, sights: [], tones: [] };

/** @param folder where the built app is @param options of the device */
export async function openSite(folder: string, options: readonly string[] = []): Promise<Site> {
  const server = await serve(4680, folder);
  const { dir, dispose } = profile(server.origin);
  const work = mkdtempSync(path.join(tmpdir(), 'steadybar-faults-'));
  const tap = path.join(work, 'sent.bin');
  const plug = ['--serial', USB.serial, '--baud', '0'];
  const device = startDevice(['--tap', tap, ...plug, ...options]);
  let other: HostDevice | null = null;
  let context!: BrowserContext;
  let page!: Page;
  let from: [number, number] = [0, 0];
  let seenIn = 0;

  const openPage = async (hash: string) => {
    page = await context.newPage();
    // Leaving a page with an open run is asked by the browser: yes.
    page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined));
    await page.goto(`${server.origin}/${hash}`);
    await page.getByTestId('nav-live').waitFor();
    // The browser starts to listen for plugs at the origin's first serial call.
    await page.evaluate(() => navigator.serial.getPorts());
  };
  const openBrowser = async () => {
    context = await open(dir);
    await context.addInitScript(eyesScript());
    await openPage('');
  };

  const site: Site = {
    get page() {
      return page;
    },
    get context() {
      return context;
    },
    device,
    origin: server.origin,
    taken: () => statSync(tap).size,
    tap: () => readFileSync(tap),
    async noted() {
      const read = () => inTime(page.evaluate(readEyes, from), 10_000, 'eyes');
      try {
        const noted = await read();
        if (noted.document === seenIn) return noted;
        // Loaded again: what was noted before is gone with its document.
        seenIn = noted.document;
        from = [0, 0];
        return await read();
      } catch {
        // A page that hangs or is gone does not answer.
        return NOTHING;
      }
    },
    async mark() {
      const { sights, tones } = await site.noted();
      from = [from[0] + sights.length, from[1] + tones.length];
    },
    cdp: () => context.newCDPSession(page),
    async newPage(hash = '') {
      const was = page;
      await openPage(hash);
      // A page whose process is gone may never say that it is closed.
      void was.close().catch(() => undefined);
    },
    async reload() {
      await page.reload();
      await page.getByTestId('nav-live').waitFor();
      await page.evaluate(() => navigator.serial.getPorts());
    },
    async tellWorker(order) {
      await page.evaluate((message) => {
        const channel = new BroadcastChannel('faults');
        channel.postMessage(message);
        channel.close();
      }, order);
    },
    browserPids: () => pidsOf(dir),
    async killBrowser() {
      for (const pid of pidsOf(dir)) {
        try {
          process.kill(pid, 'SIGKILL');
        } catch {
          // a child that went with its parent
        }
      }
      await inTime(context.close(), 5000, 'close').catch(() => undefined);
    },
    reopen: openBrowser,
    async swapDevice() {
      await device.op('unplug');
      other ??= startDevice(['--id', 'sb-host-2', ...plug]);
      const plugged = await other.op('plug ttyUSB1');
      if (!plugged.startsWith('ok')) throw new Error(plugged);
    },
    async swapBack() {
      await other?.op('unplug');
      await plugIn(site);
    },
    async close() {
      await inTime(context?.close() ?? Promise.resolve(), 10_000, 'close').catch(() => site.killBrowser());
      await other?.quit();
      await device.quit();
      await server.close();
      dispose();
      rmSync(work, { recursive: true, force: true });
    },
  };
  try {
    await openBrowser();
    await seedDocuments(page);
  } catch (error) {
    await site.close();
    throw error;
  }
  return site;
}

/** Plugs the device in and waits until the page's browser lists it. */
export async function plugIn({ page, device }: Pick<Site, 'page' | 'device'>): Promise<void> {
  const plugged = await device.op('plug');
  if (!plugged.startsWith('ok')) throw new Error(plugged);
  await until(page, async () => {
    const ports = await navigator.serial.getPorts();
    return ports.some((p) => (p as SerialPort & { connected?: boolean }).connected !== false);
  });
}

/** Rejects when the work is not done in time: nothing of one cell may hold up the table. */
export async function inTime<T>(work: Promise<T>, ms: number, what: string): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`${what}: not done in ${ms / 1000} s`)), ms);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** Waits until a look says yes; false when the time is over. */
export async function wait(look: () => Promise<boolean>, ms: number, everyMs = 80): Promise<boolean> {
  for (const until = nowMs() + ms; ; await sleep(everyMs)) {
    if (await look()) return true;
    if (nowMs() > until) return false;
  }
}
