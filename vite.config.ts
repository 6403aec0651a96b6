import { defineConfig, type Plugin } from 'vite';
import { noteSources } from './scripts/built-from.mjs';
import { checkNoticed, noticesPage } from './scripts/notices.mjs';
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

/** Nothing is built in without its licence. */
const noticed = (): Plugin => ({
  name: 'noticed',
  apply: 'build',
  generateBundle(_, bundle) {
    const chunks = Object.values(bundle).filter((file) => file.type === 'chunk');
    checkNoticed(chunks.flatMap(({ moduleIds }) => moduleIds));
  },
});

const notices: Plugin = {
  name: 'notices',
  apply: 'build',
  generateBundle() {
    this.emitFile({ type: 'asset', fileName: 'licences.html', source: noticesPage() });
  },
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

export default defineConfig(({ command }) => {
  // Whatever the shell says: a build is what makers use.
  if (command === 'build') process.env['NODE_ENV'] = 'production';
  return {
    root: 'demo',
    base: './',
    plugins: [contentSecurityPolicy, noticed(), notices, finish],
    worker: { plugins: () => [noticed()] },
    build: {
      outDir: '../dist',
      emptyOutDir: true,
      target: 'es2022',
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
    },
    // A port of its own: what is tried in development is no part of the maker's library.
    server: { host: 'localhost', port: 4610, strictPort: true, fs: { allow: ['..'] } },
  };
});
