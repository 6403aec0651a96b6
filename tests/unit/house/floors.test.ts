import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { ESLint } from 'eslint';
import { expect, it } from 'vitest';
import { circleFrom, importsOf } from '../../../scripts/circles.mjs';
import { FLOORS } from '../../../scripts/floors.mjs';

const floorOf = new Map(
  FLOORS.flatMap((folders, floor) => folders.map((folder) => [folder, floor] as const)),
);
const folderOf = (file: string) => /^src\/([^/]+)\//.exec(file)?.[1];

/** Every module of a layer with the modules that it names, types and workers included. */
function modules(...layers: string[]): Map<string, string[]> {
  const files = layers.flatMap((layer) =>
    readdirSync(layer, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => join(layer, name)),
  );
  return new Map(files.map((file) => [file, importsOf(file, readFileSync(file, 'utf8'))]));
}

/** A way from a module back to itself, if there is one. */
function circle(graph: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>();
  const ways = [...graph.keys()].map((file) => circleFrom(file, (one) => graph.get(one) ?? [], done));
  return ways.find(({ length }) => length > 0) ?? [];
}

it('gives every folder of src one floor', () => {
  const folders = readdirSync('src', { withFileTypes: true }).filter((entry) => entry.isDirectory());
  expect(FLOORS.flat().sort()).toEqual(folders.map(({ name }) => name).sort());
});

it('imports in src from lower floors alone, types and workers included', () => {
  const sideways = [...modules('src')].flatMap(([file, named]) =>
    named
      .filter((other) => {
        const from = folderOf(file);
        const to = folderOf(other);
        return from && to && from !== to && floorOf.get(to)! >= floorOf.get(from)!;
      })
      .map((other) => `${file} -> ${other}`),
  );
  expect(sideways).toEqual([]);
});

it('has no circle of files, types included', () => {
  expect(circle(modules('shared', 'src', 'components', 'demo'))).toEqual([]);
  expect(circle(new Map(Object.entries({ a: ['b'], b: ['c'], c: ['b'] })))).toEqual(['b', 'c', 'b']);
});

it('has the order of the floors held by lint', async () => {
  const lint = new ESLint();
  /** What a module of a folder may not import, of these. */
  const refused = async (folder: string, sources: readonly string[]) => {
    const text = sources.map((source, k) => `export type { Any as Any${k} } from '${source}';\n`).join('');
    const [result] = await lint.lintText(text, { filePath: `src/${folder}/any.ts` });
    const found = result!.messages.filter(({ ruleId }) => ruleId === 'no-restricted-imports');
    return [...new Set(found.map(({ line }) => sources[line - 1]))];
  };
  for (const [floor, folders] of FLOORS.entries())
    for (const folder of folders) {
      const others = FLOORS.flat().filter((name) => name !== folder);
      const notBelow = others.filter((name) => FLOORS.findIndex((on) => on.includes(name)) >= floor);
      const path = (name: string) => `../${name}/any.ts`;
      expect(await refused(folder, others.map(path))).toEqual(notBelow.map(path));
    }
  const above = ['../../components/any.ts', '../../demo/any.ts', '../index.ts', 'lit', 'three', 'dexie'];
  expect(await refused('figures', [...above, '../../shared/any.ts'])).toEqual(above);
  expect(await refused('numerics', ['../../shared/any.ts'])).toEqual(['../../shared/any.ts']);
});

it('draws the same order for contributors', () => {
  const rows = readFileSync('DEVELOPERS.md', 'utf8').matchAll(/^\| (\d) +\| (`src\/[^|]+?) +\|/gm);
  const drawn = [...rows].map(([, floor, folders]) => [
    Number(floor),
    ...[...folders!.matchAll(/src\/([\w-]+)\//g)].map(([, name]) => name!),
  ]);
  const flat = drawn.flatMap(([floor, ...folders]) => folders.map((folder) => [folder, floor]));
  expect(flat).toEqual(FLOORS.flatMap((folders, floor) => folders.map((folder) => [folder, floor])));
});

it('sees imports that only run', () => {
  expect(modules('src/answers').get('src/answers/concurrent/fit-worker.ts')).toContain(
    'shared/without-code-generation.ts',
  );
});
