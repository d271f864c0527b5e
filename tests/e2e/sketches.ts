import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { type HostDevice, startProgram } from '../../firmware-protocol/host/run.ts';
import { SECOND_USB, USB } from './app.ts';

// Boards that print plain lines, in Python, each on a pty of its own (line-sketches.py).

export const hasPython = (): boolean => spawnSync('python3', ['--version']).status === 0;

export function startSketches(): Pick<HostDevice, 'op' | 'quit'> {
  const work = mkdtempSync(path.join(tmpdir(), 'steadybar-lines-'));
  const { op, quit } = startProgram('python3', [
    path.join(import.meta.dirname, 'line-sketches.py'),
    ...['--serial', USB.serial],
    ...['--second', SECOND_USB.serial],
    ...['--tap', path.join(work, 'sent.bin')],
  ]);
  return {
    op,
    async quit() {
      await quit();
      rmSync(work, { recursive: true, force: true });
    },
  };
}

/** Enters a column map for the second of them, which prints a temperature by its name: no row of it is a pressure. */
export async function enterThermometer(page: Page, origin: string): Promise<void> {
  await page.goto(`${origin}/#/columns/new`);
  await page.getByTestId('columns-name').fill('Thermometer');
  await page.getByTestId('columns-deviceId').fill('WARM-1');
  await page.getByTestId('columns-channels.0.quantity').selectOption('temperature');
  await page.getByTestId('columns-channels.0.place').selectOption('sleeve');
  await page.getByTestId('columns-channels.0.key').fill('t');
  await page.getByTestId('columns-channels.0.column').fill('');
  await page.getByTestId('columns-cells').fill('');
  await page.getByTestId('map-no-pressure').waitFor();
  await page.getByTestId('save-document').click();
  await page.waitForURL((url) => !url.hash.endsWith('/new'));
}
