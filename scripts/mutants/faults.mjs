// The faults that may be planted: those of the mutation library, and numbers, which it leaves alone. Words are left
// alone: tests say where they are the point.
import { readFileSync } from 'node:fs';
import { Instrumenter } from '@stryker-mutator/instrumenter';

const { allMutators } = await import(
  new URL('mutators/mutate.js', import.meta.resolve('@stryker-mutator/instrumenter')).href
);

/** A threshold, a factor, a margin: a whole number one larger, any other a quarter larger. */
const numberMutator = {
  name: 'Number',
  *mutate({ node, parent }) {
    if (node.type !== 'NumericLiteral' || (parent.key === node && !parent.computed)) return;
    yield {
      type: 'NumericLiteral',
      value: Number.isInteger(node.value) ? node.value + 1 : node.value * 1.25,
    };
  },
};
const mutators = [...allMutators.filter(({ name }) => name !== 'StringLiteral'), numberMutator];
const useMutators = (used) => allMutators.splice(0, allMutators.length, ...used);

const placeOf = ({ start, end }) => [start.line, start.column, end.line, end.column].join(':');

/** A source with its faults, each behind a switch. */
async function instrument(files) {
  const silent = () => undefined;
  const quiet = { isDebugEnabled: () => false, debug: silent, info: silent, warn: silent };
  const options = { excludedMutations: [], ignorers: [], plugins: null };
  const inputs = files.map((name) => ({ name, content: readFileSync(name, 'utf8'), mutate: true }));
  return new Instrumenter(quiet).instrument(inputs, options);
}

/** @returns A key for each fault of some files. */
export async function faultsIn(files) {
  useMutators(mutators);
  const found = [];
  for (const file of files) {
    const seen = new Map();
    for (const mutant of (await instrument([file])).mutants) {
      const kind = kindOf(mutant);
      const nth = seen.get(kind) ?? 0;
      seen.set(kind, nth + 1);
      if (mutant.status === undefined) found.push({ file, kind, key: `${kind}:${nth}` });
    }
  }
  return found;
}

/** Where a fault stands, and which mutator makes it. A mutant counts lines from 0, a node from 1. */
const kindOf = ({ location: { start, end }, mutatorName }) =>
  `${placeOf({ start: { ...start, line: start.line + 1 }, end: { ...end, line: end.line + 1 } })}:${mutatorName}`;

/**
 * @param faults some of those of `faultsIn`
 * @returns sources by file, these faults behind switches, and each fault as its switch names it
 */
export async function plant(faults) {
  const keys = new Set(faults.map(({ key }) => key));
  useMutators(
    mutators.map(({ name, mutate }) => ({
      name,
      *mutate(path) {
        let nth = 0;
        for (const replacement of mutate(path)) {
          const key = `${placeOf(path.node.loc)}:${name}:${nth++}`;
          if (keys.has(key)) yield replacement;
        }
      },
    })),
  );
  const { files, mutants } = await instrument([...new Set(faults.map(({ file }) => file))]);
  const sources = Object.fromEntries(files.map(({ name, content }) => [name, content]));
  // What stands at the same place of another file has a switch too, and is left alone.
  const drawn = new Set(faults.map(({ file, kind }) => `${file} ${kind}`));
  return {
    sources,
    planted: mutants.filter((mutant) => drawn.has(`${mutant.fileName} ${kindOf(mutant)}`)),
  };
}

/** Some of a list, drawn with a seed, the same ones each time. */
export function draw(list, count, seed) {
  let state = seed;
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const order = list.map((item) => [next(), item]).sort(([a], [b]) => a - b);
  return order.slice(0, count).map(([, item]) => item);
}
