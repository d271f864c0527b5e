import { availableParallelism } from 'node:os';
import { playwright } from '@vitest/browser-playwright';
import solid from 'vite-plugin-solid';
import { defineConfig } from 'vitest/config';
import { licences } from './src/app/licences.ts';

/** A look into a browser costs it and us a few ms each: often enough for tests that wait for seconds. */
const BROWSER_POLL = { poll: { interval: 150 } };

const components = {
  plugins: [solid(), licences(import.meta.dirname)],
  resolve: { conditions: ['development', 'browser'] },
  test: {
    environment: 'happy-dom',
    setupFiles: ['src/words/testing/in-english.ts', 'src/screens/testing/left-clean.ts'],
    testTimeout: 30_000,
  },
};

/** They choose other words than the rest, which keeps its own once they are loaded. */
const OTHER_WORDS = ['src/screens/words.dom.test.tsx', 'src/screens/live/EndRun.dom.test.tsx'];

// Three kinds of test: unit (Node), dom (components in happy-dom), browser (one file at a time in the real
// Chromium, for what only exists there: OPFS, WebCrypto in workers). The e2e tests drive the built app from
// Node and have a project of their own.
export default defineConfig({
  test: {
    // One core fewer is kept free by default: on two cores that is half the speed.
    maxWorkers: availableParallelism(),
    projects: [
      {
        test: {
          name: 'unit',
          environment: 'node',
          // Their modules keep nothing between tests; a process for each of some 300 files took two thirds of the time.
          isolate: false,
          include: [
            'src/**/*.test.ts',
            'tests/unit/**/*.test.ts',
            'tests/independent/**/*.test.ts',
            'tests/fleet/**/*.test.ts',
            'tests/faults/**/*.test.ts',
            'tests/stand/**/*.test.ts',
            'tests/pictures/**/*.test.ts',
            'firmware-protocol/**/*.test.ts',
          ],
          exclude: ['**/*.browser.test.ts', '**/*.dom.test.ts', 'firmware-protocol/boards/**'],
          testTimeout: 30_000,
        },
      },
      {
        // Needs cross compilers, which are installed beside the tests before it.
        test: {
          name: 'boards',
          environment: 'node',
          include: ['firmware-protocol/boards/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        ...components,
        test: {
          ...components.test,
          name: 'dom',
          // A page of its own for each file took two thirds of the time.
          isolate: false,
          include: ['src/**/*.dom.test.{ts,tsx}'],
          exclude: [...OTHER_WORDS],
        },
      },
      {
        ...components,
        test: { ...components.test, name: 'dom-words', include: [...OTHER_WORDS] },
      },
      {
        // Playwright's own context keeps storage in memory only; a persistent one has a real profile on disk.
        // Packages are named beforehand: one that is found in mid-test reloads the page under it.
        optimizeDeps: {
          include: [
            '@noble/hashes/sha2.js',
            'canonicalize',
            'fast-check',
            'hyparquet-writer',
            'hyparquet-writer/src/datapage.js',
            'hyparquet-writer/src/snappy.js',
            'idb',
            'zod/mini',
          ],
        },
        test: {
          name: 'browser',
          include: ['src/**/*.browser.test.ts'],
          testTimeout: 60_000,
          fileParallelism: false,
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: playwright({
              persistentContext: true,
              launchOptions: {
                executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
                args: [
                  '--no-sandbox',
                  '--disable-gpu',
                  '--disable-quic',
                  '--no-first-run',
                  '--disable-background-networking',
                  '--disable-component-update',
                  '--disable-sync',
                ],
              },
            }),
            instances: [{ browser: 'chromium' }],
          },
        },
      },
      // Files of these follow each other in one process: each of its own loaded the app's code, the driver and Vite anew.
      {
        test: {
          name: 'e2e',
          environment: 'node',
          isolate: false,
          include: ['tests/e2e/**/*.test.ts'],
          expect: BROWSER_POLL,
          testTimeout: 180_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'face',
          environment: 'node',
          isolate: false,
          include: ['tests/face/**/*.test.ts'],
          expect: BROWSER_POLL,
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'engines',
          environment: 'node',
          isolate: false,
          include: ['tests/engines/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'campaign',
          environment: 'node',
          isolate: false,
          include: ['tests/campaign/**/*.test.ts'],
          testTimeout: 300_000,
        },
      },
    ],
  },
});
