import { facing, type Place } from '../../shared/blade.ts';
import { believableAtMm } from '../figures/believable-map.ts';
import { estimate, pointFunctional } from '../figures/functional.ts';
import { isBeyond, reachOf } from '../figures/reach.ts';
import { throughReadings } from '../figures/through-readings.ts';
import { slopeAt } from '../figures/slopes.ts';
import {
  COVERAGE,
  distanceText,
  joined,
  thicknessFigure,
  UNIT_WORDS,
  type NumberFormat,
} from '../words/format.ts';
import { zonesAt, type FittedReed } from './fitted-reed.ts';
import { placeOnBlade } from './answer-words.ts';
import { standingReadings } from './standing-readings.ts';

/** What a probe adds to the thickness: what the map under it shows. */
export type Probed = 'thickness' | 'through' | 'doubt' | 'believable' | 'slope';

/** What a probe asks of any place. */
interface Asked {
  readonly benched: FittedReed;
  readonly pass: number;
  readonly probed: Probed;
  readonly writing: NumberFormat;
}

/**
 * What stands at a place and at the one that faces it, as far as their blades were read, in one line; it says so where a
 * place lies beyond the outermost readings.
 */
export function probeWords(
  benched: FittedReed,
  pass: number,
  place: Place,
  probed: Probed,
  writing: NumberFormat,
): string {
  const found = [place, facing(place)]
    .filter(({ blade }) => benched.model?.blades[blade])
    .map((one) => placeWords(one, { benched, pass, probed, writing }));
  return `${distanceText(place.fromTipMm, writing)}: ${found.join('; facing it ')} ${UNIT_WORDS[writing.unit].caption}`;
}

function placeWords(place: Place, asked: Asked): string {
  const { benched, pass, writing } = asked;
  const { blade, fromTipMm, across } = place;
  const where = placeOnBlade(zonesAt(benched, pass), blade, fromTipMm, across).replace(/,$/, '');
  const figure = estimate(benched.model!, pointFunctional(benched.model!, { ...place, pass }));
  const beyond = isBeyondReadings(benched, pass, place) ? ', beyond the outermost readings,' : '';
  return `${where}${beyond} ${joined(thicknessFigure(figure, writing))}${alsoWords(place, asked)}`;
}

function alsoWords(place: Place, { benched, pass, probed, writing }: Asked): string {
  const model = benched.model!;
  if (probed === 'believable') {
    const leastMm = believableAtMm(model, { ...place, pass });
    return `, smallest change to believe ${thicknessFigure({ valueMm: leastMm, uMm: 0 }, writing).value}`;
  }
  if (probed === 'through') {
    const own = standingReadings(benched, pass).filter((reading) => reading.blade === place.blade);
    const throughMm = throughReadings(own, { ysMm: [place.fromTipMm], us: [place.across] })?.valuesMm[0];
    if (throughMm === undefined || Number.isNaN(throughMm)) return '';
    return `, through every reading ${thicknessFigure({ valueMm: throughMm, uMm: 0 }, writing).value}`;
  }
  if (probed !== 'slope') return '';
  const { valueMm, uMm } = estimate(model, slopeAt(model, { ...place, pass }, 'along'));
  const way = Math.abs(valueMm) <= COVERAGE * uMm ? 'level within' : valueMm > 0 ? 'rising' : 'falling';
  const { value, doubt } = thicknessFigure({ valueMm: Math.abs(valueMm), uMm }, writing);
  return way === 'level within' ? `, ${way} ${doubt} a mm` : `, ${way} ${value} ${doubt} a mm`;
}

/** Whether a place lies beyond the outermost readings that stand after a pass. */
export function isBeyondReadings(
  benched: Pick<FittedReed, 'assembled'>,
  pass: number,
  { blade, fromTipMm, across }: Place,
): boolean {
  const own = standingReadings(benched, pass).filter((reading) => reading.blade === blade);
  return own.length === 0 || isBeyond(reachOf(own), { fromTipMm, across });
}
