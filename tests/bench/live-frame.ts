import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { BrowserContext, CDPSession, Page } from 'playwright-core';
import { open, profile, serve } from '../e2e/app.ts';
import { sleep } from '../e2e/stage.ts';
import { STEP, stepWork } from './main-thread.ts';
import { NAMES, quantile, type Row } from './measure.ts';
import { bundle } from './worker-page.ts';

const GOAL_MS = 4;
/** A tablet of the trade beside the machine that measures. */
const THROTTLE = 4;
const FRAMES = 600;

/** Work of the main thread a frame while the page runs by itself, ms. */
function framesOf(page: Page, cdp: CDPSession): Promise<number[]> {
  return stepWork(cdp, () =>
    page.evaluate(
      async ({ mark, frames }) => {
        const draw = (globalThis as { nextFrame?: () => void }).nextFrame;
        for (let i = 0; i <= frames; i++) {
          await new Promise(requestAnimationFrame);
          performance.mark(mark + i);
          if (i < frames) draw?.();
        }
      },
      { mark: STEP, frames: FRAMES },
    ),
  );
}

/** @param empty frames of a page that draws nothing: what the browser and the tracing cost by themselves */
const row = (what: string, work: readonly number[], empty: readonly number[]): Row => {
  const own = quantile(work, 0.95) - quantile(empty, 0.95);
  return {
    what,
    value: `p95 ${Math.max(0, own).toFixed(1)} ms`,
    beside: `over an empty page's ${quantile(empty, 0.95).toFixed(1)}; median ${(quantile(work, 0.5) - quantile(empty, 0.5)).toFixed(1)}; CPU ${THROTTLE}× slowed, ${FRAMES} frames; goal ≤ ${GOAL_MS} ms`,
    met: own <= GOAL_MS,
  };
};

/** The drawings alone, in the last minute of twelve hours. */
async function lanesAlone(context: BrowserContext, spanS: number, name: string): Promise<Row> {
  const page = await context.newPage();
  try {
    const css = readFileSync('src/app/styles/lanes.css', 'utf8');
    await page.setContent(`<!doctype html><title>lanes</title><style>${css}</style><div id="host"></div>`);
    await page.addScriptTag({
      content: await bundle(path.join(import.meta.dirname, 'lanes-page.ts')),
      type: 'module',
    });
    await page.waitForFunction(() => 'lanesRun' in globalThis);
    const cdp = await context.newCDPSession(page);
    await cdp.send('Emulation.setCPUThrottlingRate', { rate: THROTTLE });
    const empty = await framesOf(page, cdp);
    await page.evaluate((span) => {
      const make = (globalThis as unknown as { lanesRun: (host: HTMLElement, spanS: number) => () => void })
        .lanesRun;
      (globalThis as { nextFrame?: () => void }).nextFrame = make(document.getElementById('host')!, span);
      (globalThis as { nextFrame?: () => void }).nextFrame!();
    }, spanS);
    return row(`lanes after 12 h at 50 Hz, ${name}: work a frame`, await framesOf(page, cdp), empty);
  } finally {
    await page.close();
  }
}

/** The live page with the practice rig. */
async function livePage(page: Page, context: BrowserContext, origin: string): Promise<Row> {
  const cdp = await context.newCDPSession(page);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: THROTTLE });
  const empty = await framesOf(page, cdp);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  await page.goto(`${origin}/#/live`);
  await page.getByTestId('connect-rig').click();
  await page.getByTestId('use-practice').click();
  await page.getByTestId('stage-ribbon').waitFor();
  await sleep(8000);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: THROTTLE });
  await sleep(2000);
  const work = await framesOf(page, cdp);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  return row('live page with the practice rig: work a frame', work, empty);
}

/** Work a frame of the main thread on Live. */
export async function benchLiveFrame(): Promise<Row[]> {
  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const context = await open(dir, { width: 1180, height: 820 }, 'allow');
  try {
    await context.addInitScript(NAMES);
    return [
      await lanesAlone(context, 60, 'a minute across'),
      await lanesAlone(context, 43_200, 'all of it across'),
      await livePage(await context.newPage(), context, server.origin),
    ];
  } finally {
    await context.close();
    await server.close();
    dispose();
  }
}
