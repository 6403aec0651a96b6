// Files that import each other in a circle, types and workers included.
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

const IMPORT = /(?:\bfrom|\bimport|\bimport\(|\bnew URL\()\s*'(\.{1,2}\/[^']+\.ts)'/g;

/** The modules that a text names, by its file. */
export function importsOf(file, text) {
  return [...text.matchAll(IMPORT)].map(([, path]) => join(dirname(file), path));
}

/**
 * A way from a file back to itself, or to another circle on the way; empty where there is none.
 *
 * @param importsOfFile The files that a file imports.
 */
export function circleFrom(start, importsOfFile, done = new Set()) {
  const follow = (file, way) => {
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file];
    if (done.has(file)) return [];
    for (const next of importsOfFile(file)) {
      const found = follow(next, [...way, file]);
      if (found.length > 0) return found;
    }
    done.add(file);
    return [];
  };
  return follow(start, []);
}

const texts = new Map();
const importsOnDisk = (file) => {
  if (!texts.has(file)) texts.set(file, existsSync(file) ? importsOf(file, readFileSync(file, 'utf8')) : []);
  return texts.get(file);
};

const knownSound = new Set();

/** A way from a file of the disk back to itself; empty where there is none. */
export function circleOf(file) {
  const way = circleFrom(file, importsOnDisk, knownSound);
  return way.includes(file) ? way : [];
}
