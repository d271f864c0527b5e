import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import path from 'node:path';
import { gzipSync } from 'node:zlib';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
};

/** Serves a folder on loopback as a web host does: text zipped, files with a hash in their name kept for long. */
export async function serveZipped(folder: string): Promise<{ origin: string; close(): Promise<void> }> {
  const root = path.resolve(folder);
  const server = createServer((request, response) => {
    const asked = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const file = path.join(root, asked.endsWith('/') ? `${asked}index.html` : asked);
    const type = TYPES[path.extname(file)];
    if (!file.startsWith(root) || type === undefined || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    const zipped = !file.endsWith('.woff2');
    response.writeHead(200, {
      'content-type': type,
      'cache-control': asked.includes('/assets/') ? 'max-age=31536000, immutable' : 'no-cache',
      ...(zipped ? { 'content-encoding': 'gzip' } : {}),
    });
    const bytes = readFileSync(file);
    response.end(zipped ? gzipSync(bytes) : bytes);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  if (typeof address !== 'object' || address === null) throw new Error('no port for the server');
  return {
    // localhost is a secure context, as the app needs.
    origin: `http://localhost:${address.port}`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}
