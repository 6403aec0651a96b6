import type { Lengths } from '../../shared/style.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { listed } from '../words/figure-words.ts';
import { stationText, type NumberFormat } from '../words/format.ts';
import type { Followed } from './make-target.ts';

const NAMES = 'tip, heart and scrape';

const isSame = (a: Lengths, b: Lengths) =>
  a.tipMm === b.tipMm && a.heartEndMm === b.heartEndMm && a.scrapeEndMm === b.scrapeEndMm;

/** How places of a reed and of what it is set beside are laid on each other, in a sentence. */
export function sayPlaced(own: ReedAtPass, { placing, reeds }: Followed, writing: NumberFormat): string {
  const ends = ({ tipMm, heartEndMm, scrapeEndMm }: Lengths) =>
    listed([tipMm, heartEndMm, scrapeEndMm].map((mm) => stationText(mm, writing)));
  const here = own.benched.assembled.frame.lengths;
  if (reeds.length === 0) return `Laid out for this reed, whose ${NAMES} end at ${ends(here)} from the tip.`;
  const others = reeds.filter(({ assembled }) => !isSame(assembled.frame.lengths, here));
  const there = others.map(({ reed, assembled }) => `${ends(assembled.frame.lengths)} of ${reed.label}`);
  if (placing === 'tip') {
    const though =
      others.length > 0 ? `, though ${NAMES} end at ${ends(here)} here and at ${listed(there)}` : '';
    return `Placed from the tip: equal distances lie on each other${though}.`;
  }
  return others.length > 0
    ? `Placed by the ends of ${NAMES}: ${ends(here)} here lie on ${listed(there)}.`
    : `Placed by the ends of ${NAMES}, which are the same on all of them: ${ends(here)}.`;
}
