// Builds the service worker of a finished build: it knows every file by its name and, where the name does not change
// with the content, by its hash.
import { build } from 'esbuild';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { BUILT_FROM } from './built-from.mjs';
import { checkNoticed } from './notices.mjs';
import { isHashed } from './policy.mjs';

const WORKER = 'service-worker.js';
/** What the page can do without: itself, the note of its sources, and pictures for whoever thinks of installing it. */
const isNeeded = (name) => name !== WORKER && name !== BUILT_FROM && !name.startsWith('screenshots/');

/** @param {string} folder the finished build */
export async function buildServiceWorker(folder) {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .map((name) => name.replaceAll('\\', '/'))
    .filter(isNeeded)
    .sort();
  const hashOf = (name) =>
    createHash('sha256')
      .update(readFileSync(join(folder, name)))
      .digest('hex')
      .slice(0, 16);
  const files = names.map((url) => ({ url, revision: isHashed(url) ? null : hashOf(url) }));
  const { metafile } = await build({
    entryPoints: ['demo/service-worker.ts'],
    outfile: join(folder, WORKER),
    bundle: true,
    minify: true,
    target: 'es2022',
    define: { BUILT_FILES: JSON.stringify(files), 'process.env.NODE_ENV': '"production"' },
    metafile: true,
    logLevel: 'error',
  });
  checkNoticed(Object.keys(metafile.inputs));
}
