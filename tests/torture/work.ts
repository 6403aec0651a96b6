/** What the page is doing when it is killed. */
export const WORKS = ['append', 'keep', 'import', 'merge', 'migrate', 'purge', 'copy'] as const;
export type Work = (typeof WORKS)[number];

/** One step of a work, told before its transaction is begun, and again when the ledger says that it is kept. */
export type Begun =
  | { readonly what: 'twins'; readonly n: number }
  | { readonly what: 'act'; readonly id: string }
  | { readonly what: 'batch'; readonly name: string }
  | { readonly what: 'sides'; readonly name: string; readonly n: number }
  | { readonly what: 'old'; readonly name: string }
  /** Removal for good of a reed. */
  | { readonly what: 'purged'; readonly id: string };
export type Kept = Begun;

export interface OldFindings {
  readonly name: string;
  readonly live: number;
  readonly copies: number;
  readonly of: number;
  readonly setAside: number;
}

/** What the page told before it was killed. */
export interface Told {
  readonly begun: Begun[];
  readonly kept: Kept[];
}

/** What stands in the database after a kill, as a fresh browser reads it. */
export interface Findings {
  /** Notes of the two reeds that are always changed together. */
  readonly twins: readonly number[];
  readonly acts: readonly string[];
  /** Records found of each batch: two times `batchSize` when it is whole, reeds and acts together. */
  readonly batches: Readonly<Record<string, number>>;
  /** Sides found of the reeds of each merged batch, as the number of the merge that brought them (0: the first). */
  readonly sides: Readonly<Record<string, readonly number[]>>;
  /** Reeds and copies found of each library of the old format, and how many there were. */
  readonly old: readonly OldFindings[];
  readonly setAside: number;
  /** Every document that is there, the bin included. */
  readonly ids: readonly string[];
  /** Whether the engine had lost something, and the library took it back from its second copy and journal. */
  readonly broughtBack: boolean;
  readonly batchSize: number;
}

function lostSteps(found: Findings, kept: readonly Kept[]): string[] {
  const acts = new Set(found.acts);
  const isThere = (one: Kept): boolean => {
    if (one.what === 'twins') return found.twins.length === 2 && Math.min(...found.twins) >= one.n;
    if (one.what === 'act') return acts.has(one.id);
    if (one.what === 'batch') return one.name in found.batches;
    if (one.what === 'sides') return found.sides[one.name]?.includes(one.n) ?? false;
    return true;
  };
  return kept.filter((one) => !isThere(one)).map((one) => `lost: ${JSON.stringify(one)}`);
}

function halfSteps({ twins, batches, sides, batchSize }: Findings): string[] {
  const halfChange = new Set(twins).size > 1 ? [`half a change: ${twins.join(' and ')}`] : [];
  const halfImports = Object.entries(batches)
    .filter(([name, count]) => !name.startsWith('merged') && count !== 2 * batchSize)
    .map(([name, count]) => `half an import: ${count} records of ${name}`);
  const halfMerges = Object.entries(sides).flatMap(([name, all]) =>
    [...new Set(all)]
      .map((n) => ({ n, count: all.filter((one) => one === n).length }))
      .filter(({ count }) => count !== batchSize)
      .map(({ n, count }) => `half a merge: ${count} sides of ${name}, merge ${n}`),
  );
  return [...halfChange, ...halfImports, ...halfMerges];
}

/**
 * A library whose writing in the old format was itself killed is empty; any other is whole and has its copies. The old
 * libraries have no second copy: where the engine has lost anything there is nothing to say of them.
 */
function halfMigrations({ old, broughtBack }: Findings, { begun, kept }: Told, trial: number): string[] {
  if (broughtBack) return [];
  const wasBegun = (name: string) => begun.some((one) => one.what === 'old' && one.name === name);
  const half = old
    .filter(({ name, live, copies, of, setAside }) => {
      const isWhole = live === of && copies === of && setAside === 0;
      const isEmpty = live + copies + setAside === 0 && !wasBegun(name);
      return !isWhole && !isEmpty;
    })
    .map((one) => `half a migration: ${JSON.stringify(one)}`);
  const names = new Set(old.map(({ name }) => name));
  const lost = kept.flatMap((one) =>
    one.what === 'old' && one.name.startsWith(`old ${trial}.`) && !names.has(one.name)
      ? [`lost: ${one.name}`]
      : [],
  );
  return [...half, ...lost];
}

/** What was removed for good is never there again. */
function returned({ ids }: Findings, kept: readonly Kept[]): string[] {
  const here = new Set(ids);
  return kept.flatMap((one) => (one.what === 'purged' && here.has(one.id) ? [`returned: ${one.id}`] : []));
}

/**
 * Everything that is wrong after the kill of a trial, in words; empty when nothing is.
 *
 * @param wasDamaged Whether the engine's log was damaged after the kill.
 */
export function faultsIn(found: Findings, told: Told, trial: number, wasDamaged: boolean): string[] {
  const unreadable = found.setAside > 0 ? [`${found.setAside} records cannot be read`] : [];
  return [
    ...unreadable,
    ...halfSteps(found),
    ...lostSteps(found, told.kept),
    ...returned(found, told.kept),
    ...(wasDamaged ? [] : halfMigrations(found, told, trial)),
  ];
}
