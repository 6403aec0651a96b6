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

/** @returns A key for each fault of some files. */
export async function faultsIn(files) {
  useMutators(mutators);
  const silent = () => undefined;
  const quiet = { isDebugEnabled: () => false, debug: silent, info: silent, warn: silent };
  const options = { excludedMutations: [], ignorers: [], plugins: null };
  const found = [];
  for (const file of files) {
    const content = readFileSync(file, 'utf8');
    const { mutants } = await new Instrumenter(quiet).instrument(
      [{ name: file, content, mutate: true }],
      options,
    );
    const seen = new Map();
    for (const { location, mutatorName, status } of mutants) {
      const { start, end } = location;
      // A mutant counts lines from 0, a node from 1.
      const place = placeOf({
        start: { ...start, line: start.line + 1 },
        end: { ...end, line: end.line + 1 },
      });
      const kind = `${place}:${mutatorName}`;
      const nth = seen.get(kind) ?? 0;
      seen.set(kind, nth + 1);
      if (status === undefined) found.push({ file, key: `${kind}:${nth}` });
    }
  }
  return found;
}

/** From now on these faults alone are planted. */
export function keepOnly(faults) {
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
