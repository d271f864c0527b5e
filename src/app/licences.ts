import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Plugin } from 'vite';

/**
 * Licences of everything from elsewhere that is shipped with the program, read from the installed packages when it is
 * built: those that the program depends on, with what these depend on in turn, and what its service worker is made of.
 */

export interface Licence {
  readonly name: string;
  readonly version: string;
  /** SPDX expression, as the package has it. */
  readonly licence: string;
  /** Text of the licence as it lies in the package; empty where the package carries none. */
  readonly text: string;
}

interface Manifest {
  readonly version: string;
  readonly license?: string;
  readonly main?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

const FOLDER = 'node_modules';
/** What the generated service worker is made of, beside what these depend on: the page's part, and what keeps files. */
const WORKER = ['workbox-window', 'workbox-precaching'];

const manifestOf = (folder: string): Manifest =>
  JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8')) as Manifest;

function textOf(folder: string): string {
  const file = readdirSync(folder).find((name) => /^(licen[cs]e|ofl)(\.(md|txt))?$/i.test(name));
  return file === undefined ? '' : readFileSync(path.join(folder, file), 'utf8').trim();
}

/** @param root of the project: where package.json and node_modules lie */
export function licencesOf(root: string): readonly Licence[] {
  const found = new Map<string, Licence>();
  const open = Object.keys(manifestOf(root).dependencies ?? {});
  open.push(...WORKER);
  for (let name = open.pop(); name !== undefined; name = open.pop()) {
    const folder = path.join(root, FOLDER, name);
    if (found.has(name) || !existsSync(folder)) continue;
    const { version, license, main, dependencies } = manifestOf(folder);
    // Declarations of types alone: nothing of them is shipped.
    if (main === '') continue;
    found.set(name, { name, version, licence: license ?? '', text: textOf(folder) });
    open.push(...Object.keys(dependencies ?? {}));
  }
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

const MODULE = 'virtual:licences';

/** Gives the list to the page that shows it, as a module of its own. */
export function licences(root: string): Plugin {
  return {
    name: 'licences',
    resolveId: (id) => (id === MODULE ? `\0${MODULE}` : undefined),
    load: (id) => (id === `\0${MODULE}` ? `export default ${JSON.stringify(licencesOf(root))};` : undefined),
  };
}
