/** Fit: from readings to surfaces with their uncertainty. */
import { InputError } from '../../shared/errors.ts';
import { benchReed, settled, type FittedReed } from '../answers/fitted-reed.ts';
import { sayFault } from '../answers/fault-words.ts';
import type { ReedDraft } from '../exchange/csv/drafts.ts';
import type { Fault, PassFaults } from '../faults/fault.ts';
import { findFaults } from '../faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../faults/judged-passes.ts';
import { documentsOf } from '../reed/documents-of.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';
import type { NumberFormat } from '../words/format.ts';

/** A fitted reed: its documents, and the surfaces that every figure is worked out from. */
export type Fitted = FittedReed & { readonly model: ReedPosterior };

export interface FitSettings {
  /** Whose zones and floors are used. */
  readonly style?: 'long-scrape' | 'short-scrape';
}

/** The style whose zones are used where none is named: files of readings name none. */
export const USUAL_STYLE = 'long-scrape';

/**
 * Fits both blades over all passes of a reed at once, with every figure as the bench shows it. Takes some hundreds of
 * milliseconds for many full passes: keep the result.
 *
 * @param reed As `readCsv` and `readReeds` return it.
 * @throws InputError for a reed without a reading that a surface could go through.
 */
export function fit(reed: ReedDraft, { style = USUAL_STYLE }: FitSettings = {}): Fitted {
  const { reed: document, passes } = documentsOf(reed, style);
  const benched = benchReed(document, passes);
  if (!benched.model)
    throw new InputError(
      `${reed.label}: must hold readings of stations, got controls or blanks alone; add the file with them`,
    );
  const found = search(benched);
  const fitted = settled(benched, found) as Fitted;
  searched.set(fitted, found);
  return fitted;
}

/** What was found when a reed was fitted. */
const searched = new WeakMap<Fitted, readonly PassFaults[]>();

const search = ({ assembled, passes }: FittedReed) =>
  findFaults(judgedPasses(assembled, passes), faultOptions(assembled));

/** A fault that the readings of a pass show, or ask about. */
export type SaidFault = Fault & { readonly pass: number; readonly words: string };

/** What the readings show to be wrong, or ask about: a shifted zero, swapped blades, a forgotten clip, turned digits. */
export function faults(
  reed: Fitted,
  writing: NumberFormat = { unit: 'hundredths', decimal: 'point' },
): SaidFault[] {
  return (searched.get(reed) ?? search(reed)).flatMap(({ faults: ofPass }, at) =>
    ofPass.map((fault) => ({ ...fault, pass: reed.passes[at]!.index, words: sayFault(fault, writing) })),
  );
}
