import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { circleFrom, importsOf } from '../../../scripts/circles.mjs';
import { FLOORS, refusal } from '../../../scripts/floors.mjs';

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

describe('lint', () => {
  it('holds the order of the floors', () => {
    for (const [floor, folders] of FLOORS.entries())
      for (const folder of folders) {
        const refused = FLOORS.flat().filter((other) =>
          refusal(`src/${folder}/any.ts`, `../${other}/any.ts`),
        );
        const notBelow = FLOORS.slice(floor)
          .flat()
          .filter((other) => other !== folder);
        expect(refused, folder).toEqual(folder === 'numerics' ? FLOORS.flat().slice(1) : notBelow);
      }
  });

  it.each([
    [
      'src/figures/any.ts',
      '../../components/any.ts',
      '../../demo/any.ts',
      '../index.ts',
      'lit',
      '@lit/task',
      'three',
      'dexie',
    ],
    ['src/index.ts', '../demo/any.ts', 'lit', 'three', 'dexie'],
    ['src/numerics/any.ts', '../../shared/any.ts'],
    ['src/ledger/any.ts', 'three', 'lit'],
    ['shared/any.ts', '../src/any.ts', 'fflate', 'lit'],
    [
      'components/case/any.ts',
      '../../demo/any.ts',
      'dexie',
      'three',
      'three/addons/any.js',
      'lit/directives/unsafe-html.js',
    ],
    ['components/scene/any.ts', 'lit', 'dexie'],
  ])('refuses %s what is above it or has another owner', (file, ...sources) => {
    for (const source of sources) expect(refusal(file, source), source).toBeDefined();
  });

  it.each([
    ['src/figures/any.ts', '../../shared/any.ts', '../numerics/any.ts', './other.ts', 'ml-matrix'],
    ['src/ledger/any.ts', 'dexie'],
    ['shared/any.ts', 'zod', './other.ts'],
    ['components/case/any.ts', '../../src/any.ts', '../scene/any.ts', 'lit', '@lit/task'],
    ['components/scene/any.ts', 'three'],
    ['tests/unit/any.test.ts', '../../demo/any.ts', 'three'],
  ])('lets %s have the rest', (file, ...sources) => {
    for (const source of sources) expect(refusal(file, source), source).toBeUndefined();
  });

  it('asks every file', () => {
    const { rules } = JSON.parse(readFileSync('.oxlintrc.json', 'utf8')) as { rules: Record<string, string> };
    expect(rules).toMatchObject({ 'house/imports': 'error', 'house/no-circle': 'error' });
  });
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
