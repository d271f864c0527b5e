import { afterEach, expect, it } from 'vitest';
import { judgeAgain } from '../../src/engine/judge-again.ts';
import { contentOf } from '../../src/record/manifest.ts';
import { MapSaid } from '../../src/record/map-said.ts';
import { scanRun } from '../../src/record/reader.ts';
import { notRun } from '../unit/not-run.ts';
import { faults, open, profile, serve } from './app.ts';
import { enterThermometer, hasPython, startSketches } from './sketches.ts';
import { endRun, enterPacker, readRunFile, shownBar } from './stage.ts';

// The built app in real Chromium and its real Web Serial; behind it two boards that print plain lines, in Python, each on a
// pty: the pressure from one, temperatures from the other.

let close: () => Promise<void> = async () => {};
afterEach(async () => {
  await close();
  close = async () => {};
});

async function stage() {
  const sketches = startSketches();
  const { op } = sketches;
  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const context = await open(dir);
  const page = await context.newPage();
  const seen = faults(page);
  close = async () => {
    await context.close().catch(() => undefined);
    await sketches.quit();
    await server.close();
    dispose();
  };
  await page.goto(server.origin);
  await page.getByTestId('start-live').waitFor();
  await page.evaluate(() => navigator.serial.getPorts());
  const plug = async (board: 1 | 2, ports: number) => {
    await op(`plug ${board}`);
    await expect
      .poll(() => page.evaluate(async () => (await navigator.serial.getPorts()).length), { timeout: 10_000 })
      .toBe(ports);
  };
  return { page, op, plug, origin: server.origin, seen };
}

it('two sketches: a plain line by its columns, a second one by its names; columns that change are told, and what is read by each map stands in one record', async (context) => {
  if (process.env.STEADYBAR_APART !== '1')
    notRun(context, 'the plug needs root and unshare (run by npm test)');
  if (!hasPython()) notRun(context, 'no python3');
  const { page, op, plug, origin, seen } = await stage();
  await plug(1, 1);

  // The first map while its line is seen, the second for a thermometer: no row of it is a pressure.
  await op('bar 0.25');
  await page.goto(`${origin}/#/columns/new`);
  await page.getByTestId('columns-name').fill('Pressure board');
  await page.getByTestId('columns-cells').fill('2');
  await page.getByTestId('map-test').click();
  await expect.poll(() => page.getByTestId('map-test-0').textContent()).toContain('0.25');
  await page.getByTestId('save-document').click();
  await page.waitForURL((url) => !url.hash.endsWith('/new'));
  await enterThermometer(page, origin);

  const packer = 'Packer of two boards';
  await enterPacker(page, packer, 2.0);
  await op('bar 0');
  await page.goto(`${origin}/#/live`);
  // A map without a pressure is no first one.
  await page.locator('[data-testid^="connect-map-"]').click();
  const drawer = page.getByTestId('drawer');
  await plug(2, 2);
  await drawer.getByTestId('second-adapter').locator('summary').click();
  await drawer.getByText('“Thermometer”').click();
  await drawer.getByTestId('beside-state').and(page.locator('[data-state="streaming"]')).waitFor();
  await drawer.getByText(packer).first().click();
  expect(await page.getByTestId('source-note').first().textContent()).toMatch(/^Unchecked line/);
  await page.getByTestId('zero').click();
  await page.getByTestId('stage').waitFor();
  await op('warm 31.5');
  await op('bar 0.8');
  await expect.poll(() => shownBar(page), { timeout: 5000 }).toBeCloseTo(0.8, 1);

  // The first prints other columns: nothing is guessed.
  await op('columns 3');
  await page.getByTestId('stray-line').first().waitFor();
  expect(await page.getByTestId('link-error').first().textContent()).toContain('the column map asks for');
  await page.getByTestId('alarm-pressure-lost').first().waitFor();
  await op('columns 2');
  await op('bar 0');
  await expect.poll(() => shownBar(page), { timeout: 5000 }).toBeCloseTo(0, 1);
  await endRun({ page });
  expect(await page.textContent('body')).toContain('Unchecked line');

  const file = await readRunFile(page);
  const said = new MapSaid();
  const scan = scanRun(file, { page: (p) => said.page(p) });
  expect(scan.damage).toEqual([]);
  expect(said.findings()).toEqual([]);
  expect(said.remarks()).toMatchObject([
    { r: 'read-by-map', map: 'columns' },
    { r: 'read-by-map', map: 'columns', beside: true },
  ]);
  expect(contentOf(file)!.content.beside).toMatchObject([{ deviceId: 'WARM-1' }]);
  const { recorded, again } = judgeAgain(file);
  expect(again).toEqual(recorded);
  expect(recorded.flatMap((e) => (e.e === 'beside' ? [e.what] : []))).toEqual(['greeted']);
  expect(seen).toEqual([]);
}, 60_000);
