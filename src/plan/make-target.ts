import { InputError } from '../../shared/errors.ts';
import type { Example, Recipe, TargetDocument } from '../../shared/target.ts';
import { zonesAt, type FittedReed, type ReedAtPass } from '../answers/fitted-reed.ts';
import { stretched } from '../blade/zones.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import { handTarget, usualTarget } from './hand-target.ts';
import { hybridTarget, targetFromReed, targetFromSeveral, type Target } from './target.ts';

/** What a target is made of, with the fitted reeds that it names. */
export interface Followed {
  /** The maker's own name for it; absent for a plain favourite. */
  readonly name?: string;
  readonly recipe: Recipe;
  readonly placing: TargetDocument['placing'];
  readonly reeds: readonly FittedReed[];
}

/**
 * Makes a target for a reed on a grid.
 *
 * @throws InputError when a reed that it names is not there or was never read.
 */
export function makeTarget(followed: Followed, own: ReedAtPass, grid: MapGrid): Target {
  const { name, recipe, placing, reeds } = followed;
  const { assembled } = own.benched;
  const one = (example: Example) => {
    const reed = exampleReed(reeds, example);
    const { lengths } = reed.benched.assembled.frame;
    return placing === 'tip'
      ? targetFromReed(reed, grid)
      : targetFromReed(reed, grid, (y) => stretched(y, assembled.frame.lengths, lengths));
  };
  const blade = { style: assembled.style, frame: assembled.frame, grid };
  const named = (target: Target): Target => (name === undefined ? target : { ...target, name });
  switch (recipe.from) {
    case 'reeds': {
      const targets = recipe.examples.map(one);
      if (targets.length === 1) return named(targets[0]!);
      return targetFromSeveral(name ?? `the mean of ${targets.length}`, targets);
    }
    case 'tip-and-back':
      return named(hybridTarget(one(recipe.tip), one(recipe.back), recipe.atMm, recipe.overMm));
    case 'zones':
      return handTarget(
        name ?? 'your own values',
        blade,
        assembled.passes[own.pass]!,
        zonesAt(own.benched, own.pass),
        recipe.zones,
      );
    case 'style':
      return named(usualTarget(blade));
  }
}

function exampleReed(reeds: readonly FittedReed[], { reedId, passIndex }: Example): ReedAtPass {
  const benched = reeds.find(({ reed }) => reed.id === reedId);
  if (!benched) throw new InputError('target: a reed that it is made of is no longer in the library');
  const pass = benched.passes.findIndex(({ index }) => index === passIndex);
  return { benched, pass: pass < 0 ? benched.passes.length - 1 : pass };
}
