import { FormatError, type Problem } from '../../shared/errors.ts';
import type { Id } from '../../shared/ids.ts';
import type { Gone, LibraryDocument, NotChosen } from '../../shared/library.ts';
import type { Act } from '../../shared/round.ts';
import { canonicalJson, compareText } from './canonical.ts';
import { fieldsMerged } from './field-merge.ts';
import { goneInOrder } from './gone.ts';
import { notChosenInOrder } from './not-chosen.ts';
import { withAllNotes } from './notes.ts';
import { mergeSides, type Siblings } from './sides.ts';

/** What a library is made of. A document in disagreement occurs once for each of its sides. */
export interface Holdings {
  readonly documents: readonly LibraryDocument[];
  readonly acts: readonly Act[];
  /** Sides that were not chosen where devices had disagreed. */
  readonly notChosen?: readonly NotChosen[] | undefined;
  /** What was removed for good. */
  readonly gone?: readonly Gone[] | undefined;
}

/** What a merge would do, or did. */
export interface MergeReport {
  readonly documents: {
    /** Not here before. */
    readonly new: number;
    /** Here, and replaced by a later version. */
    readonly newer: number;
    /** Nothing to add to what is here. */
    readonly same: number;
    /** Changed on both sides: both versions are kept. */
    readonly apart: number;
  };
  readonly acts: { readonly new: number; readonly same: number };
  /** Versions that were removed for good here, and stay away. */
  readonly gone: number;
  /** The documents counted as apart, with all sides. */
  readonly disagreements: readonly Siblings[];
  /** What would become of each document that is not the same. */
  readonly changed: ReadonlyMap<Id, Outcome>;
}

/** What has to be written to take another library in. */
export interface MergePlan {
  readonly report: MergeReport;
  readonly documents: readonly { readonly id: Id; readonly sides: Siblings }[];
  readonly acts: readonly Act[];
}

type Outcome = 'new' | 'newer' | 'same' | 'apart';

function groupById(documents: readonly LibraryDocument[]): Map<Id, LibraryDocument[]> {
  const groups = new Map<Id, LibraryDocument[]>();
  for (const document of documents) {
    const group = groups.get(document.id);
    if (group) group.push(document);
    else groups.set(document.id, [document]);
  }
  return groups;
}

const sameText = (a: unknown, b: unknown) => canonicalJson(a) === canonicalJson(b);

function outcomeOf(here: Siblings, merged: Siblings): Outcome {
  const isApart = fieldsMerged(merged).length > 1;
  if (here.length === 0) return isApart ? 'apart' : 'new';
  if (merged.length === here.length && merged.every((side, i) => side === here[i])) return 'same';
  return isApart ? 'apart' : 'newer';
}

/** Where something stands, given its place among the documents or the acts. */
type PlaceOf = (of: 'documents' | 'acts', place: number) => string;

/** An id names one thing for ever; a file in which it names another was altered. */
function problemsIn(
  here: (id: Id) => Siblings,
  actHere: (id: Id) => Act | undefined,
  incoming: Holdings,
  placeOf: PlaceOf,
): Problem[] {
  const kinds = new Map<Id, string>();
  const otherKind = incoming.documents.flatMap(({ id, kind }, i): Problem[] => {
    const known = here(id)[0]?.kind ?? kinds.get(id) ?? kind;
    kinds.set(id, known);
    return known === kind
      ? []
      : [{ where: placeOf('documents', i), what: `has the id of a ${known} but is a ${kind}` }];
  });
  const seen = new Map<Id, Act>();
  const altered = incoming.acts.flatMap((act, i): Problem[] => {
    const known = actHere(act.id) ?? seen.get(act.id) ?? act;
    seen.set(act.id, known);
    return known === act || sameText(known, act)
      ? []
      : [{ where: placeOf('acts', i), what: 'differs from the act with the same id' }];
  });
  return [...otherKind, ...altered];
}

/**
 * Works out what taking `incoming` in means: documents as sides by version vector, acts as a union by id. Nothing is
 * decided by a clock, and nothing that is here is lost.
 *
 * @throws FormatError when an id in `incoming` names something else here.
 */
export function planMerge(
  here: (id: Id) => Siblings,
  actHere: (id: Id) => Act | undefined,
  incoming: Holdings,
  placeOf: PlaceOf = (of, place) => `${of}.${place}`,
): MergePlan {
  const problems = problemsIn(here, actHere, incoming, placeOf);
  if (problems.length > 0) throw new FormatError(problems);
  const documents = { new: 0, newer: 0, same: 0, apart: 0 };
  const changed: { id: Id; sides: Siblings; outcome: Outcome }[] = [];
  for (const [id, versions] of groupById(incoming.documents)) {
    const before = mergeSides(here(id));
    // Of equal versions the last stays: the one that is here already.
    const sides = mergeSides(withAllNotes([...versions, ...before]));
    const outcome = outcomeOf(before, sides);
    documents[outcome]++;
    if (outcome !== 'same') changed.push({ id, sides, outcome });
  }
  const acts = [...new Map(incoming.acts.map((act) => [act.id, act])).values()];
  const newActs = acts.filter(({ id }) => actHere(id) === undefined);
  const disagreements = changed.flatMap(({ sides, outcome }) => (outcome === 'apart' ? [sides] : []));
  return {
    report: {
      documents,
      acts: { new: newActs.length, same: acts.length - newActs.length },
      gone: 0,
      disagreements,
      changed: new Map(changed.map(({ id, outcome }) => [id, outcome])),
    },
    documents: changed,
    acts: newActs,
  };
}

/** What taking several portions of one library in means together; a document that is in more than one counts once. */
export function joinReports(reports: readonly MergeReport[]): MergeReport {
  const changed = new Map<Id, Outcome>();
  const documents = { new: 0, newer: 0, same: 0, apart: 0 };
  const acts = { new: 0, same: 0 };
  let gone = 0;
  for (const report of reports) {
    documents.same += report.documents.same;
    acts.new += report.acts.new;
    acts.same += report.acts.same;
    gone += report.gone;
    for (const [id, outcome] of report.changed)
      if (outcome === 'apart' || !changed.has(id)) changed.set(id, outcome);
  }
  for (const outcome of changed.values()) documents[outcome]++;
  return { documents, acts, gone, disagreements: reports.flatMap((one) => one.disagreements), changed };
}

/** The plan of all parts of one library. */
export function joinPlans(plans: readonly MergePlan[]): MergePlan {
  return {
    report: joinReports(plans.map(({ report }) => report)),
    documents: plans.flatMap((plan) => plan.documents),
    acts: plans.flatMap((plan) => plan.acts),
  };
}

const byId = (a: { readonly id: Id }, b: { readonly id: Id }) => compareText(a.id, b.id);

/** The same holdings in one fixed order: documents by id, sides of one as they stand, acts by id; nothing twice. */
export function inOrder({ documents, acts, notChosen = [], gone = [] }: Holdings): Holdings {
  const sides = [...groupById(documents).values()].map(mergeSides);
  return {
    documents: sides.sort(([a], [b]) => compareText(a?.id ?? '', b?.id ?? '')).flat(),
    acts: [...acts].sort(byId),
    ...(notChosen.length > 0 && { notChosen: notChosenInOrder(notChosen) }),
    ...(gone.length > 0 && { gone: goneInOrder(gone) }),
  };
}
