import { defineConfig, type HtmlTagDescriptor, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import solid from 'vite-plugin-solid';
import { PAGE } from './src/words/en/page.ts';

// Storage belongs to the origin, so the app is always served at one fixed loopback port: another port would
// be another, empty archive. strictPort makes a taken port an error instead of a silent move.
const PORT = 4680;

/** The index page stands before any choice of a language: it is written in English, and the page sets it right. */
function wordsOfIndex(): Plugin {
  return {
    name: 'words-of-index',
    transformIndexHtml: {
      order: 'pre',
      handler: (html) =>
        html
          .replace('%NAME%', PAGE.name)
          .replace('%DESCRIPTION%', PAGE.description)
          .replace('%NO_SCRIPT%', PAGE.noScript),
    },
  };
}

/** What the entry fetches once it has its words is named in the index page, so that it is on its way meanwhile. */
function fetchStart(): Plugin {
  return {
    name: 'fetch-start',
    transformIndexHtml: {
      order: 'post',
      handler(html, { bundle }) {
        const chunks = Object.values(bundle ?? {}).filter((c) => c.type === 'chunk');
        const start = chunks.find((c) => c.facadeModuleId?.endsWith('/src/app/start.tsx'));
        if (start === undefined) return [];
        const named = [start.fileName, ...start.imports].filter((file) => !html.includes(file));
        return named.map(
          (file): HtmlTagDescriptor => ({
            tag: 'link',
            attrs: { rel: 'modulepreload', crossorigin: true, href: `./${file}` },
            injectTo: 'head',
          }),
        );
      },
    },
  };
}

export default defineConfig({
  root: 'src',
  base: './',
  publicDir: 'app/static',
  plugins: [
    wordsOfIndex(),
    fetchStart(),
    solid(),
    VitePWA({
      registerType: 'prompt',
      injectRegister: false,
      manifest: {
        name: PAGE.name,
        short_name: PAGE.name,
        description: PAGE.description,
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#f4f5f3',
        theme_color: '#f4f5f3',
        icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,woff2,webmanifest}'],
        navigateFallback: 'index.html',
        cleanupOutdatedCaches: true,
      },
    }),
  ],
  worker: { format: 'es' },
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2022',
    // Which file holds what: the bench adds up what each page loads.
    manifest: true,
    rolldownOptions: { checks: { pluginTimings: false } },
  },
  server: { host: '127.0.0.1', port: PORT, strictPort: true },
  preview: { host: 'localhost', port: PORT, strictPort: true },
});
