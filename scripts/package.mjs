// Makes the package that others install: npm run package. The modules are the sources, compiled one by one, so that what
// an application bundles has lit and zod once; for a script tag there is one more build with everything in it.
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { noteSources } from './built-from.mjs';
import { elementsManifest } from './elements-manifest.mjs';
import { checkNoticed, noticesPage } from './notices.mjs';
import { packageSizes } from './package-size.mjs';
import { PlainError, runPlainly } from './plain-error.mjs';
import { toolCommand } from './programs.mjs';

export const PACKAGE = 'dist-package';
/** Where the public elements stand, one a module. */
const ELEMENTS = 'components/reed';
/** What fits beside the page; the package has it as `fit-worker.js` beside whoever starts it. */
const WORKER = 'src/answers/concurrent/fit-worker.ts';
const ENTRIES = ['src/index.ts', `${ELEMENTS}/elements.ts`];

const json = (value) => `${JSON.stringify(value, undefined, 2)}\n`;
const textFiles = (ending, folder = '') =>
  readdirSync(join(PACKAGE, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => `${entry.parentPath}/${entry.name}`);

/** The sources compiled one by one, with their types and maps. */
function compile() {
  const [program, ...args] = toolCommand('tsc', ['-p', 'tsconfig.package.json']);
  const { status, stdout } = spawnSync(program, args, { encoding: 'utf8' });
  if (status !== 0) throw new PlainError(`The package could not be compiled:\n${stdout}`);
  // The compiler leaves the names of sources in declarations, and names packages that are lit's own.
  for (const file of textFiles('.d.ts')) {
    const text = readFileSync(file, 'utf8');
    writeFileSync(
      file,
      text
        .replaceAll(/((?:from |import\()['"]\.[^'"]*)\.ts(['"])/g, '$1.js$2')
        .replaceAll(/((?:from |import\()['"]lit)-html\b/g, '$1'),
    );
  }
}

/** Declarations that those of the entries lead to. */
function declarationsFrom(entries) {
  const found = new Set(entries);
  for (const file of found)
    for (const [, name] of readFileSync(file, 'utf8').matchAll(/(?:from |import\()?['"](\.[^'"]*)\.js['"]/g))
      found.add(join(dirname(file), `${name}.d.ts`));
  return found;
}

/** Leaves out what was compiled for its types alone. */
function prune(modules) {
  const built = (source, ending) => `${PACKAGE}/${source.replace(/\.ts$/, ending)}`;
  const kept = new Set(modules.flatMap((source) => [built(source, '.js'), built(source, '.js.map')]));
  for (const file of declarationsFrom(ENTRIES.map((entry) => built(entry, '.d.ts')))) kept.add(file);
  for (const file of ['src', 'shared', 'components'].flatMap((folder) => textFiles('', folder)))
    if (!kept.has(file)) rmSync(file);
}

/** What a script tag loads: everything in it, the relief and the worker in files of their own. */
async function bundle() {
  const { build } = await import('esbuild');
  const common = {
    bundle: true,
    minify: true,
    sourcemap: true,
    format: 'esm',
    target: 'es2022',
    metafile: true,
    logLevel: 'error',
  };
  const { metafile } = await build({
    ...common,
    entryPoints: [
      { in: `${ELEMENTS}/all.ts`, out: 'all' },
      { in: WORKER, out: 'fit-worker' },
    ],
    outdir: `${PACKAGE}/elements`,
    splitting: true,
    chunkNames: '[name]-[hash]',
  });
  checkNoticed(Object.keys(metafile.inputs));
  // A worker knows no import map: whoever loads the modules one by one has its worker whole.
  await build({
    ...common,
    entryPoints: [WORKER],
    outfile: `${PACKAGE}/${ELEMENTS}/fit-worker.js`,
  });
}

/** The modules that the entries load, and the packages that these name, with the versions that they may have. */
async function needed() {
  const { build } = await import('esbuild');
  const { dependencies: pinned } = JSON.parse(readFileSync('package.json', 'utf8'));
  const { metafile } = await build({
    entryPoints: ENTRIES,
    bundle: true,
    packages: 'external',
    splitting: true,
    format: 'esm',
    outdir: 'none',
    write: false,
    metafile: true,
  });
  const named = Object.values(metafile.inputs)
    .flatMap(({ imports }) => imports.filter(({ external, path }) => external && path !== '<runtime>'))
    .map(({ path }) => /^(?:@[^/]+\/)?[^/]+/.exec(path)[0]);
  const unknown = named.filter((name) => !(name in pinned));
  if (unknown.length > 0) throw new PlainError(`Not among the dependencies: ${unknown.join(', ')}.`);
  return {
    modules: Object.keys(metafile.inputs),
    dependencies: Object.fromEntries([...new Set(named)].sort().map((name) => [name, `^${pinned[name]}`])),
  };
}

/** The modules of elements, by what they are imported as. */
const elementModules = () =>
  readdirSync(ELEMENTS)
    .filter((name) => readFileSync(`${ELEMENTS}/${name}`, 'utf8').includes("@customElement('bench-reed"))
    .map((name) => name.replace('.ts', ''));

function manifest(dependencies) {
  const { name, version, description, license, engines } = JSON.parse(readFileSync('package.json', 'utf8'));
  const module = (path) => ({ types: `./${path}.d.ts`, default: `./${path}.js` });
  return {
    ...{ name, version, description, license, engines },
    type: 'module',
    exports: {
      '.': module('src/index'),
      './elements': module(`${ELEMENTS}/elements`),
      './elements/all.js': './elements/all.js',
      ...Object.fromEntries(
        elementModules().map((element) => [`./elements/${element}.js`, module(`${ELEMENTS}/${element}`)]),
      ),
      './custom-elements.json': './custom-elements.json',
      './package.json': './package.json',
    },
    types: './src/index.d.ts',
    customElements: 'custom-elements.json',
    sideEffects: ['./components/**', './elements/**', './shared/without-code-generation.js'],
    files: ['src', 'shared', 'components', 'elements', '*.json', '*.md', '*.html', '*.css'],
    dependencies,
  };
}

/** @throws {PlainError} when something of the sources stands in the way */
export async function buildPackage() {
  rmSync(PACKAGE, { recursive: true, force: true });
  mkdirSync(PACKAGE);
  compile();
  const { modules, dependencies } = await needed();
  prune(modules);
  await bundle();
  writeFileSync(`${PACKAGE}/package.json`, json(manifest(dependencies)));
  writeFileSync(`${PACKAGE}/custom-elements.json`, json(await elementsManifest(ELEMENTS)));
  cpSync('LICENSE', `${PACKAGE}/LICENSE`);
  cpSync('docs/package.md', `${PACKAGE}/README.md`);
  cpSync('components/theme/NOTICE.md', `${PACKAGE}/NOTICE.md`);
  cpSync('demo/public/licences.css', `${PACKAGE}/licences.css`);
  writeFileSync(`${PACKAGE}/licences.html`, noticesPage());
  noteSources(PACKAGE);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  await runPlainly(async () => {
    await buildPackage();
    const sizes = await packageSizes(PACKAGE);
    for (const { name, value, limit } of sizes) console.log(`${name}: ${value.toFixed(1)} of ${limit} KiB`);
    return sizes.every(({ value, limit }) => value <= limit) ? 0 : 1;
  });
