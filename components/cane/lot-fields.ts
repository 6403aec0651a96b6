import type { Lot } from '../../shared/cane.ts';
import type { Field } from '../forms/typed-form.ts';

/** What a maker writes about a lot, as quality is judged at the desk. */
export const LOT_FIELDS: readonly Field<Extract<keyof Lot, string>>[] = [
  { name: 'code', words: 'Letters of the lot', kind: 'text' },
  { name: 'source', words: 'Where it comes from', kind: 'text' },
  { name: 'boughtOn', words: 'Bought on', kind: 'day' },
  { name: 'harvestYear', words: 'Year of harvest', kind: 'number' },
  { name: 'pieces', words: 'Pieces', kind: 'number' },
  { name: 'grams', words: 'Weight, g', kind: 'number' },
  { name: 'price', words: 'Price', kind: 'text' },
  { name: 'diameterMinMm', words: 'Tube diameter from, mm', kind: 'number' },
  { name: 'diameterMaxMm', words: 'to, mm', kind: 'number' },
  { name: 'wallMm', words: 'Wall, mm', kind: 'number' },
  { name: 'colour', words: 'Colour', kind: 'text' },
  { name: 'grain', words: 'Grain, 1 coarse to 5 fine', kind: 'scale' },
  { name: 'bark', words: 'Bark, 1 rough to 5 even', kind: 'scale' },
  { name: 'straightness', words: 'Straightness, 1 to 5', kind: 'scale' },
  { name: 'note', words: 'Note', kind: 'long' },
];
