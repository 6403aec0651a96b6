/**
 * The folders of `src`, from the ground up. A folder imports from lower floors alone, types included: not from its
 * own floor, and never from above. Lint enforces it; the table in DEVELOPERS.md stands in the same order.
 */
export const FLOORS = [
  ['numerics', 'words', 'workers'],
  ['learning', 'blade', 'climate', 'exchange', 'gauge-lines', 'ledger'],
  ['gauge', 'incoming', 'sharing'],
  ['surface', 'crow'],
  ['figures', 'reed', 'cane'],
  ['round', 'rotation'],
  ['faults'],
  ['answers'],
  ['plan', 'traits', 'report'],
  ['face'],
];
