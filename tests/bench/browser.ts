import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import path from 'node:path';
import type { CDPSession, Page } from 'playwright-core';
import { runFileNames } from '../../src/record/recovery.ts';
import { open, profile, serve } from '../e2e/app.ts';
import { sleep } from '../e2e/stage.ts';
import { NAMES, quantile, type Row } from './measure.ts';
import { benchZoom } from './zoom.ts';

/** Main thread's busy seconds so far, as the browser counts them. */
async function busyS(cdp: CDPSession): Promise<number> {
  const { metrics } = await cdp.send('Performance.getMetrics');
  return metrics.find((m) => m.name === 'TaskDuration')?.value ?? Number.NaN;
}

/** Puts the run's files where the engine keeps them: the engine adopts a file without a list entry. */
async function putRun(page: Page, folder: string, runId: string): Promise<void> {
  const server = createServer((request, response) => {
    response.setHeader('access-control-allow-origin', '*');
    response.end(readFileSync(path.join(folder, path.basename(request.url ?? ''))));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  await page.evaluate(
    async ({ port, names }) => {
      const root = await navigator.storage.getDirectory();
      const runs = await root.getDirectoryHandle('runs', { create: true });
      for (const name of names) {
        const bytes = await (await fetch(`http://127.0.0.1:${port}/${name}`)).arrayBuffer();
        const out = await (await runs.getFileHandle(name, { create: true })).createWritable();
        await out.write(bytes);
        await out.close();
      }
    },
    { port, names: Object.values(runFileNames(runId)) },
  );
  server.close();
}

/** Time from the press on the run's row until its trace stands drawn on the canvas, ms. */
async function openMs(page: Page, runId: string): Promise<number> {
  return page.evaluate(async (id) => {
    const row = document.querySelector<HTMLElement>(`[data-testid="run-${id}"]`);
    if (row === null) throw new Error('the run is not in the list');
    const drawn = () => {
      const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="review-trace"] canvas');
      if (!canvas || canvas.width === 0) return false;
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      let dark = 0;
      for (let i = 3; i < data.length; i += 16) if (data[i]! > 0) dark++;
      return dark > 500;
    };
    const t = performance.now();
    row.click();
    while (!drawn()) {
      await new Promise(requestAnimationFrame);
      if (performance.now() - t > 20_000) throw new Error('the trace was not drawn in 20 s');
    }
    return performance.now() - t;
  }, runId);
}

/** A saved 12 h trace, and the page's cost at 1 kHz, in one Chromium. */
export async function benchBrowser(folder: string, runId: string): Promise<Row[]> {
  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const context = await open(dir, undefined, 'allow');
  await context.addInitScript(NAMES);
  const rows: Row[] = [];
  try {
    const page = await context.newPage();
    const cdp = await context.newCDPSession(page);
    await cdp.send('Performance.enable');
    await page.goto(server.origin);
    await page.getByTestId('start-live').waitFor();
    await putRun(page, folder, runId);
    await page.reload();
    await sleep(4000);
    await page.reload();
    await page.getByTestId(`run-${runId}`).waitFor({ timeout: 20_000 });
    const opened: number[] = [];
    for (let i = 0; i < 5; i++) {
      opened.push(await openMs(page, runId));
      if (i === 4) break;
      await page.goto(`${server.origin}/#/jobs`);
      await page.reload(); // nothing stays in memory
      await page.getByTestId(`run-${runId}`).waitFor({ timeout: 60_000 });
      await sleep(300);
    }
    rows.push({
      what: '12 h at 50 Hz: press → first picture',
      value: `median ${quantile(opened, 0.5).toFixed(0)} ms, worst ${Math.max(...opened).toFixed(0)} ms`,
      beside: '5 times, each after a reload; goal ≤ 300 ms',
      met: quantile(opened, 0.5) <= 300,
    });
    await sleep(1000);
    rows.push(await benchZoom(context, page, 12 * 3600));

    await page.goto(`${server.origin}/#/live`);
    await page.getByTestId('connect-rig').click();
    await page.getByTestId('use-practice').click();
    await page.getByTestId('zero').waitFor();
    await page.getByTestId('more-rig').click();
    await page.getByText('20×', { exact: true }).click();
    await sleep(4000);
    const from = await busyS(cdp);
    await sleep(10_000);
    const busy = ((await busyS(cdp)) - from) / 10;
    rows.push({
      what: 'page while 20 × the practice rate streams',
      value: `${(1000 * busy).toFixed(0)} ms of main thread a second`,
      beside: 'live screen with trace and ladder',
      met: busy < 0.5,
    });
    return rows;
  } finally {
    await context.close();
    await server.close();
    dispose();
  }
}
