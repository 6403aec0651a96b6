import type { Reed } from '../../shared/reed.ts';
import type { Draft } from '../../src/ledger/drafts.ts';

const isRead = (draft: Draft) =>
  draft.kind === 'pass' && 'readings' in draft && (draft.readings?.length ?? 0) > 0;

/** Drafts with the reeds that they read: a blank that is read is being scraped. */
export function withScraped(
  drafts: readonly Draft[],
  reedOf: (id: Reed['id']) => Reed | undefined,
): readonly Draft[] {
  const read = new Set(
    drafts.flatMap((draft) => (draft.kind === 'pass' && isRead(draft) ? [draft.reedId] : [])),
  );
  const given = new Set(drafts.flatMap((draft) => (draft.kind === 'reed' && draft.id ? [draft.id] : [])));
  const blanks = [...read].flatMap((id): Draft[] => {
    const reed = given.has(id) ? undefined : reedOf(id);
    return reed?.state === 'blank' ? [{ ...reed, state: 'scraping' }] : [];
  });
  return blanks.length > 0 ? [...drafts, ...blanks] : drafts;
}
