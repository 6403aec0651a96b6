import { BLADES, type Blade } from '../../../shared/blade.ts';
import type { PlacedZone } from '../../blade/zones.ts';
import { believableMap, believableOverMm } from '../../figures/believable-map.ts';
import { mapGrid } from '../../figures/surface-map.ts';
import { zoneArea } from '../../figures/zone-mean.ts';
import type { ReedPosterior } from '../../surface/reed-posterior.ts';

const GRID = { along: 61, across: 31 };

/** The smallest change to believe between two single readings at a usual place of each zone, 95 %, mm. */
export function believableByZone(
  model: ReedPosterior,
  pass: number,
  zones: readonly PlacedZone[],
): Partial<Record<Blade, ReadonlyMap<string, number>>> {
  const geometry = model.passes[pass]!;
  const grid = mapGrid(geometry.bladeLengthMm, GRID.along, GRID.across);
  return Object.fromEntries(
    BLADES.filter((blade) => model.blades[blade]).map((blade) => {
      const map = believableMap(model, blade, pass, grid);
      const byZone = zones.flatMap((zone) => {
        const changeMm = believableOverMm(map, zoneArea(zone, geometry));
        return changeMm === undefined ? [] : [[zone.name, changeMm] as const];
      });
      return [blade, new Map(byZone)];
    }),
  );
}
