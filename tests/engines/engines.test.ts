import { type ChildProcess, spawn } from 'node:child_process';
import { afterEach, beforeAll, expect, it } from 'vitest';
import { serve } from '../e2e/app.ts';
import { notRun } from '../unit/not-run.ts';
import { openFirefox } from './firefox.ts';
import type { Hand } from './hand.ts';
import { sealedFile } from './record.ts';
import { practise, printable, verify } from './walks.ts';
import { openWebKit } from './webkit.ts';

// The built app in other engines than Chromium's: whole in Firefox, which has Web Serial; looked into, verified and
// printed in WebKit, which has none.

const PORT = 4683;

let record: Awaited<ReturnType<typeof sealedFile>>;
let server: Awaited<ReturnType<typeof serve>>;
const closers: (() => Promise<unknown> | unknown)[] = [];

beforeAll(async () => {
  record = await sealedFile();
  server = await serve(PORT);
  return async () => {
    await server.close();
    record.dispose();
  };
});
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

async function opened(opening: Promise<Hand>): Promise<Hand> {
  const hand = await opening;
  closers.push(() => hand.close());
  return hand;
}

it('Firefox: practice to a reading and a stage, its review; a record is verified, opened and certified', async (context) => {
  const firefox = process.env.FIREFOX_PATH;
  if (!firefox) notRun(context, 'Firefox is not installed');
  const hand = await opened(openFirefox(firefox));
  // One way in: a page that is left while its parts come says so as a fault.
  await practise(hand, server.origin);
  expect(await hand.evaluate(`'serial' in navigator`)).toBe(true);
  await verify(hand, server.origin, record.file);
  await printable(hand);
  expect(hand.faults()).toEqual([]);
});

/** A screen for WebKit's window and its WebDriver server, on ports of their own. */
async function webKitServer(): Promise<string> {
  const display = `:${90 + (process.pid % 100)}`;
  const xvfb = spawn('Xvfb', [display, '-screen', '0', '1280x1024x24', '-nolisten', 'tcp'], {
    stdio: 'ignore',
  });
  closers.push(() => ended(xvfb));
  const port = 9400 + (process.pid % 500);
  // Under the locale C its language is 'C', which is none that Intl knows.
  const env = { ...process.env, DISPLAY: display, LANG: 'en_GB.UTF-8', LC_ALL: 'en_GB.UTF-8' };
  const driver = spawn('WebKitWebDriver', ['--host=127.0.0.1', `--port=${port}`], { stdio: 'ignore', env });
  closers.push(() => ended(driver));
  const url = `http://127.0.0.1:${port}`;
  for (let tries = 0; tries < 100; tries++) {
    const up = await fetch(`${url}/status`).then(
      (r) => r.ok,
      () => false,
    );
    if (up) return url;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error('the WebDriver server of WebKit does not answer');
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  const gone = new Promise((resolve) => child.once('exit', resolve));
  child.kill();
  await gone;
}

it('WebKit: a record is verified, opened, certified and can be printed; without a port it says so', async (context) => {
  const miniBrowser = process.env.MINIBROWSER_PATH;
  if (!miniBrowser) notRun(context, 'WebKitGTK with its WebDriver is not installed');
  const hand = await opened(openWebKit(await webKitServer(), miniBrowser));
  await hand.goto(server.origin);
  expect(await hand.evaluate(`'serial' in navigator`)).toBe(false);
  await verify(hand, server.origin, record.file);
  await printable(hand);
  await hand.goto(`${server.origin}/#/live`);
  await hand.see(['connect-rig']);
  expect(await hand.evaluate('document.body.textContent')).toContain('This browser has no serial port');
});
