import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Row } from './measure.ts';

const GOAL_KB = 90;

/** What the build tells of a chunk: its file, and the chunks that it cannot run without. */
interface Chunk {
  readonly file: string;
  readonly name?: string;
  readonly imports?: readonly string[];
}

/** Files that these chunks need before they run, themselves included. */
function closure(chunks: Readonly<Record<string, Chunk>>, from: readonly string[]): Set<string> {
  const seen = new Set<string>();
  const open = [...from];
  for (let key = open.pop(); key !== undefined; key = open.pop()) {
    const chunk = chunks[key];
    if (chunk === undefined) throw new Error(`the build has no chunk for ${key}`);
    if (seen.has(chunk.file)) continue;
    seen.add(chunk.file);
    open.push(...(chunk.imports ?? []));
  }
  return seen;
}

/**
 * Script sizes of the build, gzipped. The first page is all that is fetched before it can be used: the entry, its words
 * and the start behind them with every chunk that these import, and whatever index.html names or holds besides. What the page asks for behind that (the
 * validators that its lists wait for, the live page) and the engine's worker are told beside it.
 */
export function benchSize(dist = 'dist'): Row[] {
  const chunks: Record<string, Chunk> = JSON.parse(
    readFileSync(path.join(dist, '.vite/manifest.json'), 'utf8'),
  );
  // A chunk that several pages share has a key of its own making; its name is that of the file.
  const named = (name: string) => Object.keys(chunks).find((key) => chunks[key]?.name === name) ?? name;
  const gz = (bytes: Uint8Array | string) => gzipSync(bytes, { level: 9 }).length / 1000;
  const sum = (files: Iterable<string>) =>
    [...files].reduce((n, f) => n + gz(readFileSync(path.join(dist, f))), 0);
  const html = readFileSync(path.join(dist, 'index.html'), 'utf8');
  const scripts = readdirSync(path.join(dist, 'assets'))
    .filter((f) => f.endsWith('.js'))
    .map((f) => `assets/${f}`);
  const first = closure(chunks, ['index.html', 'words/en/start.ts', 'app/start.tsx']);
  for (const f of scripts) if (html.includes(f)) first.add(f);
  const inline = [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((m) => m[1]!).join('\n');
  const start = sum(first) + (inline === '' ? 0 : gz(inline));
  const beyond = (keys: readonly string[], had: ReadonlySet<string>) =>
    new Set([...closure(chunks, keys)].filter((f) => !had.has(f)));
  const lists = beyond(['documents', 'sensor-runs'].map(named), first);
  const live = beyond([named('Live'), 'words/en/watch.ts'], new Set([...first, ...lists]));
  const engine = scripts.filter((f) => /^assets\/engine[.-]/.test(f));
  return [
    {
      what: 'JS for the first page, gz',
      value: `${start.toFixed(1)} kB`,
      beside: `goal ≤ ${GOAL_KB} kB; behind it for its lists ${sum(lists).toFixed(1)}, the live page ${sum(live).toFixed(1)}; engine worker ${sum(engine).toFixed(1)}; every script of the app ${sum(scripts).toFixed(1)} kB`,
      met: start <= GOAL_KB,
    },
  ];
}
