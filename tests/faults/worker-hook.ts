import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/**
 * What no browser tool can do to a worker from outside, done from within, before the engine's own first line: the wall
 * clock is set, writing is refused, the worker hangs. The engine's code behind it is the built one.
 */
const HOOK = `;(() => {
  const now = Date.now;
  let offMs = 0;
  let refusal = null;
  Date.now = () => now() + offMs;
  const { write } = FileSystemSyncAccessHandle.prototype;
  FileSystemSyncAccessHandle.prototype.write = function (...args) {
    if (refusal !== null) throw new DOMException('refused', refusal);
    return write.apply(this, args);
  };
  new BroadcastChannel('faults').onmessage = ({ data }) => {
    if ('clockMs' in data) offMs = data.clockMs;
    if ('refusal' in data) refusal = data.refusal;
    if ('hangMs' in data) for (const end = performance.now() + data.hangMs; performance.now() < end; );
  };
})();
`;

/** Puts the hook before the engine's worker in a folder with the built app. */
export function hookWorker(folder: string): void {
  const assets = path.join(folder, 'assets');
  const name = readdirSync(assets).find((f) => /^engine\.worker-.*\.js$/.test(f));
  if (name === undefined) throw new Error(`no engine worker in ${assets}`);
  const file = path.join(assets, name);
  const text = readFileSync(file, 'utf8');
  if (!text.startsWith(HOOK)) writeFileSync(file, HOOK + text);
}
