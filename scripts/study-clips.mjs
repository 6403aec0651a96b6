// Forgets clips in generated reeds and sets what is offered beside them: npm run study:clips -- [REEDS A CELL] [FIRST SEED] [FAMILY,...].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [reeds = '3', first = '840001', families = 'place,spine,rails,thin,mixed'] = process.argv.slice(2);
const { forgottenClip } = await import(pathToFileURL(await bundleForNode('tests/study/clip-study.ts')).href);
let seed = Number(first);
const clips = families.split(',').flatMap((family) =>
  ['dial', 'fine'].flatMap((gauge) =>
    [0.05, 0.15].flatMap((handMm) =>
      [0.2, 0.3, 0.4, 0.5, 0.6, 0.8].flatMap((clipMm) =>
        Array.from({ length: Number(reeds) }, (_, k) => {
          const settings = { family, gauge, handMm, extent: k % 2 ? 'ragged' : 'full', seed: seed++ };
          return { family, gauge, handMm, clipMm, fault: forgottenClip({ ...settings, count: 2 }, clipMm) };
        }),
      ),
    ),
  ),
);
console.log(
  `seeds ${first} to ${seed - 1}; mm; errors of what is offered, their bias with its 95 % interval`,
);

function row(own) {
  const errors = own.flatMap(({ fault, clipMm }) =>
    fault ? [{ mm: fault.valueMm - clipMm, u: fault.uMm }] : [],
  );
  const n = errors.length;
  const bias = errors.reduce((sum, { mm }) => sum + mm, 0) / n;
  const sd = Math.sqrt(errors.reduce((sum, { mm }) => sum + (mm - bias) ** 2, 0) / (n - 1));
  const within = errors.filter(({ mm, u }) => Math.abs(mm) <= 1.96 * u).length;
  return {
    clips: own.length,
    'offered %': ((100 * n) / own.length).toFixed(1),
    bias: `${bias.toFixed(3)} ±${((1.96 * sd) / Math.sqrt(n)).toFixed(3)}`,
    sd: sd.toFixed(3),
    u: (errors.reduce((sum, { u }) => sum + u, 0) / n).toFixed(3),
    'covered %': ((100 * within) / n).toFixed(1),
  };
}
const rows = { all: row(clips) };
for (const key of ['family', 'gauge', 'handMm', 'clipMm'])
  for (const value of new Set(clips.map((clip) => clip[key])))
    rows[`${key} ${value}`] = row(clips.filter((clip) => clip[key] === value));
console.table(rows);
