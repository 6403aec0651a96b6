import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';
import type { ReedDraft } from '../exchange/csv/drafts.ts';

/** What no library has stamped. */
const UNSTAMPED = {
  formatVersion: FORMAT_VERSION,
  versions: {},
  createdAt: '1970-01-01T00:00:00.000Z',
  updatedAt: '1970-01-01T00:00:00.000Z',
} as const;

/** The reed of a file as documents that belong to no library; its label is its identifier. */
export function documentsOf(
  { label, passes }: ReedDraft,
  styleId: string,
): { readonly reed: Reed; readonly passes: readonly Pass[] } {
  return {
    reed: { kind: 'reed', id: label, ...UNSTAMPED, label, styleId, state: 'scraping', tags: [] },
    passes: passes.map((pass) => ({
      kind: 'pass',
      id: `${label} ${pass.index}`,
      ...UNSTAMPED,
      reedId: label,
      remedies: [],
      ...pass,
      readings: [...pass.readings],
    })),
  };
}
