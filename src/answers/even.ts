import type { Balance, Contrast } from '../figures/zone-figures.ts';
import type { ReedFigures } from './record/record.ts';
import type { SeenZone } from './standing-readings.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { amountText, bareAmount, COVERAGE, differenceFigure, joined, type Writing } from '../words/format.ts';
import { isMeasurable, listed } from '../words/figure-words.ts';
import type { Answer } from './answer-words.ts';

type EvenZone = SeenZone & { readonly balance: Balance };

/** The evenness of every zone after a pass; zones of a blade that was never read are left out. */
export function evenness({ zones }: ReedFigures): EvenZone[] {
  return zones.filter((zone): zone is EvenZone => zone.balance !== undefined);
}

interface Finding {
  readonly contrast: Contrast;
  readonly sign: 1 | -1;
  /** The largest first. */
  readonly zones: readonly (Estimate & { readonly title: string })[];
}

/**
 * Among two dozen contrasts one or two pass their own doubt by chance: a single zone has to pass it by half as much
 * again. Common practice, no source.
 */
export const ALONE = 1.5 * COVERAGE;

function isTold({ zones }: Finding): boolean {
  return zones.length > 1 || zones.some(({ valueMm, uMm }) => Math.abs(valueMm) > ALONE * uMm);
}

/** Zones whose contrast is measurable, by contrast and sign, the most telling first. */
function findings(zones: readonly EvenZone[]): Finding[] {
  const all = (['hand', 'side', 'blade'] as const).flatMap((contrast) =>
    ([1, -1] as const).map((sign) => ({
      contrast,
      sign,
      zones: zones
        .filter(({ balance }) => isMeasurable(balance[contrast]) && sign * balance[contrast].valueMm > 0)
        .map(({ title, balance }) => ({ title, ...balance[contrast] }))
        .sort((a, b) => Math.abs(b.valueMm) - Math.abs(a.valueMm)),
    })),
  );
  const weight = ({ zones: found }: Finding) =>
    found.reduce((sum, { valueMm }) => sum + Math.abs(valueMm), 0);
  return all.filter(isTold).sort((a, b) => weight(b) - weight(a));
}

const WORDS: Readonly<Record<Contrast, Readonly<Record<'1' | '-1', string>>>> = {
  hand: {
    '1': 'On both blades the right is thicker than the left',
    '-1': 'On both blades the right is thinner than the left',
  },
  side: {
    '1': 'Side 1 of the reed is thicker than side 2, on both blades',
    '-1': 'Side 2 of the reed is thicker than side 1, on both blades',
  },
  blade: { '1': 'Blade A is heavier than B', '-1': 'Blade B is heavier than A' },
};

const CAUSES: Readonly<Record<Contrast, string>> = {
  hand: 'A habit of the hand, or a tilt on the tongue, does that; an uneven gouge does not.',
  side: 'An uneven gouge, shape or tie does that; the hand does not.',
  blade: 'Unequal strokes, or unequal cane, do that.',
};

/** The least difference of the two sides, through both blades, that shows against a lamp, mm. Common practice, no source. */
const SHOWS_IN_LIGHT_MM = 0.03;

/** What looking through both blades at once would have shown: the total at each side, and nothing else. */
function sayLight({ contrast, sign, zones }: Finding, writing: Writing): string {
  if (contrast === 'hand') return 'Light would not have shown it: looked through, both sides total the same.';
  if (contrast === 'blade') return 'Light would not have shown it: it passes through both blades at once.';
  const total = 2 * Math.abs(zones[0]!.valueMm);
  return total >= SHOWS_IN_LIGHT_MM
    ? `Light shows it: looked through, side ${sign === 1 ? 1 : 2} is the darker by ${amountText(total, writing)}.`
    : `Light would hardly have shown it: looked through, the sides differ by ${amountText(total, writing)}.`;
}

/** The answer to "Is it even, and whose doing is it?" */
export function sayEvenness(zones: readonly EvenZone[], writing: Writing): Answer {
  const [first] = findings(zones);
  if (zones.length === 0) return { say: 'Only one blade is read, so nothing can be said of evenness.' };
  if (!first) return { say: 'Even, as far as this gauge can tell: no difference is larger than its doubt.' };
  const where = listed(
    first.zones
      .slice(0, 3)
      .map(
        ({ title, valueMm }, i) =>
          `${(i === 0 ? amountText : bareAmount)(valueMm, writing)} at the ${title.toLowerCase()}`,
      ),
  );
  return {
    say: `${WORDS[first.contrast][first.sign === 1 ? '1' : '-1']}, by about ${where}.`,
    mind: CAUSES[first.contrast],
    aside: sayLight(first, writing),
  };
}

/**
 * What the gouge of the piece has to do with the sides of the reed: a piece that was gouged uneven gives the side
 * difference that the knife is blamed for; one that was gouged even sends the search on to the shape and the tie.
 */
export function sayGouge(sideDifference: Estimate, writing: Writing): string {
  const figure = joined(differenceFigure(sideDifference, writing));
  return isMeasurable(sideDifference)
    ? `Its cane was gouged uneven: side 1 less side 2 read ${figure} at the gouger.`
    : `At the gouger its sides did not measurably differ, ${figure}: for a side difference look at the shape and the tie.`;
}
