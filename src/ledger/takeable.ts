import type { Id } from '../../shared/ids.ts';
import type { LibraryDocument, NotChosen } from '../../shared/library.ts';
import type { Pass } from '../../shared/pass.ts';
import { canonicalJson } from './canonical.ts';
import { contentOf } from './differences.ts';
import type { Siblings } from './sides.ts';
import type { Snapshot } from './snapshot.ts';

/** A side that was not chosen, and the document as it is now. */
export interface Takeable {
  readonly one: NotChosen;
  readonly now: Siblings;
}

const textOf = (document: LibraryDocument) => canonicalJson(contentOf(document));

/**
 * The sides that can be taken instead of what is there, last choice first: those of documents in use, each content once,
 * without those that say what the document says now.
 *
 * @param passes Passes in use of which a side was not chosen, as they are now.
 */
export function recoverable(
  all: readonly NotChosen[],
  { live, disagreements }: Pick<Snapshot, 'live' | 'disagreements'>,
  passes: readonly Pass[],
): readonly Takeable[] {
  const now = new Map<Id, Siblings>();
  for (const one of Object.values(live).flat()) if (!('readingCount' in one)) now.set(one.id, [one]);
  for (const one of passes) now.set(one.id, [one]);
  for (const sides of disagreements) if (now.has(sides[0]!.id)) now.set(sides[0]!.id, sides);
  const contents = new Map<string, Takeable>();
  for (const one of [...all].sort((a, b) => Date.parse(a.at) - Date.parse(b.at))) {
    const sides = now.get(one.side.id);
    const text = textOf(one.side);
    if (sides && !sides.some((side) => textOf(side) === text))
      contents.set(`${one.side.id} ${text}`, { one, now: sides });
  }
  return [...contents.values()].reverse();
}
