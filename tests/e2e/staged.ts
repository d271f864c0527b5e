import type { BrowserContext, Page } from 'playwright-core';
import type { EngineNews, LinkView, RigView, RunView } from '../../src/engine/messages.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import type { WatchView } from '../../src/watch/view.ts';

/**
 * The built app with an engine that shows what a test says: for moments that a rig needs an hour for, or never comes to. The page
 * is the app's own to the last byte; only its worker is another one, which answers every request with nothing.
 */

type Moment = Extract<EngineNews, { m: 'moment' }>;

/** A run's pressure and temperatures until now, at even steps. */
export interface Course {
  readonly seconds: number;
  readonly stepS: number;
  readonly bar: readonly (number | null)[];
  readonly temps: readonly { readonly channel: number; readonly c: readonly number[] }[];
}

export interface Scene {
  readonly view: WatchView;
  readonly link: LinkView;
  readonly run: RunView | null;
  readonly rig: RigView | null;
  readonly events: readonly WatchEvent[];
  readonly course: Course;
}

/** What the hook leaves in the page. */
interface Staging {
  show(scene: Scene): void;
  goOn(views: readonly WatchView[]): Promise<void>;
  asked: unknown[];
}

/** Runs in the page before its own scripts. */
function stageEngine(): void {
  const OwnWorker = Worker;
  const asked: unknown[] = [];
  let worker: EventTarget | null = null;
  let moment: Moment | null = null;
  const tell = (data: unknown) => worker?.dispatchEvent(new MessageEvent('message', { data }));
  const answers: Record<string, unknown> = {
    'start-engine': { engine: 1, open: [] },
    documents: [],
    runs: [],
    document: null,
    storage: { persisted: true, roomBytes: 5e9, faults: { files: null, documents: null } },
  };
  class Staged extends EventTarget {
    postMessage({ id, request }: { id: number; request: { q: string } }) {
      asked.push(request);
      const value = request.q in answers ? answers[request.q] : null;
      queueMicrotask(() => tell({ m: 'answer', id, ok: true, value }));
    }
    terminate() {}
  }
  globalThis.Worker = new Proxy(OwnWorker, {
    construct(target, given: ConstructorParameters<typeof Worker>) {
      if (!String(given[0]).includes('engine.worker')) return new target(...given);
      worker = new Staged();
      return worker;
    },
  });
  const empty = () => ({ s: new Float64Array(0), bar: new Float32Array(0), second: null, temps: [] });
  // An engine that is heard: else the page says that nothing on it is live.
  setInterval(() => moment !== null && tell({ ...moment, fresh: empty() } satisfies Moment), 500);
  const staging: Staging = {
    asked,
    show({ view, link, run, rig, events, course }) {
      moment = { m: 'moment', view, link, run, rig, fresh: empty() };
      // Another run each time: the page forgets what it drew before.
      tell({ ...moment, run: null, view: { ...view, firstUs: -1 } });
      tell(moment);
      for (const event of events) tell({ m: 'event', event });
      const n = course.bar.length;
      const s = Float64Array.from(
        { length: n },
        (_, i) => (view.tUs - (view.firstUs ?? 0)) / 1e6 - (n - 1 - i) * course.stepS,
      );
      const bar = Float32Array.from(course.bar, (b) => b ?? Number.NaN);
      const temps = course.temps.map((t) => ({ channel: t.channel, c: Float32Array.from(t.c) }));
      tell({ ...moment, fresh: { s, bar, second: null, temps } } satisfies Moment);
    },
    async goOn(views) {
      for (const view of views) {
        if (moment === null) return;
        moment = { ...moment, view };
        tell(moment);
        await new Promise((resolve) => requestAnimationFrame(resolve));
      }
    },
  };
  (globalThis as unknown as { staging: Staging }).staging = staging;
}

const NAMES = 'globalThis.__name ??= (f) => f;';

/** To be called before the context opens a page. */
export async function stagedEngine(context: BrowserContext): Promise<void> {
  await context.addInitScript(`${NAMES}(${stageEngine})();`);
}

/** As text: the browser's driver takes long over an object of some thousand numbers. */
function textOf(value: unknown): string {
  return JSON.stringify(value, (key, v) => {
    if (typeof v === 'number' && !Number.isFinite(v))
      throw new Error(`${key} is ${v}: JSON has no word for it`);
    return v;
  });
}

export async function showScene(page: Page, scene: Scene): Promise<void> {
  await page.evaluate(
    (s) => (globalThis as unknown as { staging: Staging }).staging.show(JSON.parse(s)),
    textOf(scene),
  );
}

/** The scene that is shown goes on with these moments, one a frame. */
export async function goOn(page: Page, views: readonly WatchView[]): Promise<void> {
  await page.evaluate(
    (v) => (globalThis as unknown as { staging: Staging }).staging.goOn(JSON.parse(v)),
    textOf(views),
  );
}

/** What the page asked of its engine, by kind. */
export async function askedOf(
  page: Page,
): Promise<readonly { readonly q: string; readonly command?: { readonly c: string } }[]> {
  return page.evaluate(() => (globalThis as unknown as { staging: Staging }).staging.asked as never);
}
