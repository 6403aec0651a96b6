/**
 * How many documents or acts are worked on in one go. A transaction goes on through any number of slices; between them
 * the page draws and hears its maker. Common practice, no source.
 */
const SLICE = 25;

export function* slicesOf<T>(items: readonly T[], length = SLICE): Generator<readonly T[]> {
  for (let at = 0; at < items.length; at += length) yield items.slice(at, at + length);
}

/** Slices of places in a list. Items with one id are never parted. */
export function* placesById(items: readonly { readonly id: string }[]): Generator<readonly number[]> {
  const groups = new Map<string, number[]>();
  for (const [place, { id }] of items.entries()) {
    const group = groups.get(id);
    if (group) group.push(place);
    else groups.set(id, [place]);
  }
  for (const slice of slicesOf([...groups.values()])) yield slice.flat();
}
