// The import table of DEVELOPERS.md, read from there and enforced: which room of src/ may import which, that every permission
// is used, that no files import each other in a circle, and that the pure rooms touch no DOM, clock, storage or port.

import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

/**
 * The table: for each room what it may import. 'job' is the whole room, 'watch:types' its types and its files of
 * shapes, 'engine:messages' that file alone.
 * @typedef {Record<string, readonly string[]>} Table
 */

const ROW = /^\|\s*`([a-z/]+)\/`\s*\|[^|]*\|([^|]*)\|\s*$/;
const CELL = /^([a-z]+(?:\/[a-z]+)?)(?:\s+\(([a-z-]+(?:, [a-z-]+)*)\))?$/;

/**
 * Reads the table in the text of DEVELOPERS.md: rows of room, what lives there, what it may import ('nothing', or a list of
 * rooms; what is given out of a room stands in brackets).
 * @returns {{ table: Table, faults: string[] }}
 */
export function readTable(markdown) {
  const table = {};
  const faults = [];
  markdown.split('\n').forEach((line, i) => {
    const row = ROW.exec(line);
    if (row === null) return;
    const [, name, cell] = row;
    table[name] = [];
    if (cell.trim() === 'nothing') return;
    // Commas inside brackets belong to their room.
    for (const part of cell.split(/,(?![^(]*\))/)) {
      const m = CELL.exec(part.trim());
      if (m === null) faults.push(`DEVELOPERS.md:${i + 1}: not a room, or room (file, …): ${part.trim()}`);
      else if (m[2] === undefined) table[name].push(m[1]);
      else table[name].push(...m[2].split(', ').map((what) => `${m[1]}:${what}`));
    }
  });
  return { table, faults };
}

// Words that a pure room must not name outside a comment: the platform's clock, storage, DOM and ports.
const PLATFORM =
  /\b(document|window|navigator|localStorage|sessionStorage|indexedDB|performance|setTimeout|setInterval|requestAnimationFrame|fetch|postMessage)\s*[.(]|\bDate\.now\b|\bnew Date\(\s*\)|\bMath\.random\b|\bfrom\s+'node:/;
const PURE = [
  'units',
  'words',
  'words/en',
  'words/said',
  'physics',
  'estimate',
  'job',
  'sensing',
  'bench',
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
  if (parts[1] === 'words' && parts[2] === 'said') return 'words/said';
  // Each language is a room like the English one, which is the measure of all.
  if (parts[1] === 'words' && /^[a-z]{2,3}$/.test(parts[2] ?? '')) return 'words/en';
  return parts[1] ?? null;
}

const isTest = (file) => /\.test\.tsx?$/.test(file) || /\/testing\//.test(file);

/** Files of types and constants only: codes, shapes, no behaviour. Rooms marked ':types' give out these. */
const TYPE_FILES = {
  job: ['codes.ts'],
  // The table of alarms is data: a row an alarm, by its code.
  watch: ['codes.ts', 'events.ts', 'view.ts', 'inputs.ts', 'table.ts'],
  sensing: ['reading.ts'],
  link: ['frames.ts', 'status.ts', 'lacks.ts'],
  record: ['types.ts'],
  practice: ['codes.ts', 'shapes.ts'],
  'link/ports': ['port.ts'],
  'record/stores': ['store.ts'],
};

/** The entry of the table by which a room may import a file, its own name within the room, or null. */
function permission(table, from, to, target, typeOnly) {
  if (from === to) return from;
  const rule = table[from] ?? [];
  if (to === null) return null;
  if (rule.includes(to)) return to;
  const name = path.basename(target);
  const one = `${to}:${name.replace(/\.tsx?$/, '')}`;
  if (rule.includes(one)) return one;
  const types = `${to}:types`;
  if (rule.includes(types) && (typeOnly || (TYPE_FILES[to] ?? []).includes(name))) return types;
  return null;
}

const IMPORT =
  /^\s*(import|export)\b([^'"]*?)from\s+['"]([^'"]+)['"]|^\s*import\s+['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm;

/** Imports of files of this tree: the target's path, whether only types are taken, line and text. */
function importsOf(file, text) {
  const out = [];
  for (const m of text.matchAll(IMPORT)) {
    const spec = m[3] ?? m[4] ?? m[5];
    if (!spec?.startsWith('.')) continue;
    out.push({
      spec,
      target: path.posix.normalize(path.posix.join(path.posix.dirname(file), spec)),
      typeOnly: /^\s*type\b/.test(m[2] ?? ''),
      line: text.slice(0, m.index).split('\n').length,
    });
  }
  return out;
}

/**
 * Permissions that no import of the files needs, and rooms given whole where their types would do: a table that allows
 * more than is used says little.
 * @returns {string[]}
 */
export function unusedPermissions(files, read, table) {
  const used = new Map();
  const note = (from, entry, shapes) =>
    used.set(`${from} ${entry}`, shapes && used.get(`${from} ${entry}`) !== false);
  for (const file of files) {
    const from = room(file);
    if (from === null || isTest(file)) continue;
    for (const { target, typeOnly } of importsOf(file, read(file))) {
      const to = room(target);
      const shapes = typeOnly || (TYPE_FILES[to] ?? []).includes(path.basename(target));
      note(from, permission(table, from, to, target, typeOnly), shapes);
    }
  }
  return Object.entries(table).flatMap(([from, rule]) =>
    rule.flatMap((entry) => {
      const shapes = used.get(`${from} ${entry}`);
      if (shapes === undefined) return [`DEVELOPERS.md: ${from} makes no use of ${entry}: strike it`];
      return shapes && !entry.includes(':')
        ? [`DEVELOPERS.md: ${from} uses types of ${entry} alone: say ${entry} (types)`]
        : [];
    }),
  );
}

/**
 * Circles of imports between files, types included: who must read one of a circle must read them all.
 * @returns {string[]} one line a circle (a strongly connected set of files, after Tarjan)
 */
export function importCircles(files, read) {
  const inside = new Set(files.filter((file) => !/\.test\.tsx?$/.test(file)));
  const edges = new Map();
  for (const file of inside)
    edges.set(
      file,
      importsOf(file, read(file))
        .map((i) => i.target)
        .filter((target) => inside.has(target)),
    );
  const index = new Map();
  const low = new Map();
  const stack = [];
  const circles = [];
  const visit = (file) => {
    index.set(file, index.size);
    low.set(file, index.get(file));
    stack.push(file);
    for (const next of edges.get(file)) {
      if (!index.has(next)) {
        visit(next);
        low.set(file, Math.min(low.get(file), low.get(next)));
      } else if (stack.includes(next)) low.set(file, Math.min(low.get(file), index.get(next)));
    }
    if (low.get(file) !== index.get(file)) return;
    const circle = stack.splice(stack.indexOf(file));
    if (circle.length > 1 || edges.get(file).includes(file))
      circles.push(`import circle: ${circle.sort().join(', ')}`);
  };
  for (const file of inside) if (!index.has(file)) visit(file);
  return circles;
}

// Names of files: words in lower case joined by hyphens; a component carries its own name.
const NAMED = /^(?:[a-z0-9]+(?:-[a-z0-9]+)*|[A-Z][A-Za-z0-9]*)\./;

/** @returns {string[]} one line a fault */
export function checkImports(files, read, table) {
  const faults = [];
  for (const file of files) {
    if (!NAMED.test(path.basename(file)))
      faults.push(`${file}: a file is named in-this-way or LikeAComponent`);
    const from = room(file);
    if (from === null || isTest(file)) continue;
    const text = read(file);
    const lines = text.split('\n');
    if (!(from in table) && file.split('/').length > 2)
      faults.push(`${file}: no room named ${from} in the table`);
    for (const { spec, target, typeOnly, line } of importsOf(file, text))
      if (permission(table, from, room(target), target, typeOnly) === null)
        faults.push(`${file}:${line}: ${from} may not import ${spec}`);
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
    .filter((f) => /\.tsx?$/.test(f) && existsSync(f));
  const texts = new Map(files.map((f) => [f, readFileSync(f, 'utf8')]));
  const read = (f) => texts.get(f);
  const { table, faults } = readTable(readFileSync('DEVELOPERS.md', 'utf8'));
  faults.push(
    ...checkImports(files, read, table),
    ...unusedPermissions(files, read, table),
    ...importCircles(files, read),
  );
  for (const fault of faults) console.error(fault);
  console.log(
    faults.length === 0
      ? `imports: ${files.length} files, all as the table says`
      : `imports: ${faults.length} faults`,
  );
  process.exit(faults.length === 0 ? 0 : 1);
}
