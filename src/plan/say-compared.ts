import { apartWords, isMeasurable, listed } from '../words/figure-words.ts';
import { BLEND_MM } from '../figures/crossing.ts';
import type { Answer } from '../answers/answer-words.ts';
import { amountText, bareAmount, type NumberFormat } from '../words/format.ts';
import type { Compared, ComparedZone, Distance } from './compare.ts';

/** As much of a comparison as its answer needs. */
type Sayable = Pick<Compared, 'crossings' | 'notes'> & {
  readonly zones: readonly Pick<ComparedZone, 'title' | 'difference' | 'spreadMm'>[];
  readonly target: Pick<Compared['target'], 'name'>;
};

/** Whether a zone differs by more than its doubt, and by more than the favourites differ from each other. */
export function standsOut({ difference, spreadMm }: Sayable['zones'][number]): boolean {
  return isMeasurable(difference) && Math.abs(difference.valueMm) > spreadMm;
}

/** The answer to "How far from the one I love?" */
export function sayCompared(compared: Sayable, writing: NumberFormat): Answer {
  const { name } = compared.target;
  const sure = compared.zones.filter(standsOut);
  const [over, under] = [1, -1].map((sign) =>
    sure
      .filter(({ difference }) => sign * difference.valueMm > 0)
      .sort((a, b) => sign * (b.difference.valueMm - a.difference.valueMm))
      .slice(0, 3),
  );
  const words = (rows: Sayable['zones']) =>
    listed(
      rows.map(
        ({ title, difference }, i) =>
          `${title.toLowerCase()} by ${(i === 0 ? amountText : bareAmount)(difference.valueMm, writing)}`,
      ),
    );
  const thicker =
    sure.length === 0
      ? `No zone differs from ${name} by more than ${limitWords(compared)}.`
      : over!.length > 0
        ? `Thicker than ${name}: ${words(over!)}.`
        : `No zone is thicker than on ${name}.`;
  return {
    say: [sayBlend(compared, writing), thicker].filter((part) => part !== undefined).join(' '),
    ...(under!.length > 0 && { mind: `Thinner, which cannot be put back: ${words(under!)}.` }),
    ...(compared.notes.length > 0 && { aside: compared.notes.join(' ') }),
  };
}

function limitWords({ zones }: Sayable): string {
  return zones.some(({ spreadMm }) => spreadMm > 0) ? 'its doubt and your own variety' : 'its doubt';
}

function sayBlend({ crossings, target }: Sayable, writing: NumberFormat): string | undefined {
  const row = crossings.find(({ thicknessMm }) => thicknessMm === BLEND_MM);
  if (!row?.own || !row.other) return undefined;
  const apart = {
    valueMm: row.own.valueMm - row.other.valueMm,
    uMm: Math.hypot(row.own.uMm, row.other.uMm),
  };
  if (!isMeasurable(apart)) return undefined;
  const way = apart.valueMm < 0 ? 'nearer the tip' : 'further from the tip';
  return `The centre passes ${amountText(BLEND_MM, writing)} ${apartWords(apart.valueMm, writing)} ${way} than on ${target.name}.`;
}

/** A distance with what it means. */
export function sayDistance({ rmsMm, doubtMm }: Distance, writing: NumberFormat): string {
  return `Place by place the two differ by about ${amountText(rmsMm, writing)}; one reed read twice would differ from itself by about ${bareAmount(doubtMm, writing)}. It says how alike they are, not which is the better.`;
}
