import { existsSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { notRun } from '../unit/not-run.ts';
import { chromiumPath, open, profile, serve } from './app.ts';

// Bytes of imports that died, in the built app: the start removes them, but never those of an import that runs in
// another tab, which holds the browser's own lock on its file.

const DEAD = `import-${'0a'.repeat(32)}.zip`;
const RUNNING = `import-${'0b'.repeat(32)}.zip`;

const imports = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('runs');
    const names: string[] = [];
    for await (const { name } of folder.values()) if (name.startsWith('import-')) names.push(name);
    return names.sort();
  });

const write = (page: Page, names: readonly string[]): Promise<void> =>
  page.evaluate(async (list) => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('runs', { create: true });
    for (const name of list) {
      const writer = await (await folder.getFileHandle(name, { create: true })).createWritable();
      await writer.write(new Uint8Array(1000));
      await writer.close();
    }
  }, names);

async function start(page: Page, origin: string): Promise<void> {
  await page.goto(`${origin}/`);
  await page.reload();
  await page.getByTestId('start-live').waitFor();
}

it('a killed import is swept at the start, a running one of another tab is not', async (context) => {
  if (!existsSync(chromiumPath())) notRun(context, 'no Chromium');
  const server = await serve(4689);
  const { dir, dispose } = profile(server.origin);
  const browser = await open(dir);
  try {
    const other = await browser.newPage();
    await start(other, server.origin);
    // The lock first, as an import does: the start of this tab itself may still be sweeping.
    await other.evaluate(
      (name) =>
        new Promise<void>((held) => {
          void navigator.locks.request(`steadybar-${name.replace('.zip', '')}`, () => {
            held();
            return new Promise(() => undefined);
          });
        }),
      RUNNING,
    );
    await write(other, [DEAD, RUNNING]);
    const page = await browser.newPage();
    await start(page, server.origin);
    await expect.poll(() => imports(page), { timeout: 10_000 }).toEqual([RUNNING]);
    // That tab dies with its import: now these bytes are nobody's.
    await other.close();
    await start(page, server.origin);
    await expect.poll(() => imports(page), { timeout: 10_000 }).toEqual([]);
  } finally {
    await browser.close();
    await server.close();
    dispose();
  }
});
