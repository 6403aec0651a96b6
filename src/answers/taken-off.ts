import { BLADES, type Blade } from '../../shared/blade.ts';
import { largestPlace, measurable } from '../figures/measurable.ts';
import { removedByZone, type PassPair, type ZoneRemoval } from '../figures/removed.ts';
import { mapGrid, removedMap, type FigureMap } from '../figures/surface-map.ts';
import { zonesAt, type BenchedReed } from './benched-reed.ts';
import { acrossWords, isMeasurable, listed, place, roughly, type Writing } from './figure-words.ts';
import type { Answer } from './there-now.ts';

/** What came off one zone of each blade. */
export interface RemovalRow {
  readonly name: string;
  readonly title: string;
  readonly blades: Readonly<Partial<Record<Blade, ZoneRemoval>>>;
}

export interface TakenOff {
  readonly pair: PassPair;
  readonly rows: readonly RemovalRow[];
  readonly maps: Readonly<Partial<Record<Blade, FigureMap>>>;
  /** The largest measurable loss and the largest measurable growth of each blade. */
  readonly most: Readonly<Partial<Record<Blade, ReturnType<typeof largestPlace>>>>;
  readonly growth: Readonly<Partial<Record<Blade, ReturnType<typeof largestPlace>>>>;
}

const ALONG = 61;
const ACROSS = 31;

/** What a pass took off since an earlier one, on the later pass's blade. */
export function takenOff(benched: BenchedReed, pair: PassPair): TakenOff {
  const model = benched.model!;
  const zones = zonesAt(benched, pair.after);
  const byZone = removedByZone(model, pair, zones);
  const maps: Partial<Record<Blade, FigureMap>> = {};
  const most: Partial<Record<Blade, ReturnType<typeof largestPlace>>> = {};
  const growth: Partial<Record<Blade, ReturnType<typeof largestPlace>>> = {};
  for (const blade of BLADES.filter((name) => model.blades[name])) {
    const grid = mapGrid(model.passes[pair.after]!.bladeLengthMm, ALONG, ACROSS);
    const map = removedMap(model, blade, pair.before, pair.after, grid);
    maps[blade] = map;
    const sure = measurable(map);
    const only = (sign: 1 | -1) => ({
      ...map,
      valuesMm: map.valuesMm.map((value, i) => (sure[i] === 1 && sign * value > 0 ? sign * value : 0)),
    });
    const [loss, gain] = [largestPlace(only(1)), largestPlace(only(-1))];
    if (loss.valueMm > 0) most[blade] = loss;
    if (gain.valueMm > 0) growth[blade] = gain;
  }
  const rows = zones.map(({ name, title }) => ({
    name,
    title,
    blades: Object.fromEntries(
      BLADES.flatMap((blade) => {
        const removal = byZone[blade]?.get(name);
        return removal ? [[blade, removal]] : [];
      }),
    ),
  }));
  return { pair, rows, maps, most, growth };
}

/** The answer to "What did I just take?" */
export function sayTakenOff({ assembled }: BenchedReed, taken: TakenOff, writing: Writing): Answer {
  const { index } = assembled.passes[taken.pair.after]!;
  const parts = taken.rows.flatMap(({ title, blades }) => {
    const sure = BLADES.flatMap((blade) => {
      const mean = blades[blade]?.mean;
      return mean && isMeasurable(mean) && mean.valueMm > 0.004 ? [mean.valueMm] : [];
    });
    if (sure.length === 0) return [];
    const mean = sure.reduce((sum, value) => sum + value, 0) / sure.length;
    return [{ mean, words: `${roughly(mean, writing)} from the ${title.toLowerCase()}` }];
  });
  const largest = [...parts].sort((a, b) => b.mean - a.mean).slice(0, 3);
  const growth = sayPlaces('reads thicker', taken.growth, writing);
  return {
    say:
      largest.length === 0
        ? `Pass ${index} took nothing that can be told from the gauge's own doubt.`
        : `Pass ${index} took about ${listed(largest.map(({ words }) => words))}.`,
    ...mindOf(taken, writing),
    ...(growth && { aside: `${growth}. Cane does not grow: look for a fault in the readings.` }),
  };
}

function mindOf({ most }: TakenOff, writing: Writing): Pick<Answer, 'mind'> {
  const words = sayPlaces('lost', most, writing);
  return words ? { mind: `Most: ${words}.` } : {};
}

function sayPlaces(verb: string, places: TakenOff['most'], writing: Writing): string | undefined {
  const words = BLADES.flatMap((blade) => {
    const at = places[blade];
    return at
      ? [
          `${blade} ${verb} ${roughly(at.valueMm, writing)} at ${place(at.fromTipMm, writing)}, ${acrossWords(at.across)}`,
        ]
      : [];
  });
  return words.length > 0 ? listed(words) : undefined;
}
