import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { NO_COMPILER } from '../../firmware-protocol/build.mjs';
import { compiler } from '../unit/not-run.ts';
import { hookWorker } from './worker-hook.ts';

/** Not dist: a test run beside this one has its own. */
const FOLDER = '.cache/faults-dist';

/** Ends the command where the emulated device cannot be plugged in or made. */
export function needRealStack(command: string): void {
  const why =
    process.platform !== 'linux' || process.getuid?.() !== 0
      ? 'the plug of the emulated device needs Linux and root'
      : compiler() === null
        ? NO_COMPILER
        : null;
  if (why === null) return;
  console.error(`${command}: not run: ${why}`);
  process.exit(2);
}

/** Builds the app, with the hook before its worker. @returns its folder */
export function buildApp(command: string, asItIs: boolean): string {
  if (!asItIs || !existsSync(`${FOLDER}/index.html`)) {
    const vite = ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'];
    const made = spawnSync(process.execPath, [...vite, '--outDir', `../${FOLDER}`, '--emptyOutDir'], {
      stdio: 'inherit',
    });
    if (made.status !== 0) {
      console.error(`${command}: the app does not build`);
      process.exit(2);
    }
  }
  hookWorker(FOLDER);
  return FOLDER;
}
