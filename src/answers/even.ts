import type { Balance, Contrast } from '../figures/zone-figures.ts';
import type { ReedFigures } from './record/record.ts';
import type { SeenZone } from './standing-readings.ts';
import type { Estimate } from '../surface/reed-model.ts';
import {
  amountText,
  bareAmount,
  COVERAGE,
  differenceFigure,
  joined,
  UNIT_WORDS,
  withUnit,
  type NumberFormat,
} from '../words/format.ts';
import { isMeasurable, listed, placeWords } from '../words/figure-words.ts';
import type { Place } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { placeOnBlade, type Answer } from './answer-words.ts';
import type { LocalPlace } from './local-place.ts';

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
function sayLight({ contrast, sign, zones }: Finding, writing: NumberFormat): string {
  if (contrast === 'hand') return 'Light would not have shown it: looked through, both sides total the same.';
  if (contrast === 'blade') return 'Light would not have shown it: it passes through both blades at once.';
  const total = 2 * Math.abs(zones[0]!.valueMm);
  return total >= SHOWS_IN_LIGHT_MM
    ? `Light shows it: looked through, side ${sign === 1 ? 1 : 2} is the darker by ${amountText(total, writing)}.`
    : `Light would hardly have shown it: looked through, the sides differ by ${amountText(total, writing)}.`;
}

/** A single place comes first: a cause is named only for zones that it does not lie in. */
function sayLocal(
  { place, mirror, through, zones: inside }: LocalPlace,
  own: OwnPlace,
  writing: NumberFormat,
): Answer {
  const { blade, fromTipMm, across } = place;
  const than = mirror.valueMm < 0 ? 'thinner' : 'thicker';
  const where = `${placeOnBlade(own.placed, blade, fromTipMm, across)} is ${amountText(mirror.valueMm, writing)} ${than}`;
  const [first] = findings(own.zones.filter(({ name }) => !inside.includes(name)));
  const rest = first
    ? ` Elsewhere ${uncapped(sayFinding(first, writing))} ${CAUSES[first.contrast]}`
    : ' Elsewhere no difference is larger than its doubt.';
  return {
    say: `${where} than its ${across > 0 ? 'left' : 'right'} at ${placeWords(fromTipMm, writing)}, in one place.`,
    mind: `Look there first: ${mirror.valueMm < 0 ? 'a dig' : 'a place that was missed'}, or a reading to take again.`,
    aside: `${sayThrough(place, through, writing)}${rest}`,
  };
}

const uncapped = (words: string) => `${words.charAt(0).toLowerCase()}${words.slice(1)}`;

/** What light shows of a place: the sum of what lies behind each other there. */
function sayThrough({ blade, fromTipMm, across }: Place, through: Estimate, writing: NumberFormat): string {
  const at = placeWords(fromTipMm, writing);
  if (!isMeasurable(through) || Math.abs(through.valueMm) < SHOWS_IN_LIGHT_MM)
    return `Looked through, both sides are alike at ${at}: light does not show it.`;
  // Side 1 is A's left and B's right.
  const side = across < 0 === (blade === 'A') ? 1 : 2;
  const than = through.valueMm < 0 ? 'thinner' : 'thicker';
  return `Looked through, side ${side} is ${amountText(through.valueMm, writing)} ${than} at ${at}: light shows that, but not which blade it is.`;
}

/** What a single place is said with: the reed's zones, and where they lie. */
interface OwnPlace {
  readonly zones: readonly EvenZone[];
  readonly placed: readonly PlacedZone[];
}

function sayFinding({ contrast, sign, zones }: Finding, writing: NumberFormat): string {
  const where = listed(
    zones
      .slice(0, 3)
      .map(
        ({ title, valueMm }, i) =>
          `${(i === 0 ? amountText : bareAmount)(valueMm, writing)} at the ${title.toLowerCase()}`,
      ),
  );
  return `${WORDS[contrast][sign === 1 ? '1' : '-1']}, by about ${where}.`;
}

/**
 * The answer to "Is it even, and whose doing is it?"
 *
 * @param local The one place that explains a difference, with the zones as they lie, where there is one.
 */
export function sayEvenness(
  zones: readonly EvenZone[],
  writing: NumberFormat,
  local?: { readonly found: LocalPlace; readonly placed: readonly PlacedZone[] },
): Answer {
  if (local) return sayLocal(local.found, { zones, placed: local.placed }, writing);
  const [first] = findings(zones);
  if (zones.length === 0) return { say: 'Only one blade is read, so nothing can be said of evenness.' };
  if (!first) return { say: 'Even, as far as this gauge can tell: no difference is larger than its doubt.' };
  return {
    say: sayFinding(first, writing),
    mind: CAUSES[first.contrast],
    aside: sayLight(first, writing),
  };
}

/**
 * What the gouge of the piece has to do with the sides of the reed: a piece that was gouged uneven gives the side
 * difference that the knife is blamed for; one that was gouged even sends the search on to the shape and the tie.
 */
export function sayGouge(sideDifference: Estimate, writing: NumberFormat): string {
  const figure = withUnit(
    joined(differenceFigure(sideDifference, writing)),
    UNIT_WORDS[writing.unit].spoken[1],
  );
  return isMeasurable(sideDifference)
    ? `Its cane was gouged uneven: side 1 less side 2 read ${figure} at the gouger.`
    : `At the gouger its sides did not measurably differ, ${figure}: for a side difference look at the shape and the tie.`;
}
