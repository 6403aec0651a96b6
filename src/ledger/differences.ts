import type { LibraryDocument } from '../../shared/library.ts';
import { canonicalJson } from './canonical.ts';
import { STAMP } from './field-merge.ts';
import type { Siblings } from './sides.ts';

/** One thing in which the sides of a document disagree. */
export interface Difference {
  /** `overall length mm`. */
  readonly field: string;
  /** One for each side, in words. */
  readonly values: readonly string[];
}

const LONG = 80;

/** What a document says, without what the ledger writes by itself. */
export const contentOf = (document: LibraryDocument): Readonly<Record<string, unknown>> =>
  Object.fromEntries(Object.entries(document).filter(([key]) => !STAMP.includes(key)));

const fieldWords = (key: string) =>
  key === 'deletedAt' ? 'in the bin since' : key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** How many items of a list no other side has. */
function alone(items: readonly unknown[], others: readonly unknown[]): number {
  const known = new Set(others.flatMap((one) => (Array.isArray(one) ? one : [])).map(canonicalJson));
  return items.filter((item) => !known.has(canonicalJson(item))).length;
}

function valueWords(value: unknown, others: readonly unknown[]): string {
  if (value === undefined) return '–';
  if (typeof value === 'string') return value;
  if (Array.isArray(value)) return `${value.length}, of them ${alone(value, others)} only here`;
  const text = canonicalJson(value);
  return text.length > LONG ? `${text.slice(0, LONG)}…` : text;
}

const entry = (side: LibraryDocument, key: string): unknown => (side as Record<string, unknown>)[key];

/** Where the sides of one document differ, field by field. */
export function differences(sides: Siblings): readonly Difference[] {
  const keys = [...new Set(sides.flatMap((side) => Object.keys(side)))].filter((key) => !STAMP.includes(key));
  return keys.sort().flatMap((key) => {
    const values = sides.map((side) => entry(side, key));
    if (new Set(values.map((value) => canonicalJson(value ?? null))).size === 1) return [];
    const words = values.map((value, i) => valueWords(value, values.toSpliced(i, 1)));
    return [{ field: fieldWords(key), values: words }];
  });
}
