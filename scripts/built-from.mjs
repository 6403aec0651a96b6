// Knows whether a build is that of the sources as they are. Node built-ins only.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const FOLDERS = ['demo', 'components', 'src', 'shared', 'scripts'];
const FILES = [
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'vite.config.ts',
  'tsconfig.package.json',
  'docs/package.md',
];
/** Written into the build, and no part of the page. */
export const BUILT_FROM = 'built-from.txt';

const filesIn = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();

function hashOfSources() {
  const hash = createHash('sha256');
  for (const file of [...FOLDERS.flatMap(filesIn), ...FILES])
    hash.update(file).update('\0').update(readFileSync(file)).update('\0');
  return hash.digest('hex');
}

/** Notes in a finished build what it was made from. */
export const noteSources = (folder) => writeFileSync(join(folder, BUILT_FROM), `${hashOfSources()}\n`);

/** Whether a folder holds the build of the sources as they are. */
export function isUpToDate(folder) {
  const note = join(folder, BUILT_FROM);
  return existsSync(note) && readFileSync(note, 'utf8').trim() === hashOfSources();
}
