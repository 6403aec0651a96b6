import type { PlacedZone } from '../../blade/zones.ts';
import { BLEND_MM, centreLine, crossing, CROSSINGS_MM } from '../../figures/crossing.ts';
import type { Figure } from '../../figures/figure.ts';
import { zoneFigures } from '../../figures/zone-figures.ts';
import { zoneRatios } from '../../figures/zone-ratios.ts';
import { zonesAt } from '../fitted-reed.ts';
import { nearFloors, seenInZone, standingReadings } from '../standing-readings.ts';
import { removedOff, takenOff } from '../taken-off.ts';
import { believableByZone } from './believable.ts';
import { questionOpen, withQuestion } from './question-open.ts';
import type { Crossing, FiguredAtPass, ReedFigures, TableName } from './record.ts';
import { TABLES } from './tables.ts';

const kept = new WeakMap<FiguredAtPass['benched'], Map<number, ReedFigures>>();

/** The record of a reed at a pass; the same as long as the reed is the same. It must have been read. */
export function figuresOf(own: FiguredAtPass): ReedFigures {
  const { benched, pass } = own;
  const ofReed = kept.get(benched) ?? new Map<number, ReedFigures>();
  kept.set(benched, ofReed);
  const figures = ofReed.get(pass) ?? reedFigures(own);
  ofReed.set(pass, figures);
  return figures;
}

/** @param more Zones beside those of the style. */
export function reedFigures(own: FiguredAtPass, more: readonly PlacedZone[] = []): ReedFigures {
  const { benched, pass } = own;
  const model = benched.model!;
  const placed = once(() => [...zonesAt(benched, pass), ...more]);
  const standing = once(() => standingReadings(benched, pass));
  const near = once(() => nearFloors(benched, pass, standing()));
  const zones = once(() =>
    placed().map((zone) => ({ ...zoneFigures(model, pass, zone), ...seenInZone(benched, zone, standing()) })),
  );
  const crossings = once(() =>
    CROSSINGS_MM.map((thicknessMm): Crossing => {
      const at = crossing(model, pass, centreLine(model), thicknessMm);
      return { thicknessMm, ...(at && { at }) };
    }),
  );
  const ratios = once(() => zoneRatios(model, pass, placed()));
  const believable = once(() => believableByZone(model, pass, placed()));
  const removed = onceFor((before: number) => removedOff(benched, { before, after: pass }, placed()));
  const figures: ReedFigures = {
    own,
    of: `${benched.reed.label}, pass ${benched.assembled.passes[pass]!.index}`,
    get placed() {
      return placed();
    },
    get zones() {
      return zones();
    },
    get near() {
      return near();
    },
    get crossings() {
      return crossings();
    },
    get blend() {
      return crossings().find(({ thicknessMm }) => thicknessMm === BLEND_MM)?.at;
    },
    get ratios() {
      return ratios();
    },
    get believable() {
      return believable();
    },
    removed,
    taken: onceFor((before: number) => takenOff(benched, { before, after: pass }, placed(), removed(before))),
    table: onceFor((name: TableName) => withQuestion(TABLES[name](figures), questionOpen(benched, [pass]))),
  };
  return figures;
}

/** A zone's mean, as it stands everywhere. */
export function zoneMean(figures: ReedFigures, zone: string): Figure | undefined {
  return figures.table('zones').rows.find(({ name }) => name === zone)?.figures[0];
}

/** Where the blend stands, as it stands everywhere. */
export function blendFigure(figures: ReedFigures): Figure {
  const at = CROSSINGS_MM.indexOf(BLEND_MM);
  return figures.table('crossings').rows[at]!.figures[0]!;
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

function onceFor<K, T>(make: (key: K) => T): (key: K) => T {
  const made = new Map<K, T>();
  return (key) => {
    const value = made.get(key) ?? make(key);
    made.set(key, value);
    return value;
  };
}
