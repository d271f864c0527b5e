import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { checkImports, importCircles, readTable, type Table, unusedPermissions } from '../tools/imports.mjs';

const { table: TABLE } = readTable(readFileSync('DEVELOPERS.md', 'utf8'));

type Files = Record<string, string>;
const check = (files: Files) => checkImports(Object.keys(files), (f) => files[f]!, TABLE);
const unused = (files: Files, table: Table) => unusedPermissions(Object.keys(files), (f) => files[f]!, table);
const circles = (files: Files) => importCircles(Object.keys(files), (f) => files[f]!);

it('lets a room import what the table names', () => {
  expect(
    check({
      'src/watch/a.ts':
        "import { x } from './b.ts';\nimport type { Reading } from '../sensing/reading.ts';\nimport { FLAG } from '../sensing/reading.ts';",
      'src/app/main.tsx': "import { a } from '../engine/client.ts';\nimport '../app/look.css';",
      'src/widgets/plot.tsx': "import type { Request } from '../engine/messages.ts';",
    }),
  ).toEqual([]);
});

it('names a forbidden import with file and line', () => {
  expect(
    check({ 'src/watch/a.ts': "import { x } from './b.ts';\nimport { y } from '../record/pages.ts';" }),
  ).toEqual(['src/watch/a.ts:2: watch may not import ../record/pages.ts']);
  expect(check({ 'src/screens/live.tsx': "import { step } from '../watch/step.ts';" })).toHaveLength(1);
  expect(check({ 'src/rig/site.ts': "import { fit } from '../estimate/line.ts';" })).toHaveLength(1);
  expect(check({ 'src/engine/host.ts': "export { app } from '../app/main.tsx';" })).toHaveLength(1);
  expect(check({ 'src/watch/a.ts': "const m = await import('../engine/core.ts');" })).toHaveLength(1);
});

it('gives out types of a room only as types', () => {
  expect(check({ 'src/watch/a.ts': "import type { SensingState } from '../sensing/sense.ts';" })).toEqual([]);
  expect(check({ 'src/watch/a.ts': "import { sense } from '../sensing/sense.ts';" })).toHaveLength(1);
});

it('sees the platform named in a pure room, but not in comments or texts', () => {
  expect(check({ 'src/watch/a.ts': 'const now = Date.now();' })).toHaveLength(1);
  expect(check({ 'src/rig/a.ts': 'const r = Math.random();' })).toHaveLength(1);
  expect(check({ 'src/record/a.ts': "import fs from 'node:fs';" })).toHaveLength(1);
  expect(check({ 'src/watch/a.ts': "// Date.now() is not for us\nconst s = 'Date.now';" })).toEqual([]);
  expect(check({ 'src/engine/a.ts': 'const now = Date.now();' })).toEqual([]);
});

it('knows no room outside the table', () => {
  expect(check({ 'src/misc/a.ts': 'export const a = 1;' })).toHaveLength(1);
});

it('files are named in one way', () => {
  expect(
    check({
      'src/record/zipIndex.ts': '',
      'src/record/zip-index.ts': '',
      'src/widgets/Trace.dom.test.tsx': '',
    }),
  ).toEqual(['src/record/zipIndex.ts: a file is named in-this-way or LikeAComponent']);
});

it('reads the table, and says which cell it cannot read', () => {
  expect(
    readTable(
      '| room | what | may import |\n| --- | --- | --- |\n| `a/` | one | nothing |\n| `b/c/` | two | a, d/e, f (types), g (x, y-z) |',
    ),
  ).toEqual({ table: { a: [], 'b/c': ['a', 'd/e', 'f:types', 'g:x', 'g:y-z'] }, faults: [] });
  expect(readTable('| `a/` | one | all of the above |').faults).toEqual([
    'DEVELOPERS.md:1: not a room, or room (file, …): all of the above',
  ]);
});

it('names every room of the program in the table, each with rooms that are in it', () => {
  const named = Object.values(TABLE).flatMap((rule) => rule.map((entry) => entry.split(':')[0]!));
  expect(Object.keys(TABLE).length).toBeGreaterThan(15);
  expect([...new Set(named)].filter((room) => !(room in TABLE))).toEqual([]);
});

it('names a permission that nothing uses, or that is wider than its use', () => {
  const files = {
    'src/plan/a.ts': "import { x } from '../physics/gas.ts';\nimport type { S } from '../job/setup.ts';",
    'src/plan/a.test.ts': "import { y } from '../units/display.ts';",
  };
  expect(unused(files, { plan: ['physics', 'job:types'] })).toEqual([]);
  expect(unused(files, { plan: ['physics', 'job', 'units'] })).toEqual([
    'DEVELOPERS.md: plan uses types of job alone: say job (types)',
    'DEVELOPERS.md: plan makes no use of units: strike it',
  ]);
  expect(unused(files, { plan: ['physics:types', 'job:types'] })).toEqual([
    'DEVELOPERS.md: plan makes no use of physics:types: strike it',
  ]);
});

it('names files that import each other in a circle, by types too, each circle once', () => {
  expect(
    circles({
      'src/watch/a.ts': "import { b } from './b.ts';",
      'src/watch/b.ts': "import type { C } from './c.ts';\nimport { d } from './d.ts';",
      'src/watch/c.ts': "import { a } from './a.ts';",
      'src/watch/d.ts': "import { e } from './e.ts';",
      'src/watch/e.ts': '',
      'src/watch/e.test.ts': "import { a } from './a.ts';",
    }),
  ).toEqual(['import circle: src/watch/a.ts, src/watch/b.ts, src/watch/c.ts']);
  expect(
    circles({
      'src/watch/a.ts': "import { b } from './b.ts';",
      'src/watch/b.ts': "export const b = 'a.ts';",
    }),
  ).toEqual([]);
  expect(circles({ 'src/watch/a.ts': "import { a } from './a.ts';" })).toHaveLength(1);
});
