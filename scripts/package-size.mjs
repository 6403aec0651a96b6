// What the package's entries weigh, gzip, KiB = 1024 bytes, each with its limit.
import { gzipSync } from 'node:zlib';
import { readFileSync } from 'node:fs';

const kib = (bytes) => gzipSync(bytes, { level: 9 }).length / 1024;

/** An entry as an application bundles it, packages that the application may have itself left out. */
async function bundled(entry) {
  const { build } = await import('esbuild');
  const { outputFiles, metafile } = await build({
    entryPoints: [entry],
    bundle: true,
    minify: true,
    splitting: true,
    outdir: 'out',
    write: false,
    metafile: true,
    format: 'esm',
    target: 'es2022',
    packages: 'external',
    logLevel: 'error',
  });
  const first = Object.keys(metafile.outputs).find((name) => metafile.outputs[name].entryPoint === entry);
  const wanted = new Set([first]);
  for (const name of wanted)
    for (const { path, kind, external } of metafile.outputs[name].imports)
      if (kind === 'import-statement' && !external) wanted.add(path);
  const contents = outputFiles.filter(({ path }) => [...wanted].some((name) => path.endsWith(name)));
  return contents.reduce((sum, { contents: bytes }) => sum + kib(bytes), 0);
}

/** A file for script tags with all that it loads before anything is shown. */
function loadedBy(folder, name, seen = new Set()) {
  if (seen.has(name)) return 0;
  seen.add(name);
  const code = readFileSync(`${folder}/${name}`, 'utf8');
  const imported = [...code.matchAll(/(?:\bfrom|\bimport)\s*["']\.\/([^"']+\.js)["']/g)];
  return kib(code) + imported.reduce((sum, [, other]) => sum + loadedBy(folder, other, seen), 0);
}

/** The chunk behind the first dynamic import of a file whose text is so. */
function chunkIn(folder, name, pattern) {
  const found = [
    ...readFileSync(`${folder}/${name}`, 'utf8').matchAll(/import\(["']\.\/([^"']+\.js)["']\)/g),
  ];
  return found.map(([, chunk]) => chunk).find((chunk) => pattern.test(chunk));
}

/** @param {string} folder the built package */
export async function packageSizes(folder) {
  const script = `${folder}/elements`;
  const main = chunkIn(script, 'all.js', /./);
  return [
    { name: 'hundredths', value: await bundled(`${folder}/src/index.js`), limit: 80 },
    {
      name: 'hundredths/elements/reed.js',
      value: await bundled(`${folder}/components/reed/reed.js`),
      limit: 125,
    },
    {
      name: 'hundredths/elements/all.js',
      value: loadedBy(script, 'all.js') + loadedBy(script, main),
      limit: 210,
    },
    { name: 'its worker', value: loadedBy(script, 'fit-worker.js'), limit: 100 },
  ];
}
