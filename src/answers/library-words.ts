/** What the maker's other reeds did for a reed that was read in few places. Plain data. */
export interface FromLibrary {
  /** How many taught. */
  readonly reeds: number;
  readonly readings: number;
  /** This reed is unlike them: its figures rest on its own readings alone. */
  readonly isOutside: boolean;
  /** The last of them are of another kind than those before. */
  readonly isChanging: boolean;
}

/** A reed that was read in so many places of a blade, or more, in any pass speaks for itself. */
export const FULL_ENOUGH = 26;

/** What is said of it under How sure. */
export function libraryWords({ reeds, readings, isOutside, isChanging }: FromLibrary): string {
  const alone = `its figures rest on its own ${readings} readings alone: read more places.`;
  const another = 'Your last reeds are of another kind than those before them';
  if (isOutside)
    return `This reed is unlike your other ${reeds}, so ${alone}${isChanging ? ` ${another}.` : ''}`;
  if (isChanging) return `${another}, and this one may be of either: ${alone}`;
  return `From ${readings} readings here and ${reeds} of your reeds.`;
}
