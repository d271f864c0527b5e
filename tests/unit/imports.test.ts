import { expect, it } from 'vitest';
import { checkImports } from '../tools/imports.mjs';

const check = (files: Record<string, string>) => checkImports(Object.keys(files), (f: string) => files[f]!);

it('lets a room import what the table names', () => {
  expect(
    check({
      'src/watch/a.ts':
        "import { x } from './b.ts';\nimport type { Reading } from '../sensing/reading.ts';\nimport { FLAG } from '../sensing/reading.ts';",
      'src/app/main.tsx': "import { a } from '../watch/a.ts';\nimport '../app/look.css';",
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
