import { sleep } from '../e2e/stage.ts';
import type { Expected } from './expect.ts';
import { giveSound, hide, killEngine, takeSound } from './eyes.ts';
import { ADDED_MS, type Fault, op } from './fault.ts';
import { nowMs, plugIn, type Site } from './site.ts';
import type { WalkStage } from './walk.ts';

/** What happens to the page, its worker, its storage and its sound. */

/** No picture for two seconds, looked for twice a second, and 0.3 s of grace (engine/silence.ts, app/services.ts). */
const SILENT_MS = 2800;

/** The page is there again: the run that was left open is said first, and gone on with by one press. */
async function resume(site: Site): Promise<void> {
  const { page } = site;
  await page.goto(`${site.origin}/#/live`);
  // It may have connected by itself by now.
  await page.locator('[data-testid="connect-resume"], [data-testid^="resume-"]').first().click();
  await page.getByTestId('stage').waitFor();
}

const nothing = async () => undefined;

/** Where an alarm must come in spite of it: the plug is pulled then. */
const pulled = (stage: WalkStage, withinMs = 1200, soundWithinMs = withinMs): Expected =>
  stage === 'done'
    ? { allows: ['link-error', 'sound-blocked'], forMs: 1500 }
    : { shows: ['alarm-pressure-lost'], priority: 'urgent', withinMs, soundWithinMs };

async function pull(site: Site): Promise<number> {
  await site.mark();
  const from = nowMs();
  await op(site, 'unplug');
  return from;
}

const storeFault = (): Expected => ({
  shows: ['alarm-store-fault'],
  priority: 'high',
  withinMs: 2000 + ADDED_MS,
});

const leftOpen = (stage: WalkStage): Expected => ({
  // In 'done' the run's own vent test has seen its packer empty.
  shows: stage === 'done' ? ['maybe-full', 'reading-none'] : ['maybe-full'],
  priority: null,
  withinMs: 4000,
});

export const PAGE_FAULTS: readonly Fault[] = [
  {
    name: 'hidden',
    title: 'The page is out of sight when the plug is pulled',
    how: 'document.hidden, no frames, timers once a second; device: unplug',
    async inject(site) {
      await site.page.evaluate(hide, true);
      await sleep(1000);
      return pull(site);
    },
    async clear(site) {
      await site.page.evaluate(hide, false);
      await plugIn(site);
    },
    expects: (stage) => pulled(stage),
  },
  {
    name: 'page-killed',
    title: 'The page’s process dies and the page is opened again',
    how: 'the browser’s own crash of the page; a new page',
    async inject(site) {
      const cdp = await site.cdp();
      // The answer never comes from a page that is gone.
      void cdp.send('Page.crash').catch(nothing);
      await sleep(300);
      const from = nowMs();
      await site.newPage();
      return from;
    },
    clear: resume,
    expects: leftOpen,
    recorded: ['gap resumed'],
  },
  {
    name: 'reload',
    title: 'The page is loaded again',
    how: 'reload; the browser’s question is answered with yes',
    async inject(site) {
      const from = nowMs();
      await site.reload();
      return from;
    },
    clear: resume,
    expects: leftOpen,
    recorded: ['gap resumed'],
  },
  {
    name: 'engine-killed',
    title: 'The engine’s worker dies',
    how: 'its worker is terminated',
    async inject(site) {
      await site.page.evaluate(killEngine);
      return undefined;
    },
    async clear(site) {
      await site.page.getByTestId('engine-silent').getByRole('button').click();
      await site.page.waitForLoadState();
      await site.mark();
      await resume(site);
    },
    expects: () => ({ shows: ['engine-silent'], priority: 'urgent', withinMs: SILENT_MS + ADDED_MS }),
    recorded: ['gap resumed'],
  },
  {
    name: 'engine-hangs',
    title: 'The engine’s worker hangs for 5 s',
    how: 'a loop in its worker',
    async inject(site) {
      await site.tellWorker({ hangMs: 5000 });
      return undefined;
    },
    clear: () => sleep(2000),
    expects: () => ({ shows: ['engine-silent'], priority: 'urgent', withinMs: SILENT_MS + ADDED_MS }),
  },
  {
    name: 'page-hangs',
    title: 'The page hangs for 3 s while the plug is pulled',
    how: 'a loop in the page; device: unplug',
    async inject(site) {
      const from = await pull(site);
      void site.page
        .evaluate(() => {
          for (const end = performance.now() + 3000; performance.now() < end; );
        })
        .catch(nothing);
      return from;
    },
    clear: plugIn,
    expects: (stage) => ({
      ...pulled(stage, 3000 + ADDED_MS),
      ...(stage === 'done' ? {} : { never: { shows: ['engine-silent'], forMs: 4500 } }),
    }),
  },
  {
    name: 'page-throws',
    title: 'Something in the page throws',
    how: 'an error thrown in a timer',
    async inject(site) {
      await site.page.evaluate(() => {
        setTimeout(() => {
          throw new Error('a fault of the page');
        }, 0);
      });
      return undefined;
    },
    async clear(site) {
      await site.reload();
      await resume(site);
    },
    expects: () => ({ shows: ['page-fault'], priority: 'high', withinMs: ADDED_MS }),
  },
  {
    name: 'disk-full',
    title: 'The disk is full',
    // The browser sets room aside for an open file, megabytes at a time: a quota that is taken away in mid-run is felt late.
    how: 'every write of the worker throws QuotaExceededError',
    async inject(site) {
      await site.tellWorker({ refusal: 'QuotaExceededError' });
      return undefined;
    },
    clear: (site) => site.tellWorker({ refusal: null }),
    expects: storeFault,
  },
  {
    name: 'store-refused',
    title: 'Writing is refused',
    how: 'every write of the worker throws InvalidStateError',
    async inject(site) {
      await site.tellWorker({ refusal: 'InvalidStateError' });
      return undefined;
    },
    clear: (site) => site.tellWorker({ refusal: null }),
    expects: storeFault,
  },
  {
    name: 'sound-suspended',
    title: 'The system takes the sound away for a moment, and the plug is pulled',
    how: 'AudioContext.suspend(); device: unplug',
    async inject(site) {
      await site.page.evaluate(takeSound, false);
      return pull(site);
    },
    clear: plugIn,
    // Looked after once a second.
    expects: (stage) => pulled(stage, 1200, 1000 + ADDED_MS),
  },
  {
    name: 'sound-gone',
    title: 'The system takes the sound away and does not give it back',
    how: 'AudioContext.suspend(), and resume() rejects',
    async inject(site) {
      await site.page.evaluate(takeSound, true);
      return undefined;
    },
    clear: (site) => site.page.evaluate(giveSound),
    expects: () => ({ shows: ['sound-blocked'], priority: null, withinMs: 1000 + ADDED_MS }),
  },
  {
    name: 'clock-set',
    title: 'The tablet’s clock is set an hour ahead',
    how: 'Date.now() of the worker',
    async inject(site) {
      await site.tellWorker({ clockMs: 3_600_000 });
      return undefined;
    },
    clear: (site) => site.tellWorker({ clockMs: 0 }),
    // No sample is missing: no sleep. That the clock was set may be said.
    expects: () => ({ allows: ['alarm-clock-jump'], forMs: 2500 }),
  },
];
