import path from 'node:path';
import type { BrowserContext, CDPSession, Page } from 'playwright-core';
import { STEP, stepWork } from './main-thread.ts';
import { quantile, type Row } from './measure.ts';
import type { plainPlot } from './plain-plot.ts';
import { bundle } from './worker-page.ts';

const GOAL_MS = 8;
const STEPS = 120;
/** Half of this many steps go closer, the other half back. */
const CYCLE = 60;
/** One wheel step, as trace-gestures.ts takes it. */
const WHEEL_PX = 60;
const CLOSER = Math.exp(-WHEEL_PX * 0.002);

/** A wheel turns over the trace, a step a frame: work of the main thread a step, ms. */
function turnWheel(page: Page, cdp: CDPSession): Promise<number[]> {
  return stepWork(cdp, () =>
    page.evaluate(
      async ({ mark, steps, cycle, wheel }) => {
        const over = document.querySelector<HTMLElement>('[data-testid="review-trace"] .u-over');
        if (over === null) throw new Error('no plot');
        const box = over.getBoundingClientRect();
        await new Promise(requestAnimationFrame);
        for (let i = 0; i < steps; i++) {
          performance.mark(mark + i);
          over.dispatchEvent(
            new WheelEvent('wheel', {
              deltaY: i % cycle < cycle / 2 ? -wheel : wheel,
              clientX: box.x + box.width * 0.4,
              clientY: box.y + box.height / 2,
              bubbles: true,
              cancelable: true,
            }),
          );
          await new Promise(requestAnimationFrame);
        }
        performance.mark(mark + steps);
      },
      { mark: STEP, steps: STEPS, cycle: CYCLE, wheel: WHEEL_PX },
    ),
  );
}

/** The same views on a plot of the library as it comes, of the same size and as many points; ms a step. */
async function plainWork(context: BrowserContext, page: Page, endS: number): Promise<number[]> {
  const size = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="review-trace"] canvas');
    if (canvas === null) throw new Error('no plot');
    return { width: canvas.clientWidth, height: canvas.clientHeight };
  });
  let [fromS, toS] = [0, endS];
  const views = Array.from({ length: STEPS }, (_, i): [number, number] => {
    const factor = i % CYCLE < CYCLE / 2 ? CLOSER : 1 / CLOSER;
    const at = fromS + (toS - fromS) * 0.4;
    [fromS, toS] = [at - (at - fromS) * factor, at + (toS - at) * factor];
    return [fromS, toS];
  });
  const plain = await context.newPage();
  try {
    const cdp = await context.newCDPSession(plain);
    await plain.setContent('<!doctype html><title>plot</title><div id="host"></div>');
    await plain.addScriptTag({
      content: await bundle(path.join(import.meta.dirname, 'plain-plot.ts')),
      type: 'module',
    });
    await plain.waitForFunction(() => 'plainPlot' in globalThis);
    return await stepWork(cdp, () =>
      plain.evaluate(
        async ({ mark, size, views }) => {
          const make = (globalThis as unknown as { plainPlot: typeof plainPlot }).plainPlot;
          const draw = make(document.getElementById('host')!, size, views);
          await new Promise(requestAnimationFrame);
          for (let i = 0; i < views.length; i++) {
            performance.mark(mark + i);
            requestAnimationFrame(() => draw(i));
            await new Promise(requestAnimationFrame);
          }
          performance.mark(mark + views.length);
        },
        { mark: STEP, size, views },
      ),
    );
  } finally {
    await plain.close();
  }
}

/** Zooming over the trace of a saved run that stands open in this page, beside the plot library alone. */
export async function benchZoom(context: BrowserContext, page: Page, endS: number): Promise<Row> {
  const cdp = await context.newCDPSession(page);
  const work = await turnWheel(page, cdp);
  const plain = await plainWork(context, page, endS);
  const p95 = quantile(work, 0.95);
  const beside = quantile(plain, 0.95);
  return {
    what: 'zoom of it: CPU time of the page a redraw, p95',
    value: `${p95.toFixed(1)} ms`,
    beside: `${STEPS} wheel steps, median ${quantile(work, 0.5).toFixed(1)}; the plot library alone with as many points ${beside.toFixed(1)}, ratio ${(p95 / beside).toFixed(2)}; goal ≤ ${GOAL_MS} ms`,
    met: p95 <= GOAL_MS,
  };
}
