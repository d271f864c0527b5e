import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'vite';

export interface WorkerPage {
  readonly origin: string;
  close(): void;
}

/** One script that holds all that `entry` imports. */
export async function bundle(entry: string): Promise<string> {
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-bundle-'));
  try {
    await build({
      configFile: false,
      logLevel: 'error',
      build: {
        outDir: folder,
        emptyOutDir: false,
        target: 'es2022',
        lib: { entry, formats: ['es'], fileName: () => 'script.js' },
        // Words come by their own import; there is one script to serve.
        rolldownOptions: { output: { codeSplitting: false } },
      },
    });
    return readFileSync(path.join(folder, 'script.js'), 'utf8');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Bundles a worker and serves it as /worker.js beside an empty page, on loopback. */
export async function serveWorker(entry: string): Promise<WorkerPage> {
  const script = await bundle(entry);
  const server = createServer((request, response) => {
    const isScript = request.url?.startsWith('/worker.js') ?? false;
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(isScript ? script : '<!doctype html><title>worker</title>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close: () => server.close(),
  };
}
