import { defineConfig, type Plugin } from 'vite';
import { noteSources } from './scripts/built-from.mjs';
import { PAGE_POLICY } from './scripts/policy.mjs';
import { buildServiceWorker } from './scripts/service-worker.mjs';

/** Only the build has it: the development server needs inline styles. */
const contentSecurityPolicy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: PAGE_POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

/** What is made of the finished build. */
const finish: Plugin = {
  name: 'finish',
  apply: 'build',
  async closeBundle() {
    await buildServiceWorker('dist');
    noteSources('dist');
  },
};

export default defineConfig({
  root: 'demo',
  base: './',
  plugins: [contentSecurityPolicy, finish],
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  // A port of its own: what is tried in development is no part of the maker's library.
  server: { host: 'localhost', port: 4610, strictPort: true, fs: { allow: ['..'] } },
});
