import path from 'node:path';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import solid from 'vite-plugin-solid';
import { indexPage } from './src/app/index-page.ts';
import { licences } from './src/app/licences.ts';
import { walls } from './src/app/walls.ts';
import { PAGE } from './src/words/en/page.ts';

// Storage belongs to the origin, so the app is always served at one fixed loopback port: another port would
// be another, empty archive. strictPort makes a taken port an error instead of a silent move.
const PORT = 4680;

export default defineConfig({
  root: 'src',
  base: './',
  publicDir: 'app/static',
  plugins: [
    indexPage(),
    licences(import.meta.dirname),
    walls(),
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
        background_color: '#e6e8e4',
        theme_color: '#f7f8f5',
        icons: [
          { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
          { src: 'icon-maskable.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'maskable' },
        ],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,woff2,webmanifest}'],
        navigateFallback: 'index.html',
        cleanupOutdatedCaches: true,
      },
    }),
  ],
  worker: {
    format: 'es',
    rolldownOptions: {
      output: {
        // A worker's entry holds what starts it and no more: the parts that it fetches later share code with it, and
        // WebKit evaluates an entry that is imported once more, which would be two engines in one worker.
        codeSplitting: {
          groups: [
            {
              debugName: 'core of a worker',
              name(id, graph) {
                const entry = graph
                  .getModuleInfo(id)
                  ?.importers.find((by) => graph.getModuleInfo(by)?.isEntry);
                return entry === undefined ? null : `${path.basename(entry, '.worker.ts')}-core`;
              },
            },
          ],
        },
      },
    },
  },
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
