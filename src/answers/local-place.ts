import { BLADES, type Place } from '../../shared/blade.ts';
import { isInZone } from '../blade/zones.ts';
import { combine, estimate, pointFunctional, valueMm } from '../figures/functional.ts';
import { mapGrid, mirroredMap } from '../figures/surface-map.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { zonesAt, type FittedReed } from './fitted-reed.ts';
import { standingReadings } from './standing-readings.ts';

/** One place where a blade differs from its own other side, and which no cause of a whole zone explains. */
export interface LocalPlace {
  readonly place: Place;
  /** Less its mirror place on the same blade. */
  readonly mirror: Estimate;
  /** Through both blades, less the same at the mirror place: what light shows. */
  readonly through: Estimate;
  /** Names of the zones that it lies in. */
  readonly zones: readonly string[];
}

/** A longer stretch is no single place, mm. Common practice, no source. */
const LONGEST_MM = 5;
const GRID = { along: 61, across: 31 };
const OUTERMOST = 0.8;

/** The one place where the two sides of a blade differ most, if that is measurable over the whole map and short. */
export function localPlace(benched: FittedReed, pass: number): LocalPlace | undefined {
  const { model, assembled } = benched;
  if (!model?.blades.A || !model.blades.B) return undefined;
  const grid = mapGrid(assembled.passes[pass]!.bladeLengthMm, GRID.along, GRID.across);
  const found = BLADES.flatMap((blade) => {
    const map = mirroredMap(model, blade, pass, grid);
    const factor = map.factor();
    const readTo = Math.max(
      ...standingReadings(benched, pass).map((one) => (one.blade === blade ? one.fromTipMm : 0)),
    );
    const isTold = (at: number) => Math.abs(map.valuesMm[at]!) > factor * map.uMm[at]!;
    return map.ysMm.flatMap((fromTipMm, row) =>
      map.us.flatMap((across, column) => {
        const at = row * map.us.length + column;
        if (across <= 0 || across > OUTERMOST || fromTipMm > readTo || !isTold(at)) return [];
        let [from, to] = [row, row];
        while (from > 0 && isTold(at - (row - from + 1) * map.us.length)) from--;
        while (to < map.ysMm.length - 1 && isTold(at + (to - row + 1) * map.us.length)) to++;
        const lengthMm = map.ysMm[to]! - map.ysMm[from]!;
        return [{ blade, fromTipMm, across, sizeMm: Math.abs(map.valuesMm[at]!), lengthMm }];
      }),
    );
  }).sort((a, b) => b.sizeMm - a.sizeMm);
  const [most] = found;
  if (!most || found.some(({ lengthMm }) => lengthMm > LONGEST_MM)) return undefined;
  return told(benched, pass, most);
}

/** Of a place and its mirror, the one that differs more from what faces it. */
function told(benched: FittedReed, pass: number, { blade, fromTipMm, across }: Place): LocalPlace {
  const model = benched.model!;
  const other = blade === 'A' ? 'B' : 'A';
  const at = (on: 'A' | 'B', u: number) => pointFunctional(model, { blade: on, pass, fromTipMm, across: u });
  const fromFacing = (u: number) =>
    Math.abs(
      valueMm(
        model,
        combine([
          [1, at(blade, u)],
          [-1, at(other, -u)],
        ]),
      ),
    );
  const odd = fromFacing(across) >= fromFacing(-across) ? across : -across;
  const own = combine([
    [1, at(blade, odd)],
    [-1, at(blade, -odd)],
  ]);
  const facing = combine([
    [1, at(other, -odd)],
    [-1, at(other, odd)],
  ]);
  const through = combine([
    [1, own],
    [1, facing],
  ]);
  return {
    place: { blade, fromTipMm, across: odd },
    mirror: estimate(model, own),
    through: estimate(model, through),
    zones: zonesAt(benched, pass).flatMap((zone) => (isInZone(zone, fromTipMm, odd) ? [zone.name] : [])),
  };
}
