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

/** Bundles a worker and serves it as /worker.js beside an empty page, on loopback. */
export async function serveWorker(entry: string): Promise<WorkerPage> {
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-worker-'));
  await build({
    configFile: false,
    logLevel: 'error',
    build: {
      outDir: folder,
      emptyOutDir: false,
      target: 'es2022',
      lib: { entry, formats: ['es'], fileName: () => 'worker.js' },
    },
  });
  const script = readFileSync(path.join(folder, 'worker.js'));
  const server = createServer((request, response) => {
    const isScript = request.url?.startsWith('/worker.js') ?? false;
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(isScript ? script : '<!doctype html><title>worker</title>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close() {
      server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
