import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { type PreviewServer, preview } from 'vite';

/** Flags for a quiet headless Chromium that asks nothing of the network; no sandbox since root has none. */
export const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const USB = { vendorId: 0x1209, productId: 0x0001, serial: 'EMU0001' };

/** Of a second adapter, where a test plugs one. */
export const SECOND_USB = { vendorId: 0x1209, productId: 0x0002, serial: 'EMU0002' };

export const chromiumPath = () => process.env.CHROMIUM_PATH ?? '/usr/bin/chromium';

/** Serves the built app on loopback, at the app's own fixed port and from its own folder unless told otherwise. */
export async function serve(
  port = 4680,
  folder = 'dist',
): Promise<{ origin: string; close(): Promise<void> }> {
  const server: PreviewServer = await preview({
    preview: { host: 'localhost', port, strictPort: true },
    build: { outDir: path.resolve(folder) },
    logLevel: 'error',
  });
  return { origin: `http://localhost:${port}`, close: () => server.close() };
}

/** A browser profile on disk. Deleted by dispose(), kept over a killed browser. */
export function profile(origin: string): { dir: string; dispose(): void } {
  const dir = mkdtempSync(path.join(tmpdir(), 'steadybar-profile-'));
  mkdirSync(path.join(dir, 'Default'));
  // What a click in the browser's own port chooser would have stored: the permission for these devices.
  const chosen = [USB, SECOND_USB].map((usb) => ({
    name: 'Emulated board',
    serial_number: usb.serial,
    vendor_id: usb.vendorId,
    product_id: usb.productId,
  }));
  writeFileSync(
    path.join(dir, 'Default', 'Preferences'),
    JSON.stringify({
      profile: {
        content_settings: {
          exceptions: {
            serial_chooser_data: { [`${origin},*`]: { setting: { 'chosen-objects': chosen } } },
          },
        },
      },
    }),
  );
  return {
    dir,
    dispose: () => rmSync(dir, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 }),
  };
}

/**
 * Opens a persistent context (an incognito-like one keeps OPFS in memory only). In headless Chromium the real
 * requestPort() stays pending, so the chooser alone is replaced: it returns the granted port that the browser
 * itself lists. Every port object is the browser's own.
 * The service worker fetches the whole app into each fresh profile, which costs more than many a test: it is let in
 * where a test looks at it.
 */
export async function open(
  dir: string,
  size = { width: 1280, height: 800 },
  serviceWorkers: 'allow' | 'block' = 'block',
): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(dir, {
    executablePath: chromiumPath(),
    headless: true,
    args: FLAGS,
    viewport: size,
    serviceWorkers,
  });
  context.setDefaultTimeout(15_000);
  await context.addInitScript(() => {
    if (!('serial' in navigator)) return;
    Serial.prototype.requestPort = async function (this: Serial) {
      const [port] = await this.getPorts();
      if (!port)
        throw new DOMException(
          "Failed to execute 'requestPort' on 'Serial': No port selected by the user.",
          'NotFoundError',
        );
      return port;
    };
  });
  return context;
}

/** Errors that a page threw or logged, and what it asked of others than its server: a test ends by looking that there are none. */
export function faults(page: Page): string[] {
  const seen: string[] = [];
  page.on('request', (r) => {
    const { protocol, hostname } = new URL(r.url());
    if (/^(?:https?|wss?):$/.test(protocol) && hostname !== 'localhost') seen.push(`request: ${r.url()}`);
  });
  page.on('pageerror', (e) => seen.push(`${e.name}: ${e.message}`));
  page.on('console', (m) => {
    if (m.type() === 'error') seen.push(m.text());
  });
  return seen;
}

/** Waits until a page says yes. The browser driver's own waitForFunction takes a promise itself for a yes. */
export async function until(page: Page, says: () => Promise<boolean>, timeoutMs = 30_000): Promise<void> {
  for (let waited = 0; !(await page.evaluate(says)); waited += 50) {
    if (waited > timeoutMs) throw new Error(`not so after ${timeoutMs} ms: ${says}`);
    await page.waitForTimeout(50);
  }
}
