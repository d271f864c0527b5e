import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { build, type PreviewServer, preview } from 'vite';
import type { Answers, LinkView, Request, RigFault, RigHand, RunView } from '../../src/engine/messages.ts';
import type { DemoNames } from '../../src/job/demo.ts';
import type { StoredDocument } from '../../src/record/stores/store.ts';
import type { RigDeviceOptions } from '../../src/rig/device.ts';
import type { Command } from '../../src/watch/inputs.ts';
import type { WatchView } from '../../src/watch/view.ts';
import { chromiumPath, FLAGS, faults, profile, until } from '../e2e/app.ts';
import type { Order, Until } from './orders.ts';
import type { PageHook } from './page.ts';

const sleep = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/**
 * The stand: the built app in Chromium, its engine on a clock that passes as it is told, a simulated device behind its
 * Web Serial. Hours of a hold pass in seconds, a moment stands still for as many pictures as are wanted, and the same
 * orders give the same moment. Nothing that is shown is made up: readings go through the port, the engine and the page.
 */
export interface Stand {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly origin: string;
  /** What the repair's job and documents are called; null: in English. */
  readonly names: DemoNames | null;
  /** Errors that the page threw or logged. */
  readonly faults: string[];
  /**
   * Lets seconds of the engine's time pass; then it stands still.
   * @param until stops it where it says yes of the view; it is sent to the worker as text and may use nothing but its argument
   * @returns whether it was stopped
   */
  pass(seconds: number, until?: Until): Promise<boolean>;
  /** As pass(). @throws Error when the time is over before it said yes */
  passUntil(what: string, seconds: number, until: Until): Promise<void>;
  ask<R extends Request>(request: R): Promise<Answers[R['q']]>;
  command(command: Command): Promise<void>;
  /** Plugs a device of its own into Web Serial. */
  attach(device: RigDeviceOptions): Promise<void>;
  hand(hand: RigHand): Promise<void>;
  fault(fault: RigFault): Promise<void>;
  refuseWrites(name: string | null): Promise<void>;
  view(): Promise<WatchView>;
  link(): Promise<LinkView>;
  run(): Promise<RunView | null>;
  put(document: Omit<StoredDocument, 'savedUtcMs' | 'revision'>): Promise<void>;
  goto(hash: string): Promise<void>;
  /** Presses a button and lets time pass in small steps until another element is there. */
  press(id: string, then: string): Promise<void>;
  theme(theme: Theme): Promise<void>;
  /** Waits until the page has drawn the moment that stands. */
  drawn(): Promise<void>;
  /** Loads the app anew and closes the run that was left open: the next story begins on an empty floor. */
  restart(): Promise<void>;
  close(): Promise<void>;
}

export const THEMES = ['light', 'dark', 'sun'] as const;
export type Theme = (typeof THEMES)[number];

/** How long the quickest of the face's own movements may take, ms: pointer and fill 120, shares of the lead 250. */
const MOVED_MS = 350;

/** @returns the script of that file with all that it imports, as one classic script */
async function bundled(file: string): Promise<string> {
  const made = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      target: 'es2022',
      lib: { entry: path.join(import.meta.dirname, file), formats: ['iife'], name: 'standHook' },
    },
  });
  const outputs = [made].flat().flatMap((m) => ('output' in m ? m.output : []));
  const chunk = outputs.find((o) => o.type === 'chunk');
  if (chunk === undefined) throw new Error(`${file} gave no script`);
  return chunk.code;
}

let hooks: Promise<{ worker: string; page: string }> | null = null;
const standHooks = () => {
  hooks ??= (async () => ({ worker: await bundled('worker/entry.ts'), page: await bundled('page.ts') }))();
  return hooks;
};

/** Serves the built app with the hook before its engine's worker, on a free port of loopback. */
export async function serveStand(folder = 'dist'): Promise<{ origin: string; close(): Promise<void> }> {
  const { worker } = await standHooks();
  const outDir = path.resolve(folder);
  const server: PreviewServer = await preview({
    preview: { host: 'localhost', port: 4720, strictPort: false },
    build: { outDir },
    logLevel: 'error',
    plugins: [
      {
        name: 'stand-hook',
        configurePreviewServer({ middlewares }) {
          middlewares.use((request, response, next) => {
            const name = /\/(assets\/engine\.worker-[^/?]*\.js)$/.exec(request.url ?? '')?.[1];
            if (name === undefined) return next();
            response.setHeader('content-type', 'text/javascript');
            // The worker's own policy, in which no text is code: the hook is sent functions as text.
            response.removeHeader('Content-Security-Policy');
            response.end(`${worker}\n${readFileSync(path.join(outDir, name), 'utf8')}`);
          });
        },
      },
    ],
  });
  const origin = (server.resolvedUrls?.local[0] ?? '').replace(/\/$/, '');
  if (origin === '') throw new Error('the stand is not served');
  return { origin, close: () => server.close() };
}

export interface StandOptions {
  /** Where the built app is. */
  readonly folder?: string;
  readonly size?: { readonly width: number; readonly height: number };
  /** A phone: touch, and its own way of laying out a page. */
  readonly phone?: boolean;
  /** Of the browser: what the page speaks follows from it. */
  readonly locale?: string;
  readonly names?: DemoNames;
}

/** Opens the app's start page on a fresh profile. Time goes by itself until the first pass(). */
export async function openStand({
  folder = 'dist',
  size,
  phone = false,
  locale = 'en-GB',
  names,
}: StandOptions = {}): Promise<Stand> {
  const server = await serveStand(folder);
  const place = profile(server.origin);
  const context = await chromium.launchPersistentContext(place.dir, {
    executablePath: chromiumPath(),
    headless: true,
    args: FLAGS,
    viewport: size ?? { width: 1180, height: 820 },
    hasTouch: phone,
    isMobile: phone,
    serviceWorkers: 'block',
    locale,
    timezoneId: 'Europe/Berlin',
    colorScheme: 'light',
  });
  context.setDefaultTimeout(15_000);
  await context.addInitScript({ content: (await standHooks()).page });
  const page = context.pages()[0] ?? (await context.newPage());
  const seen = faults(page);
  // Leaving a page with an open run is asked by the browser: yes.
  page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined));
  const load = async () => {
    await page.goto('about:blank');
    await page.goto(server.origin);
    await page.getByTestId('start-live').waitFor();
  };
  await load();
  // The app makes its database itself; asked before that the stand would make an empty one.
  await until(page, async () => (await indexedDB.databases()).some((d) => d.name === 'steadybar'));

  const order = (what: Order) =>
    page.evaluate((o) => (globalThis as unknown as { stand: PageHook }).stand.order(o), what);
  const moment = async () => {
    const found = await page.evaluate(() => {
      const m = (globalThis as unknown as { stand: PageHook }).stand.moment();
      // What is fresh is for the plot alone.
      return m === null ? null : { view: m.view, link: m.link, run: m.run };
    });
    if (found === null) throw new Error('the engine has shown no moment yet');
    return found;
  };
  let theme: Theme = 'light';

  const stand: Stand = {
    page,
    context,
    origin: server.origin,
    names: names ?? null,
    faults: seen,
    pass: async (seconds, says) =>
      (await order({ o: 'pass', ms: seconds * 1000, until: says === undefined ? null : String(says) })) ===
      true,
    async passUntil(what, seconds, says) {
      if (await stand.pass(seconds, says)) return;
      const { alarms, bar, stage } = await stand.view();
      const now = alarms.map((a) => `${a.alarm} ${a.state}`).join(', ');
      throw new Error(`${what}: not so in ${seconds} s; ${stage}, ${bar} bar, ${now || 'no alarm'}`);
    },
    async ask(request) {
      const answer = page.evaluate(
        (r) => (globalThis as unknown as { stand: PageHook }).stand.ask(r),
        request as Request,
      );
      let settled = false;
      const done = answer.finally(() => {
        settled = true;
      });
      // What waits for a clock of the engine's gets it.
      await Promise.race([done, sleep(200)]);
      while (!settled) {
        await stand.pass(0.1);
        await Promise.race([done, sleep(20)]);
      }
      return (await answer) as never;
    },
    async command(command) {
      await stand.ask({ q: 'command', command });
      await stand.pass(0.1);
    },
    async attach(device) {
      await order({ o: 'attach', device });
    },
    async hand(hand) {
      const { kind } = await stand.link();
      if (kind === 'rig') await stand.ask({ q: 'rig-hand', hand });
      else await order({ o: 'hand', hand });
    },
    async fault(fault) {
      const { kind } = await stand.link();
      if (kind === 'rig') await stand.ask({ q: 'rig-fault', fault });
      else await order({ o: 'fault', fault });
    },
    async refuseWrites(name) {
      await order({ o: 'refuse', name });
    },
    view: async () => (await moment()).view,
    link: async () => (await moment()).link,
    run: async () => (await moment()).run,
    async put(document) {
      const kept = await stand.ask({ q: 'document', kind: document.kind, id: document.id });
      await stand.ask({
        q: 'put-document',
        document: { ...document, revision: kept?.revision ?? 0, savedUtcMs: 0 },
      });
    },
    async goto(hash) {
      await page.evaluate((h) => {
        location.hash = h;
      }, hash);
    },
    async press(id, then) {
      await page.getByTestId(id).click();
      for (let steps = 0; !(await page.getByTestId(then).first().isVisible()); steps++) {
        if (steps > 200) throw new Error(`${id}: ${then} does not come`);
        await stand.pass(0.1);
      }
    },
    async theme(next) {
      if (next === theme) return;
      const hash = await page.evaluate(() => location.hash);
      // Chosen as a user does: what is drawn on canvases follows from the setting, not from the page's attribute.
      await stand.goto('#/settings');
      await page.getByTestId('settings-theme').selectOption(next);
      await page.locator(`html[data-theme="${next}"]`).waitFor({ state: 'attached' });
      await stand.goto(hash);
      theme = next;
    },
    async drawn() {
      await page.evaluate(async (ms) => {
        await document.fonts.ready;
        await new Promise((resolve) => setTimeout(resolve, ms));
        await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
      }, MOVED_MS);
    },
    async restart() {
      await load();
      const { open } = await stand.ask({ q: 'start-engine' });
      for (const { runId } of open) await stand.ask({ q: 'close-interrupted', runId });
      // Nothing of it goes on: no packer that may be full, and no device that is connected by itself.
      for (const { runId, title } of await stand.ask({ q: 'runs' }))
        await stand.ask({ q: 'packer-empty', runId, title });
      await load();
    },
    async close() {
      await context.close();
      await server.close();
      place.dispose();
    },
  };
  return stand;
}
