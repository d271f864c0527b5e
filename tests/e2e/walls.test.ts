import { existsSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { notRun } from '../unit/not-run.ts';
import { chromiumPath, faults, open, profile, serve } from './app.ts';

// What the built app's policy and its server's headers let in and out, tried in the page itself (W3C Content Security
// Policy 3, Trusted Types, Permissions Policy).

let server: Awaited<ReturnType<typeof serve>>;
let room: ReturnType<typeof profile>;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  if (!existsSync(chromiumPath())) return;
  server = await serve();
  room = profile(server.origin);
  context = await open(room.dir, undefined, 'allow');
  page = await context.newPage();
  await page.goto(`${server.origin}/`);
  await page.getByTestId('start-live').waitFor();
});
afterAll(async () => {
  await context?.close();
  room?.dispose();
  await server?.close();
});

it('the page, its workers and its manifest come with the headers', async (test) => {
  if (!existsSync(chromiumPath())) notRun(test, 'no Chromium');
  const files = await page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .map((e) => e.name)
      .filter((name) => /worker-|\.webmanifest/.test(name)),
  );
  expect(files.some((name) => name.includes('engine.worker'))).toBe(true);
  for (const address of [`${server.origin}/`, ...files]) {
    const { headers } = await fetch(address).then((r) => ({ headers: Object.fromEntries(r.headers) }));
    expect(headers['content-security-policy'], address).toMatch(
      /^default-src 'none'; .*; frame-ancestors 'none'$/,
    );
    expect(headers['x-content-type-options'], address).toBe('nosniff');
    expect(headers['permissions-policy'], address).toMatch(/^serial=\(self\), /);
  }
});

it('nothing that did not come with the app runs, and nothing goes out', async (test) => {
  if (!existsSync(chromiumPath())) notRun(test, 'no Chromium');
  const tried = await page.evaluate(async () => {
    const broken: string[] = [];
    document.addEventListener('securitypolicyviolation', (e) => broken.push(e.effectiveDirective));
    // What a driver runs at once is let through by the browser; from here on it is the page's own doing.
    await new Promise((later) => setTimeout(later, 10));
    const of = async (work: () => unknown): Promise<string> => {
      try {
        return `let through: ${await work()}`;
      } catch (error) {
        return (error as Error).name;
      }
    };
    const seen = globalThis as { ran?: boolean };
    const script = document.createElement('script');
    const inline = await of(() => {
      // The policy for strings has no rule for a script's text: the browser refuses it.
      script.textContent = 'globalThis.ran = true';
      document.head.append(script);
      return seen.ran === true;
    });
    const out = {
      inline: seen.ran === true ? 'ran' : inline.replace('let through: false', 'did not run'),
      eval: await of(() => new Function('return 1')()),
      elsewhere: await of(() => fetch('http://127.0.0.1:9/x')),
      markup: await of(() => {
        document.createElement('div').innerHTML = '<img src=x onerror="globalThis.ran = true">';
        return 'made';
      }),
      plain: await of(() => {
        const e = document.createElement('div');
        e.innerHTML = '<b>x</b>';
        return e.childElementCount;
      }),
      worker: await of(() => new Worker('data:text/javascript,1')),
      picture: await of(
        () =>
          new Promise((yes, no) => {
            const image = new Image();
            image.onload = yes;
            image.onerror = () => no(new TypeError('refused'));
            image.src = 'http://127.0.0.1:9/x.png';
          }),
      ),
      ran: seen.ran === true,
    };
    await new Promise((later) => setTimeout(later, 100));
    return { ...out, broken: [...new Set(broken)].sort() };
  });
  expect(tried.ran).toBe(false);
  expect(tried.eval).toBe('EvalError');
  expect(tried.elsewhere).toBe('TypeError');
  expect(tried.markup).toBe('TypeError');
  expect(tried.plain).toBe('let through: 1');
  expect(tried.worker).toBe('TypeError');
  expect(tried.picture).toBe('TypeError');
  expect(tried.broken).toEqual(
    expect.arrayContaining(['connect-src', 'img-src', 'require-trusted-types-for']),
  );
});

it('no other page can frame it, and it cannot ask for what it does not need', async (test) => {
  if (!existsSync(chromiumPath())) notRun(test, 'no Chromium');
  const other = await context.newPage();
  // Another origin on loopback: the same server by its number.
  await other.route('http://frames.invalid/', (route) =>
    route.fulfill({ contentType: 'text/html', body: `<iframe src="${server.origin}/"></iframe>` }),
  );
  await other.goto('http://frames.invalid/');
  await expect.poll(() => other.frames().length).toBe(2);
  await expect.poll(() => other.frames()[1]!.url()).toMatch(/^chrome-error:/);
  await other.close();
  const powers = await page.evaluate(() => {
    const { featurePolicy } = document as unknown as {
      featurePolicy: { allowsFeature(name: string): boolean };
    };
    return ['serial', 'camera', 'microphone', 'geolocation', 'usb', 'bluetooth'].filter((name) =>
      featurePolicy.allowsFeature(name),
    );
  });
  expect(powers).toEqual(['serial']);
});

it('practice, verifying and the certificate go on inside the walls', async (test) => {
  if (!existsSync(chromiumPath())) notRun(test, 'no Chromium');
  const inside = await context.newPage();
  const seen = faults(inside);
  await inside.goto(`${server.origin}/`);
  await inside.getByTestId('practice').click();
  await inside.getByTestId('zone-pressure').waitFor();
  await expect
    .poll(() => inside.getByTestId('zone-pressure').textContent(), { timeout: 20_000 })
    .toMatch(/\d\.\d\d/);
  for (const hash of ['verify', 'archive', 'settings', 'about', 'office', 'backup']) {
    await inside.goto(`${server.origin}/#/${hash}`);
    await inside.locator('main h1').first().waitFor();
  }
  expect(seen).toEqual([]);
  await inside.close();
});
