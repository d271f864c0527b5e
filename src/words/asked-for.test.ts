import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { createFormat } from './create-format.ts';
import { further } from './en/further.ts';
import { start } from './en/start.ts';
import { watch } from './en/watch.ts';

// A page that takes a word of a part that was not loaded before it breaks in the browser alone: unit tests load all words at once.
// The graph of imports tells it: what was asked for on the way to a module has to hold every section that the module takes.

const PARTS = ['none', 'start', 'watch', 'further'] as const;
type Part = (typeof PARTS)[number];
/** Later parts come with the earlier ones. */
const later = (a: Part, b: Part): Part => (PARTS.indexOf(a) > PARTS.indexOf(b) ? a : b);

interface Module {
  readonly imports: readonly string[];
  readonly sections: readonly string[];
  /** What is imported while it runs, and the part that is awaited before; null: none besides what its own module has. */
  readonly whileRunning: readonly { readonly to: string; readonly part: Part | null }[];
}

const CALLS = /\b(?:loadWords\('(watch|further)'\)|(chooseWords)\()/g;
const partAsked = (text: string): Part | null =>
  [...text.matchAll(CALLS)].reduce<Part | null>((most, [, part, first]) => {
    const now: Part = first === undefined ? (part as Part) : 'start';
    return most === null ? now : later(most, now);
  }, null);

function moduleOf(file: string, source: string): Module {
  const text = source.replace(/\/\*[\s\S]*?\*\/|(?<!:)\/\/.*$/gm, '');
  const at = (to: string) => path.posix.join(path.posix.dirname(file), to);
  const statements = text.split(/\n(?=\S)/);
  // What a function of the module awaits, whoever calls it awaits.
  const asks = statements.flatMap((s) => {
    const name = /^(?:export )?(?:async )?(?:function|const) (\w+)/.exec(s)?.[1];
    const part = partAsked(s);
    return name === undefined || part === null ? [] : [{ name, part }];
  });
  const partOf = (statement: string): Part | null =>
    asks.reduce<Part | null>(
      (part, { name, part: asked }) =>
        new RegExp(`\\b${name}\\(`).test(statement) ? later(part ?? 'none', asked) : part,
      partAsked(statement),
    );
  return {
    imports: [...text.matchAll(/^(?:import|export) (?!type\b)(?:[^;']*? from )?'(\.[^']+\.tsx?)'/gm)].map(
      (m) => at(m[1]!),
    ),
    sections: [...text.matchAll(/\bchosen\('(\w+)'\)/g)].map((m) => m[1]!),
    whileRunning: statements.flatMap((s) =>
      [...s.matchAll(/\bimport\('(\.[^']+\.tsx?)'\)/g)].map((m) => ({ to: at(m[1]!), part: partOf(s) })),
    ),
  };
}

/** Modules that take words before they are there, each with the way to it. @param roots what is loaded before any word */
function early(
  sources: ReadonlyMap<string, string>,
  roots: readonly string[],
  partOf: (section: string) => Part,
): readonly string[] {
  const modules = new Map([...sources].map(([file, text]) => [file, moduleOf(file, text)]));
  const seen = new Set<string>();
  const found: string[] = [];
  const walk = (file: string, loaded: Part, way: readonly string[]) => {
    const module = modules.get(file);
    if (module === undefined || seen.has(`${loaded} ${file}`)) return;
    seen.add(`${loaded} ${file}`);
    const here = [...way, file];
    for (const section of module.sections)
      if (later(partOf(section), loaded) !== loaded)
        found.push(`'${section}' (${partOf(section)}) where ${loaded} is loaded: ${here.join(' > ')}`);
    for (const to of module.imports) walk(to, loaded, here);
    for (const { to, part } of module.whileRunning)
      walk(to, part === null ? loaded : later(part, loaded), here);
  };
  for (const root of roots) walk(root, 'none', []);
  return found;
}

const FORMAT = createFormat('point');
const SEEN = watch(FORMAT);
const SECTIONS = {
  start: Object.keys(start(FORMAT)),
  watch: Object.keys(SEEN),
  further: Object.keys(further(FORMAT, SEEN)),
} as const;
const sectionPart = (section: string): Part =>
  SECTIONS.start.includes(section) ? 'start' : SECTIONS.watch.includes(section) ? 'watch' : 'further';

it('every page asks for the words that it shows before it is loaded, and workers take none of the page’s', () => {
  const sources = new Map(
    readdirSync('src', { recursive: true, encoding: 'utf8' })
      .filter((f) => /\.tsx?$/.test(f) && !/\.test\.tsx?$|[/\\]testing[/\\]/.test(f))
      .map((f) => f.replaceAll(path.sep, '/'))
      .map((f) => [f, readFileSync(path.join('src', f), 'utf8')] as const),
  );
  const roots = ['app/main.tsx', ...[...sources.keys()].filter((f) => f.endsWith('.worker.ts'))];
  expect(roots.length).toBeGreaterThan(2);
  expect(early(sources, roots, sectionPart)).toEqual([]);
});

it('a page that takes a word of another part is found with the way to it', () => {
  const sources = (asked: string) =>
    new Map([
      [
        'app/main.tsx',
        `import { chooseWords } from '../words/chosen.ts';\nvoid chooseWords(w).then(() => import('./start.tsx'));`,
      ],
      [
        'app/start.tsx',
        `async function worded(code) {\n  await loadWords('${asked}');\n  return code();\n}\nconst Sheet = lazy(() => worded(() => import('../screens/Sheet.tsx')));`,
      ],
      [
        'screens/Sheet.tsx',
        `import {\n  SHEET,\n} from '../words/sheet.ts';\nimport type { A } from '../words/lost.ts';`,
      ],
      ['words/sheet.ts', `export const { SHEET } = chosen('sheet');`],
      ['words/lost.ts', `export const { LOST } = chosen('office');`],
    ]);
  expect(early(sources('further'), ['app/main.tsx'], sectionPart)).toEqual([]);
  expect(early(sources('watch'), ['app/main.tsx'], sectionPart)).toEqual([
    "'sheet' (further) where watch is loaded: app/main.tsx > app/start.tsx > screens/Sheet.tsx > words/sheet.ts",
  ]);
  // Before any were chosen.
  expect(
    early(
      new Map([
        ['a.ts', `import './words/ui.ts';`],
        ['words/ui.ts', `chosen('ui')`],
      ]),
      ['a.ts'],
      sectionPart,
    ),
  ).toHaveLength(1);
});
