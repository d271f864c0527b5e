import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type HtmlTagDescriptor, minify, type Plugin, transformWithOxc } from 'vite';
import { INDEX_WORDS } from '../words/index-page.ts';
import { BRAND_MARK } from './brand.ts';

/**
 * What index.html holds besides its own text, put there when it is served or built: words, the frame that is seen until
 * the program draws its own, the guard of the start, and all styles, so that the first picture waits for one file.
 */

const GUARD_FILE = path.join(import.meta.dirname, 'start-guard.ts');
/** Older than what the program itself asks for: there the guard is what still speaks. */
const GUARD_TARGET = 'es2015';

/** In the order of the cascade. */
export const STYLES = [
  'tokens',
  'base',
  'forms',
  'help',
  'widgets',
  'lanes',
  'shell',
  'live',
  'start',
  'archive',
  'review',
  'sheet',
  'checklist',
  'documents',
  'verify',
  'bench',
  'photos',
  'far',
  'backup',
  'certificate',
  'practice',
  'about',
];
const STYLES_FOLDER = path.join(import.meta.dirname, 'styles');

const styles = () =>
  STYLES.map((name) => readFileSync(path.join(STYLES_FOLDER, `${name}.css`), 'utf8')).join('\n');

/** The guard as a script of its own, with its words in every language. */
export async function guardScript(): Promise<string> {
  const { code } = await transformWithOxc(readFileSync(GUARD_FILE, 'utf8'), GUARD_FILE, {
    target: GUARD_TARGET,
  });
  const words = Object.fromEntries(Object.entries(INDEX_WORDS).map(([tag, { guard }]) => [tag, guard]));
  // Nothing in a script element may end it.
  const quoted = JSON.stringify(words).replaceAll('<', '\\u003c');
  const script = `(() => {${code.replaceAll(/^export /gm, '')}\nstartGuard(${quoted});})();`;
  const small = await minify(GUARD_FILE, script, { compress: { target: GUARD_TARGET } });
  return small.code.trim();
}

/** The index page stands before any choice of a language: it is written in English, and the page sets it right. */
export async function fillIndex(html: string): Promise<string> {
  const { name, description, noScript } = INDEX_WORDS.en;
  const values: Readonly<Record<string, string>> = {
    NAME: name,
    DESCRIPTION: description,
    NO_SCRIPT: noScript,
    BRAND_MARK,
    STYLES: `<style>${styles()}</style>`,
    GUARD: `<script>${await guardScript()}</script>`,
  };
  // What is no text stands in a comment until then.
  return html.replace(/<!--%([A-Z_]+)%-->|%([A-Z_]+)%/g, (_, element?: string, text?: string) => {
    const key = element ?? text ?? '';
    const value = values[key];
    if (value === undefined) throw new Error(`index.html asks for ${key}`);
    return value;
  });
}

function fill(): Plugin {
  return {
    name: 'fill-index',
    transformIndexHtml: { order: 'pre', handler: fillIndex },
    // What was put into the page is no module that could be replaced in it.
    handleHotUpdate({ file, server }) {
      if (file.startsWith(STYLES_FOLDER) || file === GUARD_FILE) server.ws.send({ type: 'full-reload' });
    },
  };
}

/**
 * What the page asks for a moment later is named in the index page, so that it is on its way meanwhile: what the entry
 * fetches once it has its words, and the font, which the styles ask for when the first text is laid out.
 */
function fetchStart(): Plugin {
  return {
    name: 'fetch-start',
    transformIndexHtml: {
      order: 'post',
      handler(html, { bundle }) {
        const files = Object.values(bundle ?? {});
        const start = files
          .filter((c) => c.type === 'chunk')
          .find((c) => c.facadeModuleId?.endsWith('/src/app/start.tsx'));
        if (start === undefined) return [];
        const scripts = [start.fileName, ...start.imports]
          .filter((file) => !html.includes(file))
          .map((file) => ({ rel: 'modulepreload', href: `./${file}` }));
        const fonts = files
          .filter(({ fileName }) => fileName.endsWith('.woff2'))
          .map(({ fileName }) => ({ rel: 'preload', as: 'font', type: 'font/woff2', href: `./${fileName}` }));
        return [...fonts, ...scripts].map(
          (attrs): HtmlTagDescriptor => ({
            tag: 'link',
            attrs: { ...attrs, crossorigin: true },
            injectTo: 'head',
          }),
        );
      },
    },
  };
}

export const indexPage = (): Plugin[] => [fill(), fetchStart()];
