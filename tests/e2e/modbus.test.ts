import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import type { BrowserContext } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import { judgeAgain } from '../../src/engine/judge-again.ts';
import { MapSaid } from '../../src/record/map-said.ts';
import { scanRun } from '../../src/record/reader.ts';
import { captureOf } from '../../src/record/testing/capture.ts';
import { notRun } from '../unit/not-run.ts';
import { faults, open, profile, serve, USB, until } from './app.ts';
import { endRun, enterPacker, readRunFile, shownBar, sleep } from './stage.ts';

// The built app in real Chromium and its real Web Serial; behind it a bus whose units are written in Python, on a pty.

let close: () => Promise<void> = async () => {};
afterEach(async () => {
  await close();
  close = async () => {};
});

interface Slave {
  op(line: string): Promise<string>;
  sent(): Buffer;
  quit(): Promise<void>;
}

function startSlave(): Slave {
  const work = mkdtempSync(path.join(tmpdir(), 'steadybar-bus-'));
  const tap = path.join(work, 'sent.bin');
  const child = spawn(
    'python3',
    [path.join(import.meta.dirname, 'modbus-slave.py'), '--serial', USB.serial, '--tap', tap],
    { stdio: ['pipe', 'pipe', 'inherit'] },
  );
  const waiting: ((line: string) => void)[] = [];
  createInterface({ input: child.stdout }).on('line', (line) => waiting.shift()?.(line));
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    op: (line) =>
      new Promise((resolve) => {
        waiting.push(resolve);
        child.stdin.write(`${line}\n`);
      }),
    sent: () => readFileSync(tap),
    async quit() {
      child.stdin.end();
      await ended;
      rmSync(work, { recursive: true, force: true });
    },
  };
}

async function stage() {
  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const slave = startSlave();
  const context: BrowserContext = await open(dir);
  const page = await context.newPage();
  const seen = faults(page);
  close = async () => {
    await context.close().catch(() => undefined);
    await slave.quit();
    await server.close();
    dispose();
  };
  await page.goto(server.origin);
  await page.getByTestId('start-live').waitFor();
  await page.evaluate(() => navigator.serial.getPorts());
  const plug = async () => {
    expect(await slave.op('plug')).toMatch(/^ok/);
    await until(page, async () => (await navigator.serial.getPorts()).length === 1);
  };
  return { page, slave, origin: server.origin, plug, seen };
}

it('a register map is tried, a bus read by it, warned before rated, and verified sample by sample', async (context) => {
  if (process.env.STEADYBAR_APART !== '1')
    notRun(context, 'the plug needs root and unshare (run by npm test)');
  if (spawnSync('python3', ['--version']).status !== 0) notRun(context, 'no python3');
  const { page, slave, origin, plug, seen } = await stage();
  await plug();
  await slave.op('bar 0.25');

  // The map, with a wrong byte order at first: the trial reading says so and offers the right one.
  await page.goto(`${origin}/#/registers/new`);
  await page.getByTestId('registers-name').fill('Bus of the test');
  await page.getByTestId('registers-channels.0.order').selectOption('cdab');
  await page.getByTestId('map-test').click();
  await page.getByTestId('use-order-abcd').click();
  await page.getByTestId('map-test').click();
  await expect.poll(() => page.getByTestId('map-test-0').textContent()).toContain('0.25');
  await page.getByTestId('save-document').click();
  await page.waitForURL((url) => !url.hash.endsWith('/new'));

  const packer = 'Packer of the bus';
  await enterPacker(page, packer, 2.0);
  await slave.op('bar 0');
  await page.goto(`${origin}/#/live`);
  await page.locator('[data-testid^="connect-map-"]').click();
  await page.getByTestId('drawer').getByText(packer).first().click();
  expect(await page.getByTestId('source-note').first().textContent()).toContain('no guard');
  await page.getByTestId('zero').click();
  await page.getByTestId('stage').waitFor();

  await slave.op('bar 1.2');
  await expect.poll(() => shownBar(page), { timeout: 5000 }).toBeCloseTo(1.2, 1);
  await slave.op('garble 1');
  await sleep(300);
  for (const bar of [1.5, 1.7, 1.85, 1.95]) {
    await slave.op(`bar ${bar}`);
    await sleep(120);
  }
  await page
    .locator('[data-testid="alarm-rising"], [data-testid="alarm-ceiling"]')
    .first()
    .waitFor({ timeout: 5000 });
  await slave.op('bar 0');
  await expect.poll(() => shownBar(page), { timeout: 5000 }).toBeCloseTo(0, 1);
  await endRun({ page });
  expect(await page.textContent('body')).toContain('no guard');

  const file = await readRunFile(page);
  const said = new MapSaid();
  let stray = 0;
  const scan = scanRun(file, {
    page: (p) => said.page(p),
    entry: (e) => {
      if (e.l === 'stray') stray += e.bytes.length;
    },
  });
  expect(scan.damage).toEqual([]);
  expect(scan.samples).toBeGreaterThan(50);
  expect(stray).toBeGreaterThanOrEqual(9);
  expect(said.findings()).toEqual([]);
  expect(said.remarks()).toMatchObject([{ r: 'read-by-map', map: 'registers' }]);
  // What the record holds of the bus are the very bytes that its units sent.
  const capture = Buffer.from(await captureOf(file));
  expect(capture.length).toBeGreaterThan(500);
  expect(slave.sent().includes(capture.subarray(0, 200))).toBe(true);
  const { recorded, again } = judgeAgain(file);
  expect(again).toEqual(recorded);
  expect(seen).toEqual([]);
}, 60_000);
