import { documentSchema, type DocumentKind, type LibraryDocument } from '../../shared/library.ts';
import { MAX_READINGS, type Pass, type PassHead } from '../../shared/pass.ts';
import { FormatError, InputError } from '../../shared/errors.ts';
import { FORMAT_VERSION, type Stamp, type Versions } from '../../shared/stamp.ts';
import type { Id } from '../../shared/ids.ts';
import { editsAfter } from './field-merge.ts';
import { ConflictError, type Conflict } from './errors.ts';
import type { Row } from './rows.ts';
import { compareVersions } from './versions.ts';

export type DocumentOf<K extends DocumentKind> = Extract<LibraryDocument, { kind: K }>;

type WithoutStamp<D> = D extends LibraryDocument ? Omit<D, keyof Stamp> & NewStamp : never;
interface NewStamp {
  /** Made by `newId`, where other drafts refer to it; otherwise left out. */
  readonly id?: Id;
  readonly invented?: true | undefined;
}

/** A document that is to be made: its content, no stamp. */
export type NewDraft = WithoutStamp<LibraryDocument>;
/** What to keep: a new document, or one that was read, changed, with the versions it was read with. */
export type Draft = NewDraft | LibraryDocument | PassHead;

/** A draft with its stamp. A pass without readings keeps those that it has. */
export type WholeDraft = LibraryDocument | PassHead;

/** What one change did to one document. */
export interface Step {
  /** Absent when the change made it. */
  readonly before?: LibraryDocument;
  readonly after: LibraryDocument;
}

export interface Stamping {
  /**
   * Who writes: made anew whenever a library is opened. Two devices that were one, copied with its browser, thus never
   * write under one name, and neither takes the other's changes for its own.
   */
  readonly writerId: Id;
  /** The number of this write on this device. */
  readonly write: number;
  readonly now: string;
  readonly newId: () => Id;
}

export const isChanged = (draft: Draft): draft is WholeDraft => 'versions' in draft;

const isHead = (draft: WholeDraft): draft is PassHead => 'readingCount' in draft;

/** A pass as it would be without readings, for the schema. */
function withoutReadings(draft: PassHead): LibraryDocument {
  const { readingCount: _, readingSeconds: __, ...head } = draft;
  return { ...head, readings: [] };
}

/** @param base What the draft was made from: a pass keeps its readings. */
function filled(draft: WholeDraft, base: LibraryDocument | 'new'): LibraryDocument {
  if (!isHead(draft)) return draft;
  return {
    ...withoutReadings(draft),
    ...(base !== 'new' && base.kind === 'pass' && { readings: base.readings }),
  } as Pass;
}

/** Readings that were found in order: with each key a pass comes back, all its readings but one the same objects. */
const soundReadings = new WeakSet<object>();

/** The document without readings that are known to be in order. */
function withoutSound(document: LibraryDocument): LibraryDocument {
  if (
    document.kind !== 'pass' ||
    !Array.isArray(document.readings) ||
    document.readings.length > MAX_READINGS
  )
    return document;
  return { ...document, readings: document.readings.filter((reading) => !soundReadings.has(reading)) };
}

function problemsOf(document: LibraryDocument) {
  if (!documentSchema.safeParse(withoutSound(document)).success)
    return documentSchema.safeParse(document).error?.issues ?? [];
  if (document.kind === 'pass') document.readings.forEach((reading) => soundReadings.add(reading));
  return [];
}

/** Gives new drafts an id and a stamp that the writing transaction completes; checks every draft. @throws FormatError */
export function prepareDrafts(drafts: readonly Draft[], now: string, newId: () => Id): WholeDraft[] {
  const whole = drafts.map((draft) => {
    if (isChanged(draft)) return draft;
    const id = draft.id ?? newId();
    const stamp = { formatVersion: FORMAT_VERSION, versions: {}, createdAt: now, updatedAt: now };
    // Not known to be a document before it is checked.
    return { ...draft, id, ...stamp } as LibraryDocument;
  });
  const problems = whole.flatMap((document, i) =>
    problemsOf(isHead(document) ? withoutReadings(document) : document).map(({ path, message }) => ({
      where: ['change', i, ...path.map(String)].join('.'),
      what: message,
    })),
  );
  if (problems.length > 0) throw new FormatError(problems);
  const ids = new Set(whole.map(({ id }) => id));
  if (ids.size < whole.length) throw new InputError('drafts: must hold each document once');
  return whole;
}

/** The side that the draft was made from; none for a new document. Undefined when the draft's base is gone. */
function baseOf(draft: WholeDraft, row: Row | undefined): LibraryDocument | 'new' | undefined {
  const isNew = Object.keys(draft.versions).length === 0;
  if (isNew) return row === undefined ? 'new' : undefined;
  const same =
    row?.shown.filter(({ versions }) => compareVersions(versions, draft.versions) === 'same') ?? [];
  // Two sides with equal vectors cannot be told apart: such a disagreement is settled first.
  return same.length === 1 ? same[0] : undefined;
}

/**
 * One side of a disagreement that is written on counts under an identifier of its own: under the device's it would
 * claim to have seen the device's writes on the other side.
 */
function raise(versions: Versions, apart: boolean, { writerId, write, newId }: Stamping): Versions {
  return apart ? { ...versions, [newId()]: 1 } : { ...versions, [writerId]: write };
}

/** What was changed is owed to this write, the rest to earlier ones. */
function withEdits(base: LibraryDocument | 'new', after: LibraryDocument): LibraryDocument {
  if (base === 'new') return after;
  const write = Object.entries(after.versions).filter(([device, count]) => base.versions[device] !== count);
  return { ...after, edits: editsAfter(base, after, Object.fromEntries(write)) };
}

/**
 * Matches drafts with what stands in the database, and stamps them.
 *
 * @throws ConflictError when any draft's base has been replaced.
 */
export function stampDrafts(
  drafts: readonly WholeDraft[],
  rows: readonly (Row | undefined)[],
  stamping: Stamping,
): Step[] {
  const conflicts: Conflict[] = [];
  const steps = drafts.flatMap((draft, i): Step[] => {
    const base = baseOf(draft, rows[i]);
    if (base === undefined) {
      const theirs = rows[i]?.shown[0];
      conflicts.push({ mine: draft, ...(theirs && { theirs }) });
      return [];
    }
    const versions = raise(draft.versions, (rows[i]?.shown.length ?? 0) > 1, stamping);
    const after = withEdits(base, { ...filled(draft, base), versions, updatedAt: stamping.now });
    return [base === 'new' ? { after } : { before: base, after }];
  });
  if (conflicts.length > 0) throw new ConflictError(conflicts);
  return steps;
}

/** The drafts that take a change back: what was made goes to the bin, what was altered gets its old content. */
export function inverse(
  steps: readonly Step[],
  now: string,
  versionsOf: (id: Id) => Versions,
): LibraryDocument[] {
  return steps.map(({ before, after }) => ({
    ...(before ?? { ...after, deletedAt: now }),
    versions: versionsOf(after.id),
  }));
}
