// What may import what: the layers of the project, the folders of `src`, the packages that have one owner.
import { posix } from 'node:path';

/** A layer imports from those before it alone. */
const LAYERS = ['shared', 'src', 'components', 'demo'];

/**
 * The folders of `src`, from the ground up. A folder imports from lower floors alone, types included: not from its
 * own floor, and never from above. Lint enforces it; the table in DEVELOPERS.md stands in the same order.
 */
export const FLOORS = [
  ['numerics', 'words', 'workers'],
  ['learning', 'blade', 'climate', 'exchange', 'gauge-lines', 'ledger'],
  ['gauge', 'incoming'],
  ['surface', 'crow'],
  ['figures', 'reed', 'cane', 'family'],
  ['round', 'rotation'],
  ['faults', 'sharing'],
  ['answers'],
  ['plan', 'traits', 'report'],
  ['face'],
];

/** The folders that alone may import a package. */
const OWNERS = { dexie: ['src/ledger'], three: ['components/scene'] };
const WITHOUT_ELEMENTS = ['shared', 'src', 'components/scene'];
const UNSAFE = {
  'lit/directives/unsafe-html.js': 'Text is text: no markup from data.',
  'lit/directives/unsafe-svg.js': 'Text is text: no markup from data.',
  'lit/directives/style-map.js': 'Blocked by the content security policy; use cssVars.',
};

const isWithin = (path, folder) => path === folder || path.startsWith(`${folder}/`);
const floorOf = (folder) => FLOORS.findIndex((folders) => folders.includes(folder));

function refusedPackage(file, name) {
  if (UNSAFE[name]) return UNSAFE[name];
  if (isWithin(file, 'shared') && name !== 'zod') return 'shared imports zod only.';
  if (['lit', '@lit'].some((one) => isWithin(name, one)))
    return WITHOUT_ELEMENTS.some((folder) => isWithin(file, folder))
      ? `Only the elements import ${name}.`
      : undefined;
  const [owned, owners] = Object.entries(OWNERS).find(([one]) => isWithin(name, one)) ?? [];
  return owners && !owners.some((folder) => isWithin(file, folder))
    ? `Only ${owners.join()} imports ${owned}.`
    : undefined;
}

function refusedFile(file, target) {
  const [[layer, folder], [otherLayer, other]] = [file, target].map((path) => path.split('/'));
  if (LAYERS.indexOf(otherLayer) > LAYERS.indexOf(layer))
    return `Imports go down only: ${LAYERS.toReversed().join(' -> ')}.`;
  if (layer !== 'src' || floorOf(folder) < 0 || other === folder) return undefined;
  if (folder === 'numerics') return 'numerics imports nothing from the rest.';
  const isAbove = other === 'index.ts' || floorOf(other) >= floorOf(folder);
  return otherLayer === 'src' && isAbove
    ? `src/${folder} stands on floor ${floorOf(folder)} of scripts/floors.mjs and imports from lower floors only.`
    : undefined;
}

/** Why a file of a layer may not import a module, both as they are written; undefined where it may. */
export function refusal(file, source) {
  if (!LAYERS.includes(file.split('/')[0])) return undefined;
  return source.startsWith('.')
    ? refusedFile(file, posix.join(posix.dirname(file), source))
    : refusedPackage(file, source);
}
