import { BLADES, type Blade } from '../../shared/blade.ts';
import type { Strokes } from '../../shared/pass.ts';
import { zonesAt, type FittedReed } from '../answers/fitted-reed.ts';
import { combine, estimate } from '../figures/functional.ts';
import { meanRemovedOver } from '../figures/removed.ts';
import { zoneArea } from '../figures/zone-mean.ts';
import type { Estimate } from '../surface/reed-model.ts';
import type { YieldEntry } from './knife-yield.ts';

/** What stands for a knife that was not named. */
export const UNNAMED_KNIFE = 'no name';

/** Work that was logged with its strokes, and what the readings before and after it say that it took. */
export interface LoggedWork extends YieldEntry {
  readonly knife: string;
  readonly reed: string;
  readonly passIndex: number;
}

/** All logged strokes of a reed that lie between two passes which were read. Regions are the style's zones. */
export function loggedWork(benched: FittedReed): LoggedWork[] {
  const { passes, reed } = benched;
  return passes.flatMap((pass, after) => {
    const { scrape } = pass;
    const before = after - 1;
    if (!scrape || before < 0 || pass.readings.length === 0 || passes[before]!.readings.length === 0)
      return [];
    return scrape.places.flatMap((place): LoggedWork[] => {
      const removed = removedFrom(benched, { before, after }, place);
      if (!removed || !place.strokes) return [];
      return [
        {
          knife: scrape.knife ?? UNNAMED_KNIFE,
          reed: reed.label,
          passIndex: pass.index,
          region: removed.zone,
          strokes: place.strokes,
          removed: removed.mean,
        },
      ];
    });
  });
}

function removedFrom(
  benched: FittedReed,
  pair: { readonly before: number; readonly after: number },
  { zone: word, blade, side }: Strokes,
): { readonly zone: string; readonly mean: Estimate } | undefined {
  const model = benched.model!;
  const wanted = word.toLowerCase();
  const zone = zonesAt(benched, pair.after).find(
    ({ name, title }) => name === wanted || title.toLowerCase() === wanted,
  );
  if (!zone) return undefined;
  const area = zoneArea(zone, model.passes[pair.after]!, side);
  const blades: readonly Blade[] = blade === 'both' ? BLADES : [blade];
  const parts = blades
    .filter((name) => model.blades[name])
    .flatMap((name) => meanRemovedOver(model, pair, name, area) ?? []);
  if (parts.length === 0) return undefined;
  const mean = estimate(model, combine(parts.map((part) => [1 / parts.length, part])));
  return mean.uMm > 0 ? { zone: zone.name, mean } : undefined;
}
