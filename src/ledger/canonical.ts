type Entry = [string, unknown];

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  const entries: Entry[] = Object.entries(value).map(([key, inner]) => [key, sorted(inner)]);
  return Object.fromEntries(entries.sort(([a], [b]) => compareText(a, b)));
}

/** Order by UTF-16 code units, the same in every language setting. */
export function compareText(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

/**
 * JSON with the keys of every object in code unit order and no white space: equal data give equal bytes. Absent and
 * undefined keys are the same. (Keys that look like array indices come first, as the language orders them.)
 */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(sorted(value));
}
