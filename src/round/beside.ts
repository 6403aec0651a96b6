import { ascending, median } from 'd3-array';
import type { Place } from '../../shared/blade.ts';
import type { Expectation } from './oddness.ts';

interface Read extends Place {
  readonly thicknessMm: number;
}

/** A guess at a place's thickness from others, and how far such guesses lie off in sound passes. */
interface Guess {
  readonly valueMm: number;
  readonly sdMm: number;
}

/** Rows farther off tell little of a place. Common practice, no source. */
const NEAR_MM = 3.2;
const NEAR_ACROSS = 0.85;
const SAME = 0.005;
/**
 * How far a guess may lie off, one standard deviation. Chosen on generated reeds of the seeds 100 to 139 and on invented
 * ones with a steep ridge: of 12,364 sound readings 7 were called odd as they came and 6 at the end; of 929 slips of
 * 0.09 mm or more 622 were told as they came and 916 by the end.
 */
const SD_MM = { along: 0.02, mirror: 0.026, facing: 0.026 } as const;
/** How much of their disagreement counts, with rows read to both sides and to one. Chosen together with the spreads. */
const APART = { between: 0.3, atEdge: 1.5 } as const;
/** A single guess may lean on a slip itself. */
const FEWEST = 2;

const isAt = (read: Read, { fromTipMm, across }: Pick<Place, 'fromTipMm' | 'across'>) =>
  Math.abs(read.fromTipMm - fromTipMm) < SAME && Math.abs(read.across - across) < SAME;

/** Nearest rows to either side of a place on its own blade. */
function rowsBeside(onBlade: readonly Read[], { fromTipMm }: Place): number[] {
  const rows = [...new Set(onBlade.map((read) => read.fromTipMm))].sort(ascending);
  const above = rows.findLast((row) => row < fromTipMm - SAME);
  const below = rows.find((row) => row > fromTipMm + SAME);
  return [above, below].filter(
    (row) => row !== undefined && Math.abs(row - fromTipMm) <= NEAR_MM,
  ) as number[];
}

/** A neighbour in the row, and what the next row says that the step between the two columns is. */
function parallel(onBlade: readonly Read[], place: Place): Guess[] {
  const at = (fromTipMm: number, across: number) =>
    onBlade.find((read) => isAt(read, { fromTipMm, across }))?.thicknessMm;
  const columns = onBlade
    .filter((read) => Math.abs(read.fromTipMm - place.fromTipMm) < SAME)
    .map(({ across }) => across)
    .filter((across) => Math.abs(across - place.across) <= NEAR_ACROSS);
  return rowsBeside(onBlade, place).flatMap((row) =>
    columns.flatMap((column) => {
      const [beside, over, corner] = [at(place.fromTipMm, column), at(row, place.across), at(row, column)];
      if (beside === undefined || over === undefined || corner === undefined) return [];
      return [{ valueMm: beside + over - corner, sdMm: SD_MM.along }];
    }),
  );
}

/** The rows to both sides in its own column, by their distances. */
function between(onBlade: readonly Read[], place: Place): Guess[] {
  const [above, below] = rowsBeside(onBlade, place).map((fromTipMm) =>
    onBlade.find((read) => isAt(read, { fromTipMm, across: place.across })),
  );
  if (!above || !below) return [];
  const share = (place.fromTipMm - above.fromTipMm) / (below.fromTipMm - above.fromTipMm);
  return [
    { valueMm: above.thicknessMm + share * (below.thicknessMm - above.thicknessMm), sdMm: SD_MM.along },
  ];
}

/** The other side of the blade and both sides of the facing one: makers scrape them alike. */
function alike(others: readonly Read[], place: Place): Guess[] {
  return others.flatMap((read) => {
    if (Math.abs(read.fromTipMm - place.fromTipMm) > SAME) return [];
    if (Math.abs(Math.abs(read.across) - Math.abs(place.across)) > SAME) return [];
    return [{ valueMm: read.thicknessMm, sdMm: read.blade === place.blade ? SD_MM.mirror : SD_MM.facing }];
  });
}

/**
 * What a place of a blade would read by what was read about it in the same round: beside it, in the rows next to it, on
 * its other side and on the facing blade. The median of all such guesses, which one slip among them does not move far.
 * Undefined where fewer than two tell.
 */
export function expectationBeside(place: Place, others: readonly Read[]): Expectation | undefined {
  const onBlade = others.filter(({ blade }) => blade === place.blade);
  const guesses = [...parallel(onBlade, place), ...between(onBlade, place), ...alike(others, place)];
  const valueMm = median(guesses, (guess) => guess.valueMm);
  const sdMm = median(guesses, (guess) => guess.sdMm);
  if (guesses.length < FEWEST || valueMm === undefined || sdMm === undefined) return undefined;
  // Where guesses disagree, as at a steep ridge, none of them is worth much.
  const apartMm = median(guesses, (guess) => Math.abs(guess.valueMm - valueMm)) ?? 0;
  const apart = rowsBeside(onBlade, place).length === 2 ? APART.between : APART.atEdge;
  return { valueMm: Math.max(0, valueMm), sdMm: Math.hypot(sdMm, apart * apartMm), by: 'beside' };
}
