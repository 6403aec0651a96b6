import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Remedy } from '../../shared/remedy.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { Draft } from '../../src/ledger/drafts.ts';

/** What the library holds of reeds and passes. */
export interface Held {
  readonly reeds: readonly Reed[];
  readonly passesOf: (reedId: string) => readonly Pass[];
  readonly newId: () => string;
}

/** Passes of a file that the library already holds under the same index and with other content. */
export interface Clash {
  readonly label: string;
  readonly index: number;
}

/**
 * Turns the reeds of a file into what is to be kept: new reeds, and passes that a known reed does not have yet. A pass
 * that is there already with the same readings is left alone.
 *
 * @param remedies What was put right of the only pass.
 */
export function draftsToKeep(
  reeds: readonly ReedDraft[],
  held: Held,
  styleId: string,
  remedies: readonly Remedy[] = [],
) {
  const drafts: Draft[] = [];
  const clashes: Clash[] = [];
  for (const { label, passes } of reeds) {
    const known = held.reeds.find((reed) => reed.label === label);
    const reedId = known?.id ?? held.newId();
    if (!known) drafts.push({ kind: 'reed', id: reedId, label, styleId, state: 'scraping', tags: [] });
    const there = known ? held.passesOf(known.id) : [];
    for (const pass of passes) {
      const same = there.find(({ index }) => index === pass.index);
      if (!same)
        drafts.push({
          kind: 'pass',
          reedId,
          remedies: [...remedies],
          ...pass,
          readings: [...pass.readings],
        });
      else if (JSON.stringify(same.readings) !== JSON.stringify(pass.readings))
        clashes.push({ label, index: pass.index });
    }
  }
  return { drafts, clashes };
}
