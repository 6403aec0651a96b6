import type { Example, Recipe } from '../../shared/target.ts';

/** The reeds that a recipe names. */
export function examplesOf(recipe: Recipe): readonly Example[] {
  if (recipe.from === 'reeds') return recipe.examples;
  return recipe.from === 'tip-and-back' ? [recipe.tip, recipe.back] : [];
}
