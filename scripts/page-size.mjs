import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

/** Sizes of the built page's scripts, gzip, KiB = 1024 bytes, each with its limit. */
export function pageSizes(folder = 'dist') {
  const assets = `${folder}/assets`;
  const gzipKib = (name) => gzipSync(readFileSync(`${assets}/${name}`), { level: 9 }).length / 1024;
  const scripts = readdirSync(assets).filter((name) => name.endsWith('.js'));

  const html = readFileSync(`${folder}/index.html`, 'utf8');
  const initial = new Set(scripts.filter((name) => html.includes(name)));
  // What the first scripts import statically is loaded with them.
  for (const name of initial) {
    const code = readFileSync(`${assets}/${name}`, 'utf8');
    for (const [, imported] of code.matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g))
      initial.add(imported);
  }
  const scene = scripts.filter(
    (name) => !initial.has(name) && readFileSync(`${assets}/${name}`, 'utf8').includes('WebGLRenderer'),
  );

  const sum = (names) => [...names].reduce((total, name) => total + gzipKib(name), 0);
  const fits = scripts.filter((name) => name.startsWith('fit-worker'));
  return [
    { name: 'initial script', value: sum(initial), unit: 'KiB', limit: 150 },
    { name: 'initial script with three.js', value: sum(initial) + sum(scene), unit: 'KiB', limit: 330 },
    { name: 'worker that fits', value: sum(fits), unit: 'KiB', limit: 60 },
  ];
}
