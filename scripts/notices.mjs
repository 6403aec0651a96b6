// The licences of everything that is built into the page, in full, as a page of their own.
import { readdirSync, readFileSync } from 'node:fs';
import { STRICT_POLICY } from './policy.mjs';

const readJson = (path) => JSON.parse(readFileSync(path, 'utf8'));

/** Where a package that another one asks for lies: as near to it as there is one. */
function placeOf(name, from, packages) {
  for (let folder = from; ; folder = folder.replace(/\/?node_modules\/(?:@[^/]+\/)?[^/]+$/, '')) {
    const place = `${folder ? `${folder}/` : ''}node_modules/${name}`;
    if (packages[place]) return place;
    if (!folder) return undefined;
  }
}

/** What a licence or a notice is called in a package. */
const TEXT = /^(licen[cs]e|copying|notice)([.-].*)?$/i;

const README = /^readme(\.md)?$/i;
/** The part of a description that is headed so. */
const LICENCE_PART = /^#+ licen[cs]e\s*$(.*)/ims;

function textsIn(place) {
  const read = (name) => readFileSync(`${place}/${name}`, 'utf8');
  const names = readdirSync(place).sort();
  const texts = names.filter((name) => TEXT.test(name)).map(read);
  if (texts.length === 0)
    texts.push(
      ...names.filter((name) => README.test(name)).map((name) => LICENCE_PART.exec(read(name))?.[1] ?? ''),
    );
  return texts.map((text) => text.trim()).filter(Boolean);
}

/** Where all packages lie that the project depends on, and that they depend on. */
function placesOf(packages) {
  const found = new Set();
  const follow = (place) => {
    for (const name of Object.keys(packages[place].dependencies ?? {})) {
      const next = placeOf(name, place, packages);
      if (!next || found.has(next)) continue;
      found.add(next);
      follow(next);
    }
  };
  follow('');
  return [...found].sort();
}

/**
 * Every package that the page may be built from, by the lock file, and that carries the text of its licence.
 *
 * @returns {{name: string, version: string, licence: string, texts: string[]}[]} in the order of their names
 */
export function noticedPackages() {
  const { packages } = readJson('package-lock.json');
  return placesOf(packages)
    .map((place) => ({
      name: place.split('node_modules/').at(-1),
      version: packages[place].version,
      licence: packages[place].license,
      texts: textsIn(place),
    }))
    .filter(({ name, texts }) => !name.startsWith('@types/') && texts.length > 0);
}

/** The name of the package that a module of the build comes from; undefined for our own. */
const packageOf = (id) =>
  /.*[\\/]node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)/.exec(`/${id}`)?.[1].replace('\\', '/');

/** @throws {Error} naming the packages among the modules of a build that have no notice */
export function checkNoticed(moduleIds, packages = noticedPackages()) {
  const noticed = new Set(packages.map(({ name }) => name));
  const missing = new Set(moduleIds.map(packageOf).filter((name) => name && !noticed.has(name)));
  if (missing.size > 0)
    throw new Error(
      `Built in without the text of a licence: ${[...missing].join(', ')}. What is built in belongs under "dependencies".`,
    );
}

const escaped = (text) =>
  text.replace(/[&<>]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[sign]);

const section = (heading, text) => `    <h2>${escaped(heading)}</h2>\n    <pre>${escaped(text)}</pre>\n`;

/** The page of notices: our own licence, that of the colour tables, and those of the packages. */
export const noticesPage = (packages = noticedPackages()) => `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <meta http-equiv="Content-Security-Policy" content="${STRICT_POLICY}" />
    <meta name="color-scheme" content="light dark" />
    <title>Licences of what Hundredths is built from</title>
    <link rel="stylesheet" href="./licences.css" />
  </head>
  <body>
    <main>
    <h1>Licences of what Hundredths is built from</h1>
${section('Hundredths', readFileSync('LICENSE', 'utf8').trim())}${section('Colour tables', readFileSync('components/theme/NOTICE.md', 'utf8').trim())}${packages
  .map(({ name, version, licence, texts }) => section(`${name} ${version}, ${licence}`, texts.join('\n\n')))
  .join('')}    </main>
  </body>
</html>
`;
