// The import table of DEVELOPERS.md, enforced: which room of src/ may import which, and that the pure rooms
// touch no DOM, clock, storage or port.

import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';

const CORE = ['units', 'physics', 'estimate', 'job'];
const TABLE = {
  units: [],
  words: [
    'units',
    'job',
    'watch:types',
    'link:types',
    'sensing:types',
    'record:types',
    'record/stores:types',
  ],
  physics: ['units'],
  estimate: [],
  job: ['units'],
  sensing: ['units', 'physics', 'estimate', 'job', 'link:frames'],
  plan: ['units', 'physics', 'estimate', 'sensing', 'job'],
  link: ['job', 'link/ports:types'],
  'link/ports': ['job', 'link'],
  watch: [...CORE, 'sensing:types', 'link:frames', 'link:status'],
  record: ['units', 'job', 'sensing', 'link', 'watch:types', 'record/stores:types'],
  'record/stores': ['units', 'job', 'record'],
  rig: ['units', 'link', 'link/ports:types'],
  engine: [
    ...CORE,
    'words',
    'sensing',
    'plan',
    'link',
    'link/ports',
    'watch',
    'record',
    'record/stores',
    'rig',
  ],
  evidence: ['units', 'job', 'plan', 'words', 'sensing', 'watch:types', 'record', 'record/stores', 'engine'],
  widgets: [
    'units',
    'words',
    'engine:messages',
    'job',
    'watch:types',
    'sensing:types',
    'link:types',
    'record:types',
  ],
  screens: [
    'widgets',
    'units',
    'words',
    'engine:messages',
    'evidence:messages',
    'job',
    'plan',
    'watch:types',
    'sensing:types',
    'link:types',
    'record:types',
    'record/stores:types',
  ],
  app: '*',
  cli: '*-widgets,screens,app',
};

// Words that a pure room must not name outside a comment: the platform's clock, storage, DOM and ports.
const PLATFORM =
  /\b(document|window|navigator|localStorage|sessionStorage|indexedDB|performance|setTimeout|setInterval|requestAnimationFrame|fetch|postMessage)\s*[.(]|\bDate\.now\b|\bnew Date\(\s*\)|\bMath\.random\b|\bfrom\s+'node:/;
const PURE = [
  'units',
  'words',
  'physics',
  'estimate',
  'job',
  'sensing',
  'plan',
  'watch',
  'rig',
  'link',
  'record',
];

export function room(file) {
  const parts = file.split('/');
  if (parts[0] !== 'src') return null;
  if (parts[1] === 'link' && parts[2] === 'ports') return 'link/ports';
  if (parts[1] === 'record' && parts[2] === 'stores') return 'record/stores';
  return parts[1] ?? null;
}

const isTest = (file) => /\.test\.tsx?$/.test(file) || /\/testing\//.test(file);

/** Files of types and constants only: codes, shapes, no behaviour. Rooms marked ':types' give out these. */
const TYPE_FILES = {
  watch: ['codes.ts', 'events.ts', 'view.ts', 'inputs.ts'],
  sensing: ['reading.ts'],
  link: ['frames.ts', 'status.ts'],
  record: ['types.ts'],
  'link/ports': ['port.ts'],
  'record/stores': ['store.ts'],
};

function allowed(from, to, target, typeOnly) {
  if (from === to) return true;
  const rule = TABLE[from];
  if (rule === undefined) return false;
  if (rule === '*') return to !== null;
  if (typeof rule === 'string') return !rule.slice(2).split(',').includes(to);
  if (rule.includes(to)) return true;
  const name = path.basename(target);
  if (rule.includes(`${to}:types`)) return typeOnly || (TYPE_FILES[to] ?? []).includes(name);
  if (rule.includes(`${to}:${name.replace(/\.tsx?$/, '')}`)) return true;
  return false;
}

// Names of files: words in lower case joined by hyphens; a component carries its own name.
const NAMED = /^(?:[a-z0-9]+(?:-[a-z0-9]+)*|[A-Z][A-Za-z0-9]*)\./;

/** @returns {string[]} one line a fault */
export function checkImports(files, read) {
  const faults = [];
  for (const file of files) {
    if (!NAMED.test(path.basename(file)))
      faults.push(`${file}: a file is named in-this-way or LikeAComponent`);
    const from = room(file);
    if (from === null || isTest(file)) continue;
    const text = read(file);
    const lines = text.split('\n');
    if (!(from in TABLE) && file.split('/').length > 2)
      faults.push(`${file}: no room named ${from} in the table`);
    const pattern =
      /^\s*(import|export)\b([^'"]*?)from\s+['"]([^'"]+)['"]|^\s*import\s+['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm;
    for (const m of text.matchAll(pattern)) {
      const spec = m[3] ?? m[4] ?? m[5];
      if (!spec?.startsWith('.')) continue;
      const target = path.posix.normalize(path.posix.join(path.posix.dirname(file), spec));
      const to = room(target);
      const typeOnly = /^\s*type\b/.test(m[2] ?? '');
      const line = text.slice(0, m.index).split('\n').length;
      if (to === null || !allowed(from, to, target, typeOnly))
        faults.push(`${file}:${line}: ${from} may not import ${spec}`);
    }
    if (PURE.includes(from)) {
      lines.forEach((raw, i) => {
        const code = raw
          .replace(/\/\/.*$/, '')
          .replace(/^\s*\*.*$/, '')
          .replace(/(['"`])(?:\\.|(?!\1).)*\1/g, (s) => (s.startsWith("'node:") ? s : "''"));
        if (PLATFORM.test(code))
          faults.push(`${file}:${i + 1}: a pure room names the platform: ${raw.trim().slice(0, 80)}`);
      });
    }
  }
  return faults;
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const files = execFileSync('git', ['ls-files', '-co', '--exclude-standard', 'src'], { encoding: 'utf8' })
    .split('\n')
    .filter((f) => /\.tsx?$/.test(f));
  const faults = checkImports(files, (f) => readFileSync(f, 'utf8'));
  for (const fault of faults) console.error(fault);
  console.log(
    faults.length === 0
      ? `imports: ${files.length} files, all as the table says`
      : `imports: ${faults.length} faults`,
  );
  process.exit(faults.length === 0 ? 0 : 1);
}
