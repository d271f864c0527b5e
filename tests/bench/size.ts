import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Row } from './measure.ts';

const GOAL_KB = 120;

/** Script sizes of the build, gzipped: what the first page and its engine load, and all there is. */
export function benchSize(dist = 'dist'): Row[] {
  const assets = path.join(dist, 'assets');
  const gz = (file: string) => gzipSync(readFileSync(file), { level: 9 }).length / 1000;
  const scripts = readdirSync(assets).filter((f) => f.endsWith('.js'));
  const html = readFileSync(path.join(dist, 'index.html'), 'utf8');
  const first = scripts.filter((f) => html.includes(f));
  const engine = scripts.filter((f) => f.startsWith('engine.worker'));
  const sum = (files: readonly string[]) => files.reduce((n, f) => n + gz(path.join(assets, f)), 0);
  const all = sum(scripts);
  const start = sum(first);
  return [
    {
      what: 'JS for the first page, gz',
      value: `${start.toFixed(1)} kB`,
      beside: `goal ≤ ${GOAL_KB} kB; engine worker ${sum(engine).toFixed(1)} kB; every script of the app ${all.toFixed(1)} kB`,
      met: start <= GOAL_KB,
    },
  ];
}
