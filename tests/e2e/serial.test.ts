import { afterEach, expect, it } from 'vitest';
import { canBuild, NO_CROSS_COMPILER } from '../../firmware-protocol/boards/build.mjs';
import { startBoard } from '../../firmware-protocol/boards/sim/run.ts';
import { hasSimavr, NO_SIMAVR } from '../../firmware-protocol/build.mjs';
import { startDevice } from '../../firmware-protocol/host/run.ts';
import { judgeAgain } from '../../src/engine/judge-again.ts';
import { LINE_SHOWN } from '../../src/link/hearing.ts';
import { scanRun } from '../../src/record/reader.ts';
import { captureOf } from '../../src/record/testing/capture.ts';
import { LINK_ERROR } from '../../src/words/en/link.ts';
import { notRun } from '../unit/not-run.ts';
import { USB } from './app.ts';
import { enterThermometer, hasPython, startSketches } from './sketches.ts';
import {
  advance,
  endRun,
  enterPacker,
  hold,
  needSerial,
  openPanel,
  type Stage,
  setStage,
  shownBar,
  sleep,
  startRun,
} from './stage.ts';

// The built app in real Chromium, its real Web Serial, the C device on a pseudo-terminal: bytes all the way.

let stage: Stage | null = null;
let sketches: ReturnType<typeof startSketches> | null = null;
afterEach(async () => {
  await stage?.close();
  await sketches?.quit();
  stage = null;
  sketches = null;
});

const PACKER = 'Packer of the test';

it('plug, connect, fill, warned before rated, acknowledge, hold, let down, saved, reloaded: count for count', async (context) => {
  needSerial(context);
  stage = await setStage();
  const { page, device } = stage;
  await enterPacker(page, PACKER, 2.0);
  await startRun(stage, PACKER);
  await device.op('true 0 12000 14000 18000');
  await expect.poll(() => shownBar(page), { timeout: 10_000 }).toBeCloseTo(0, 1);

  // Fill, and go on: an operator who looks elsewhere. The truth passes rated some time after the alarm.
  if ((await page.getByTestId('stage-key').getAttribute('data-to')) === 'seat') await advance(stage, 'seat');
  await advance(stage, 'inflate');
  await device.op('ramp 230000 12');
  const urgent = page.locator('[data-testid="alarm-rising"], [data-testid="alarm-ceiling"]').first();
  await urgent.waitFor({ timeout: 20_000 });
  const truePa = Number((await device.state()).truePa);
  expect(truePa).toBeLessThan(200_000);
  await device.op('ramp 150000 2');
  // On a slow machine the device's own limit trips as well before the pressure turns: two alarms, each is acknowledged.
  const acknowledge = page.getByTestId('ack');
  await acknowledge.waitFor();
  const stillUrgent = async () => {
    if (await acknowledge.isVisible()) await acknowledge.click({ timeout: 1000 }).catch(() => undefined);
    return urgent.isVisible();
  };
  await expect.poll(stillUrgent, { timeout: 15_000 }).toBe(false);

  await advance(stage, 'hold');
  await sleep(3000);
  expect(await shownBar(page)).toBeCloseTo(1.5, 1);
  await openPanel(page, 'checks');
  await page.getByTestId('witness-hard').click();
  await advance(stage, 'let-down');
  await device.op('ramp 0 3');
  await expect.poll(() => shownBar(page), { timeout: 10_000 }).toBeCloseTo(0, 1);
  await advance(stage, 'done');
  await endRun(stage);

  // Reopened after a reload: the record holds the very bytes that the device's line took.
  await page.reload();
  await page.getByTestId('review-trace').waitFor();
  const file = await stage.runFile();
  const capture = Buffer.from(await captureOf(file));
  const sent = stage.sent();
  expect(capture.length).toBeGreaterThan(10_000);
  expect(sent.indexOf(capture)).toBeGreaterThanOrEqual(0);
  const scan = scanRun(file);
  expect(scan.damage).toEqual([]);
  // Judged live in Chromium, judged again in Node from the log: the same events.
  // The events as the worker in Chromium recorded them, and as Node judges the same log.
  const { recorded, again } = judgeAgain(file);
  expect(recorded.length).toBeGreaterThan(10);
  expect(again).toEqual(recorded);

  // Put away: the cycle stands in the packer's own log.
  await page.getByTestId('put-away-found').selectOption('well');
  await page.getByTestId('put-away-by').fill('A.B.');
  await page.getByTestId('put-away').click();
  await page.getByTestId('put-away-done').getByRole('link').click();
  const log = await page.getByTestId('packer-history').textContent();
  expect(log).toContain('1 cycle');
  const peak = Number(/(\d\.\d\d)\sbar/.exec(log ?? '')?.[1]);
  expect(peak).toBeGreaterThan(1.5);
  expect(peak).toBeLessThan(2);
  expect(stage.faults).toEqual([]);
});

it('unplugged in mid-hold, a thermometer beside it: alarm within 1.2 s, each lost for itself, the same run goes on with a marked gap', async (context) => {
  needSerial(context);
  if (!hasPython()) notRun(context, 'no python3');
  stage = await setStage();
  const { page, device, origin } = stage;
  sketches = startSketches();
  await enterThermometer(page, origin);
  await enterPacker(page, PACKER, 2.0);
  await sketches.op('warm 31.5');
  await startRun(stage, PACKER, async () => {
    await sketches?.op('plug 2');
    await expect.poll(() => page.evaluate(async () => (await navigator.serial.getPorts()).length)).toBe(2);
    const drawer = page.getByTestId('drawer');
    await drawer.getByTestId('second-adapter').locator('summary').click();
    await drawer.getByText('“Thermometer”').click();
    await drawer.getByTestId('beside-state').and(page.locator('[data-state="streaming"]')).waitFor();
  });
  const warmth = page.getByTestId('zone-temperature');
  if ((await page.getByTestId('stage-key').getAttribute('data-to')) === 'seat') await advance(stage, 'seat');
  await advance(stage, 'inflate');
  await device.op('ramp 150000 3');
  await page.waitForTimeout(3500);
  await openPanel(page, 'run');
  const runBefore = await page.getByTestId('saved').textContent();
  expect(runBefore).toContain('ecord');

  // The thermometer goes: said, and the pressure goes on. Back it comes by itself.
  await sketches.op('unplug 2');
  await page.getByTestId('beside-error').first().waitFor();
  await device.op('true 145000');
  await expect.poll(() => shownBar(page), { timeout: 5000 }).toBeCloseTo(1.45, 2);
  await sketches.op('plug 2');
  await expect.poll(() => page.getByTestId('beside-error').count(), { timeout: 8000 }).toBe(0);

  const pulled = Date.now();
  await device.op('unplug');
  await page.getByTestId('alarm-pressure-lost').waitFor({ timeout: 5000 });
  expect(Date.now() - pulled).toBeLessThan(1200);
  expect(await page.getByTestId('pressure').getAttribute('data-trust')).toBe('lost');
  expect(await page.locator('[data-testid^="alarm-"]').count()).toBe(1); // one pulled plug, one alarm
  // The temperatures go on meanwhile.
  await sketches.op('warm 34.5');
  await expect.poll(() => warmth.textContent(), { timeout: 5000 }).toContain('34.5');
  expect(await device.op('plug')).toMatch(/^ok/);
  await expect
    .poll(() => page.getByTestId('pressure').getAttribute('data-trust'), { timeout: 10_000 })
    .toBe('good');
  await sleep(1500);
  await endRun(stage);
  const file = await stage.runFile(); // the only one: the same run
  const gaps: string[] = [];
  const beside: string[] = [];
  scanRun(file, {
    event: (e) => {
      if (e.e === 'gap') gaps.push(e.reason);
      if (e.e === 'beside') beside.push(e.what);
    },
  });
  expect(gaps).toContain('port');
  expect(beside).toEqual(['greeted', 'port', 'back']);
  // Nothing else is lost: what was sent before and after stands in the record whole.
  const sent = stage.sent();
  const capture = Buffer.from(await captureOf(file));
  expect(sent.includes(capture.subarray(0, 4000))).toBe(true);
  expect(sent.includes(capture.subarray(-2000))).toBe(true);
  expect(stage.faults).toEqual([]);
});

it('a device that resets and a cable that adds garbage are seen, marked and survived', async (context) => {
  needSerial(context);
  stage = await setStage();
  const { page, device } = stage;
  await enterPacker(page, PACKER, 2.0);
  await startRun(stage, PACKER);
  await device.op('ramp 100000 1');
  await sleep(2000);
  for (let i = 0; i < 5; i++) {
    await device.op('garbage 97');
    await sleep(120);
  }
  await expect.poll(() => shownBar(page), { timeout: 10_000 }).toBeCloseTo(1.0, 1);
  await device.op('reset watchdog');
  // A busy machine may keep the device away for over a second: then the lost reading says so, and the restart is
  // its child and stays quiet (docs/alarms.md). The record names the restart either way, below.
  await page
    .locator('[data-testid="alarm-device-reset"], [data-testid="alarm-pressure-lost"]')
    .first()
    .waitFor({ timeout: 8000 });
  await expect
    .poll(() => page.getByTestId('pressure').getAttribute('data-trust'), { timeout: 10_000 })
    .toBe('good');
  expect(await shownBar(page)).toBeCloseTo(1.0, 1);
  await sleep(1500);
  await endRun(stage);
  const file = await stage.runFile();
  const marks: string[] = [];
  let stray = 0;
  scanRun(file, {
    entry: (entry) => {
      if (entry.l === 'stray') stray += entry.bytes.length;
    },
    event: (e) => {
      if (e.e === 'gap') marks.push(`gap ${e.reason}`);
      if (e.e === 'device') marks.push(`device ${e.what}`);
    },
  });
  expect(stray).toBeGreaterThanOrEqual(5 * 97);
  expect(marks).toContain('device reset');
  expect(marks).toContain('gap reset');
  const capture = Buffer.from(await captureOf(file));
  expect(stage.sent().indexOf(capture)).toBeGreaterThanOrEqual(0);
  expect(stage.faults).toEqual([]);
});

it('finds a device at 115200 baud by trying, says what it does, and takes that speed at once the next time', async (context) => {
  needSerial(context);
  stage = await setStage(['--speed', '115200']);
  const { page, device } = stage;
  await page.goto(`${stage.origin}/#/live`);
  expect(await device.op('plug')).toMatch(/^ok/);
  await expect.poll(() => page.evaluate(async () => (await navigator.serial.getPorts()).length)).toBe(1);
  await page.getByTestId('connect-device').click();
  await page.getByTestId('stop-trying').waitFor();
  expect(await page.getByTestId('link-state').textContent()).toContain('500000');
  await page.getByTestId('gauge-only').waitFor({ timeout: 15_000 });
  await openPanel(page, 'run');
  await page.getByTestId('disconnect').click();
  await page.getByTestId('connect-device').click();
  // The first speed alone takes four seconds where it is the wrong one.
  await page.getByTestId('gauge-only').waitFor({ timeout: 3000 });

  // On the bench: open to the air, then its own alarm by hand. It trips by itself, is heard, and is let go.
  await page.goto(`${stage.origin}/#/bench`);
  const point = (name: string) => page.getByTestId(`point-${name}`);
  // A zero needs a second of readings before it.
  const zeroed = async () => {
    await page.getByTestId('bench-zero').click();
    return point('zero').locator('.bench-verdict-good').count();
  };
  await expect.poll(zeroed, { interval: 300, timeout: 10_000 }).toBe(1);
  await page.getByTestId('bench-arm').click();
  await expect.poll(async () => device.op('state')).toContain('guard=armed');
  await device.op('ramp 33000 0.5');
  await page.getByTestId('bench-heard').click();
  await point('guard').locator('.bench-verdict-good').waitFor();
  await device.op('ramp 0 0.3');
  await page.getByTestId('bench-keep').click();
  await page.getByTestId('bench-record').waitFor();
  expect(await page.getByTestId('bench-record').textContent()).toContain('115200');
  expect(stage.faults).toEqual([]);
});

it('a device at a speed that nobody tries is told by the bytes that come', async (context) => {
  needSerial(context);
  stage = await setStage(['--speed', '19200']);
  const { page, device } = stage;
  await page.goto(`${stage.origin}/#/live`);
  expect(await device.op('plug')).toMatch(/^ok/);
  await expect.poll(() => page.evaluate(async () => (await navigator.serial.getPorts()).length)).toBe(1);
  await page.getByTestId('connect-device').click();
  await page.getByTestId('stop-trying').waitFor();
  await device.op('garbage 300');
  const told = page.getByTestId('link-error');
  await expect
    .poll(() => told.textContent().catch(() => ''), { timeout: 30_000 })
    .toContain(LINK_ERROR.speed.title);
  const line = (await page.getByTestId('stray-line').textContent()) ?? '';
  expect(line.length).toBeLessThanOrEqual(LINE_SHOWN);
  // Given up in the middle, nothing is told and another port may be chosen.
  await page.getByTestId('connect-device').click();
  await page.getByTestId('stop-trying').click();
  await page.locator('[data-testid=connect-device]:enabled').waitFor();
  const notices = await page.locator('.notice-bar').allTextContents();
  expect(notices.join()).not.toContain(LINK_ERROR['port-gone'].title);
});

it('another device in mid-run is told, taken by a press, read by its own scale and asked for its own zero', async (context) => {
  needSerial(context);
  stage = await setStage();
  const { page, device } = stage;
  await enterPacker(page, PACKER, 2.0);
  await startRun(stage, PACKER);
  // Behind the same cable: the browser knows the converter, the hello tells the device.
  const second = startDevice(['--serial', USB.serial, '--id', 'sb-host-2', '--baud', '0']);
  try {
    await device.op('unplug');
    expect(await second.op('plug')).toMatch(/^ok/);
    const take = page.getByTestId('take-device');
    await take.waitFor({ timeout: 20_000 });
    expect(await take.textContent()).toContain('sb-host-2');
    expect(await page.getByTestId('link-error').textContent()).toContain(LINK_ERROR['other-device'].title);
    await second.op('true 30000 12000 14000 18000');
    await hold(take);
    await expect.poll(() => shownBar(page), { timeout: 15_000 }).toBeCloseTo(0.3, 1);
    expect(await take.isVisible()).toBe(false);
    await page.getByTestId('standing-not-zeroed').waitFor();
    await expect.poll(async () => (await second.state()).guard, { timeout: 10_000 }).toBe('armed');
    await second.op('true 0 12000 14000 18000');
    await expect.poll(() => shownBar(page), { timeout: 10_000 }).toBeCloseTo(0, 1);
    // A zero is taken of the readings of a whole second.
    await sleep(1500);
    await page.getByTestId('zero').click();
    await page.getByTestId('stage').waitFor();
  } finally {
    await second.quit();
  }
});

it('firmware for an 8-bit controller, in a simulator: filled past rated, told, tripped by itself, recorded byte by byte', async (context) => {
  needSerial(context);
  if (!canBuild('avr')) notRun(context, NO_CROSS_COMPILER);
  if (!hasSimavr()) notRun(context, NO_SIMAVR);
  stage = await setStage([], startBoard);
  const { page, device } = stage;
  await enterPacker(page, PACKER, 2.0);
  await startRun(stage, PACKER);
  if ((await page.getByTestId('stage-key').getAttribute('data-to')) === 'seat') await advance(stage, 'seat');
  await advance(stage, 'inflate');
  await device.op('ramp 240000 3');
  // Warned before rated by the first two; on a busy machine the third may already stand in their place.
  await page
    .locator(['rising', 'ceiling', 'over-rated'].map((code) => `[data-testid="alarm-${code}"]`).join(', '))
    .first()
    .waitFor();
  await expect.poll(async () => (await device.state()).sounder, { timeout: 8000 }).toBe('1');
  await device.op('true 0');
  await endRun(stage);
  const file = await stage.runFile();
  const events: string[] = [];
  scanRun(file, {
    entry: (entry) => entry.l === 'frame' && entry.frame.t === 'E' && events.push(entry.frame.code),
  });
  expect(events).toContain('trip');
  const capture = Buffer.from(await captureOf(file));
  expect(capture.length).toBeGreaterThan(5000);
  expect(stage.sent().indexOf(capture)).toBeGreaterThanOrEqual(0);
  expect(stage.faults).toEqual([]);
});
