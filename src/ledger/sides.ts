import type { LibraryDocument } from '../../shared/library.ts';
import { canonicalJson, compareText } from './canonical.ts';
import { compareVersions } from './versions.ts';

/**
 * The sides of one document: every version that no other has seen and replaced. One side is the rule; more are a
 * disagreement, kept until the maker settles it.
 */
export type Siblings = readonly LibraryDocument[];

const writes = ({ versions }: LibraryDocument) =>
  Object.values(versions).reduce((total, count) => total + count, 0);

/** The side shown first: a live one before a deleted one, then the one written more, then by its text. */
function compareSides(a: LibraryDocument, b: LibraryDocument): number {
  const deleted = Number(a.deletedAt !== undefined) - Number(b.deletedAt !== undefined);
  return deleted || writes(b) - writes(a) || compareText(canonicalJson(a), canonicalJson(b));
}

/**
 * What stays of several versions of one document: a version goes when another has seen it. Order and repetition of
 * the input do not matter. Two versions with equal vectors and unequal content (a copied profile) both stay.
 */
export function mergeSides(versions: Siblings): Siblings {
  if (versions.length < 2) return versions;
  const distinct = [...new Map(versions.map((version) => [canonicalJson(version), version])).values()];
  const isReplaced = (one: LibraryDocument) =>
    distinct.some((other) => compareVersions(other.versions, one.versions) === 'newer');
  return distinct.filter((version) => !isReplaced(version)).sort(compareSides);
}
