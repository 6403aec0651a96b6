import { defineConfig, type Plugin } from 'vite';
import { buildServiceWorker } from './scripts/service-worker.mjs';

/** Nothing inline, nothing from elsewhere. The development server needs inline styles, so only the build has it. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "require-trusted-types-for 'script'",
  'trusted-types lit-html app-url',
].join('; ');

const contentSecurityPolicy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

const serviceWorker: Plugin = {
  name: 'service-worker',
  apply: 'build',
  closeBundle: () => buildServiceWorker('dist'),
};

export default defineConfig({
  root: 'demo',
  base: './',
  plugins: [contentSecurityPolicy, serviceWorker],
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: { fs: { allow: ['..'] } },
});
