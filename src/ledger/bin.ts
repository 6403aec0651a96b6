import type { DocumentKind } from '../../shared/library.ts';
import { listed } from '../words/figure-words.ts';
import { countedKind, documentName, type LabelOf } from './document-words.ts';
import type { Listed } from './snapshot.ts';

/** What went into the bin in one act, and comes out of it in one. */
export interface BinGroup {
  readonly deletedAt: string;
  readonly documents: readonly Listed[];
  /** `K-117, and with it 3 passes`. */
  readonly name: string;
}

/** What the others in the bin hang on is named first. */
const HEADS: readonly DocumentKind[] = ['reed', 'lot', 'pass'];

function nameOf(documents: readonly Listed[], labelOf: LabelOf): string {
  if (documents.length > 1 && documents.every(({ invented }) => invented)) return 'Invented examples';
  const heads = HEADS.map((kind) => documents.filter((one) => one.kind === kind));
  const [head = documents[0]!] = heads.flat();
  const counts = new Map<DocumentKind, number>();
  for (const one of documents) if (one !== head) counts.set(one.kind, (counts.get(one.kind) ?? 0) + 1);
  const rest = [...counts].map(([kind, count]) => countedKind(kind, count));
  const name = documentName(head, labelOf);
  return rest.length === 0 ? name : `${name}, and with it ${listed(rest)}`;
}

/** The bin, last act first. What was deleted at one moment was deleted in one act. */
export function binGroups(deleted: readonly Listed[], labelOf: LabelOf): readonly BinGroup[] {
  const acts = new Map<string, Listed[]>();
  for (const one of deleted) {
    const at = one.deletedAt!;
    acts.set(at, [...(acts.get(at) ?? []), one]);
  }
  return [...acts]
    .sort(([a], [b]) => Date.parse(b) - Date.parse(a))
    .map(([deletedAt, documents]) => ({ deletedAt, documents, name: nameOf(documents, labelOf) }));
}
