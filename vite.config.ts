import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { chapters } from './src/site/chapters.ts';

const root = fileURLToPath(new URL('.', import.meta.url)).replace(/\/$/, '');

/** What the readings panel alone computes with. */
const PANEL_ONLY =
  /src[\\/](physics[\\/](fit[\\/](resolver|drawReadings|distribution|monteCarlo|validation)|estimate[\\/](seenOrNot|changeEffect))|answer[\\/](seen|changes|agreement|without\w*|blunderEffect|caredOf|separating|seededUniform|monteCarlo[\\/]\w+))\.ts$/;

/** Chunks that several pages share; few and stable, so that a first visit makes few requests. */
const SHARED = [
  { name: 'elements', test: /node_modules[\\/](lit|lit-html|lit-element|@lit|@preact)[\\/]/ },
  {
    // Without what only the readings panel needs, which is loaded when it is opened.
    name: 'bench',
    test: (id: string) =>
      /node_modules[\\/](valibot|idb|ml-matrix)[\\/]|src[\\/](physics|sheet|answer)[\\/]|src[\\/]photo[\\/][^\\/]+$/.test(
        id,
      ) && !PANEL_ONLY.test(id),
  },
  { name: 'shared', test: /src[\\/](figures|calculators)[\\/]/, minShareCount: 3 },
];

/** Layers whose files only define: what a page does not use of them is left out, and what one panel uses goes with it. */
const DEFINES_ONLY = { test: /src[\\/](physics|photo|answer|figures)[\\/]/, sideEffects: false };

export default defineConfig({
  root,
  base: './',
  publicDir: 'assets',
  plugins: [chapters({ root, draft: process.env['PLUMB_DRAFT'] === '1' })],
  worker: { format: 'es' },
  build: {
    outDir: 'dist',
    assetsDir: 'parts',
    assetsInlineLimit: 0,
    cssCodeSplit: true,
    modulePreload: { polyfill: false },
    target: ['chrome123', 'edge123', 'firefox121', 'safari17.5'],
    reportCompressedSize: false,
    rollupOptions: {
      checks: { pluginTimings: false },
      treeshake: { moduleSideEffects: [DEFINES_ONLY] },
      output: { codeSplitting: { groups: SHARED } },
    },
  },
  test: {
    // Two projects: what runs in Node alone, and what drives a real browser over the built pages.
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: [
            'tests/{physics,sheet,photo,answer,world,figures,calculators,published,site,demo}/**/*.test.ts',
          ],
          testTimeout: 60_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 90_000,
          hookTimeout: 180_000,
          // One browser at a time: timings and screenshots on two cores.
          fileParallelism: false,
          // After the tests in Node, so that neither starves the other.
          sequence: { groupOrder: 1 },
          globalSetup: 'tests/browser/build.setup.ts',
        },
      },
    ],
  },
});
