import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { startDevice } from '../../firmware-protocol/host/run.ts';
import { serve } from '../e2e/app.ts';
import { compiler, notRun } from '../unit/not-run.ts';
import { byId, pause } from './hand.ts';
import { openMarionette } from './marionette.ts';

// Firefox's own Web Serial with the C device on a pseudo-terminal: its enumeration is fed by a libudev of the test (udev.c), its
// own port chooser is pressed.

const PORT = 4684;
const REMOTE_PORT = 2830 + (process.pid % 100);

const closers: (() => Promise<unknown> | unknown)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

it('Firefox: its own chooser lists the device, the bench reads its lines, none refused', async (context) => {
  const firefox = process.env.FIREFOX_PATH;
  if (!firefox) notRun(context, 'Firefox is not installed');
  if (process.platform !== 'linux') notRun(context, 'a libudev is Linux’s');
  const cc = compiler();
  if (cc === null) notRun(context, 'no C compiler');
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-firefox-'));
  closers.push(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 }));
  const shim = path.join(folder, 'libudev.so.1');
  const source = path.join(import.meta.dirname, 'udev.c');
  const made = spawnSync(cc, ['-shared', '-fPIC', '-Wl,-soname,libudev.so.1', '-o', shim, source], {
    encoding: 'utf8',
  });
  expect([made.status, made.stderr]).toEqual([0, '']);
  writeFileSync(
    path.join(folder, 'user.js'),
    // Without the second question, which asks for an add-on that grants a site the port.
    [
      'user_pref("dom.webserial.enabled", true);',
      'user_pref("dom.webserial.gated", false);',
      `user_pref("marionette.port", ${REMOTE_PORT});`,
      'user_pref("app.update.enabled", false);',
      'user_pref("datareporting.policy.dataSubmissionEnabled", false);',
    ].join('\n'),
  );
  const server = await serve(PORT);
  closers.push(() => server.close());
  const device = startDevice();
  closers.push(() => device.quit());
  const pty = (await device.op('open')).split(' ')[1] ?? '';
  expect(pty).toMatch(/^\/dev\//);
  const child = spawn(
    firefox,
    ['--headless', '--marionette', '--remote-allow-system-access', '--no-remote', '--profile', folder],
    {
      stdio: 'ignore',
      env: { ...process.env, HOME: folder, LD_LIBRARY_PATH: folder, LD_PRELOAD: shim, STEADYBAR_PTY: pty },
    },
  );
  closers.push(async () => {
    child.kill();
    await new Promise<void>((resolve) => {
      if (child.exitCode !== null || child.signalCode !== null) resolve();
      else child.once('exit', () => resolve());
    });
  });
  const browser = await openMarionette(REMOTE_PORT);
  closers.push(browser.close);
  const text = async (id: string) =>
    String(await browser.evaluate(`return document.querySelector('${byId(id)}')?.textContent ?? ''`));
  const until = async (what: string, says: () => Promise<boolean>) => {
    for (let waited = 0; !(await says()); waited += 200) {
      if (waited > 30_000) throw new Error(`not so: ${what}; ${await text('bench-link')}`);
      await pause(200);
    }
  };

  await browser.goto(`${server.origin}/#/bench`);
  await until('the bench stands', async () => (await text('bench-connect')) !== '');
  await browser.click(byId('bench-connect'));
  // The chooser is Firefox's own: it names the port by what the enumeration said, and is answered by its own button.
  let named = '';
  await until('the chooser is shown', async () => {
    named = String(
      await browser.evaluate(
        `const shown = [...document.querySelectorAll('popupnotification')].find((n) => !n.hidden && n.id.startsWith('webSerial'));
         shown?.button?.click();
         return shown?.textContent ?? '';`,
        'chrome',
      ),
    );
    return named !== '';
  });
  expect(named).toContain('Emulated board');
  await until('it says hello', async () => (await text('bench-device')).startsWith('sb-host-1'));
  await until('its lines are read', async () => /0 of [\d\s]+ lines refused/.test(await text('point-lines')));
  expect(await device.state()).toMatchObject({ heard: '1', rate: expect.not.stringMatching(/^0$/) });
}, 90_000);
