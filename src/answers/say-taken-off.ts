import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FigureMap } from '../figures/surface-map.ts';
import { acrossWords, isMeasurable, listed, placeWords } from '../words/figure-words.ts';
import { amountText, bareAmount, numberText, withUnit, type NumberFormat } from '../words/format.ts';
import { isInZone } from '../blade/zones.ts';
import { zonesAt, type FittedReed } from './fitted-reed.ts';
import { placeOnBlade, type Answer } from './answer-words.ts';
import { sayRemovalSpan } from './span-words.ts';
import type { RemovalRow, TakenOff } from './taken-off.ts';

/** A measurable loss of a zone, of both blades where they lost the same as far as can be told. */
interface ZoneLoss extends Pick<RemovalRow, 'name' | 'title'> {
  readonly blade?: Blade;
  readonly meanMm: number;
}

/** What a zone measurably lost: once for both blades where they do not differ, else for each that did. */
function lossesOf({ name, title, blades }: RemovalRow): ZoneLoss[] {
  const sure = BLADES.flatMap((blade) => {
    const mean = blades[blade]?.mean;
    return mean && isMeasurable(mean) && mean.valueMm > 0 ? [{ blade, mean }] : [];
  });
  const [a, b] = sure;
  const isAlike =
    a &&
    b &&
    !isMeasurable({
      valueMm: a.mean.valueMm - b.mean.valueMm,
      uMm: Math.hypot(a.mean.uMm, b.mean.uMm),
    });
  if (isAlike) return [{ name, title, meanMm: (a.mean.valueMm + b.mean.valueMm) / 2 }];
  return sure.map(({ blade, mean }) => ({ name, title, blade, meanMm: mean.valueMm }));
}

/** As many losses as a sentence gives with their amounts; the rest is named. */
const WITH_AMOUNTS = 3;

const fromWords = ({ title, blade }: ZoneLoss) =>
  blade ? `${blade}’s ${title.toLowerCase()}` : `the ${title.toLowerCase()}`;

/** The answer to "What did I just take?" */
export function sayTakenOff(benched: FittedReed, taken: TakenOff, writing: NumberFormat): Answer {
  const { index } = benched.assembled.passes[taken.pair.after]!;
  const losses = taken.rows.flatMap(lossesOf).sort((a, b) => b.meanMm - a.meanMm);
  const mind = sayGrowth(taken, writing) ?? sayMost(benched, taken, writing);
  const spans = BLADES.flatMap((blade) => sayRemovalSpan(blade, taken.spans[blade] ?? {}, index) ?? []);
  const aside = [...spans, sayNotRead(benched, taken, writing) ?? []].flat().join(' ');
  return {
    say:
      losses.length === 0
        ? `Pass ${index} took nothing that can be told from the doubt of the readings.`
        : `Pass ${index} took about ${amountsOf(losses, writing)}${wasMeant(benched, taken, losses) ? ', as meant' : ''}.`,
    ...(mind && { mind }),
    ...(aside && { aside }),
  };
}

function amountsOf(losses: readonly ZoneLoss[], writing: NumberFormat): string {
  const amounts = losses
    .slice(0, WITH_AMOUNTS)
    .map((loss, i) => `${(i === 0 ? amountText : bareAmount)(loss.meanMm, writing)} from ${fromWords(loss)}`);
  const rest = losses.slice(WITH_AMOUNTS);
  return rest.length === 0
    ? listed(amounts)
    : `${amounts.join(', ')}, and less from ${listed(rest.map(fromWords))}`;
}

/** Whether the strokes that were written down were in these zones. */
function wasMeant({ passes }: FittedReed, { pair }: TakenOff, zones: readonly ZoneLoss[]): boolean {
  const meant = (passes[pair.after]?.scrape?.places ?? []).map(({ zone }) => zone.toLowerCase());
  return zones.every(({ name, title }) => meant.includes(name) || meant.includes(title.toLowerCase()));
}

/** A place lost this many times what its zone did before it is pointed out. */
const STANDS_OUT = 2;

function sayMost(benched: FittedReed, taken: TakenOff, writing: NumberFormat): string | undefined {
  const zones = zonesAt(benched, taken.pair.after);
  const places = BLADES.flatMap((blade) => {
    const at = taken.most[blade];
    return at ? [{ blade, at }] : [];
  }).sort((a, b) => b.at.valueMm - a.at.valueMm);
  const [first] = places;
  if (!first) return undefined;
  const { blade, at } = first;
  const zone = zones.find((one) => isInZone(one, at.fromTipMm, at.across));
  const mean = zone && taken.rows.find(({ name }) => name === zone.name)?.blades[blade]?.mean.valueMm;
  if (mean !== undefined && at.valueMm < STANDS_OUT * mean) return undefined;
  const where = placeOnBlade(zones, blade, at.fromTipMm, at.across);
  const longMm = lengthAlong(taken.maps[blade]!, at);
  return `${where} lost ${bareAmount(at.valueMm, writing)} at ${placeWords(at.fromTipMm, writing)}, in one place ${withUnit(numberText(longMm, 0, writing), 'mm')} long.`;
}

/** Length of the stretch along the blade on which a map stays above half its value at a place, mm. */
function lengthAlong(
  { ysMm, us, valuesMm }: FigureMap,
  at: { fromTipMm: number; across: number; valueMm: number },
) {
  const column = us.indexOf(at.across);
  const inside = ysMm.filter((_, row) => valuesMm[row * us.length + column]! > at.valueMm / 2);
  const step = ysMm[1]! - ysMm[0]!;
  const next = (y: number, way: 1 | -1) =>
    inside.find((other) => Math.abs(other - y - way * step) < step / 2);
  let [low, high] = [at.fromTipMm, at.fromTipMm];
  for (let y = next(low, -1); y !== undefined; y = next(low, -1)) low = y;
  for (let y = next(high, 1); y !== undefined; y = next(high, 1)) high = y;
  return Math.max(step, high - low);
}

function sayGrowth({ growth }: TakenOff, writing: NumberFormat): string | undefined {
  const words = BLADES.flatMap((blade) => {
    const at = growth[blade];
    if (!at) return [];
    return `${blade} reads ${amountText(at.valueMm, writing)} thicker at ${placeWords(at.fromTipMm, writing)}, ${acrossWords(at.across)}`;
  });
  return words.length > 0
    ? `${listed(words)}. Cane does not grow: look for a fault in the readings.`
    : undefined;
}

/** A stretch of the blade shorter than this is not worth mentioning as unread, mm. */
const UNREAD_MM = 1.5;

function sayNotRead(
  { assembled }: FittedReed,
  { pair }: TakenOff,
  writing: NumberFormat,
): string | undefined {
  const furthest = (at: number) => {
    const { readings, overallLengthMm } = assembled.passes[at]!;
    const toAfter = assembled.passes[pair.after]!.overallLengthMm - overallLengthMm;
    return Math.max(...readings.map(({ fromTipMm }) => fromTipMm + toAfter));
  };
  const [before, after] = [furthest(pair.before), furthest(pair.after)];
  const [shorter, at] = before < after ? [before, pair.before] : [after, pair.after];
  if (!Number.isFinite(shorter) || Math.abs(before - after) < UNREAD_MM) return undefined;
  return `Below ${placeWords(shorter, writing)} pass ${assembled.passes[at]!.index} was not read.`;
}
