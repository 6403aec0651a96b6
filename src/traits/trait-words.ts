import { countWord, listed, placeWords, sentence } from '../words/figure-words.ts';
import { amountText, COVERAGE, numberText, signedText, type NumberFormat } from '../words/format.ts';
import { FEWEST_PAIRS, type Relation } from './relations.ts';
import { PROFILE_GRID } from './reed-summary.ts';
import { FEWEST_REEDS, type Variation, type PrincipalComponent } from './ways.ts';

const moved = ({ figure, rho }: Relation) => (rho > 0 ? figure.title : (figure.opposite ?? figure.title));

/** A relation in a sentence: `Less thickness at the tip goes with quicker response.` */
export function relationWords(relation: Relation): string {
  return `${sentence(moved(relation))} goes with ${relation.outcome.title}.`;
}

/** Its figures: `+0.45 (+0.31 to +0.57), 120 reeds`. */
export function relationFigures({ rho, interval, n }: Relation, writing: NumberFormat): string {
  const text = (value: number) => signedText(value, 2, writing);
  return `${text(rho)} (${text(interval[0])} to ${text(interval[1])}), ${n} reeds`;
}

const onlyWords = (reeds: number) =>
  reeds === 0 ? 'no reed has' : `only ${countWord(reeds)} ${reeds === 1 ? 'reed has' : 'reeds have'}`;

/** Outcomes in the one sentence. */
const SUMMED_UP = 3;

/** The answer to "What do my good reeds have in common?", or why there is none. */
export function sayTraits(relations: readonly Relation[], reeds: number): string {
  if (reeds < FEWEST_REEDS)
    return `Nothing can be said yet: ${onlyWords(reeds)} a full map, and it needs ${countWord(FEWEST_REEDS)}.`;
  const said = relations.filter((relation) => relation.said);
  if (relations.length === 0)
    return `Nothing can be said of what goes with good trials: it takes ${FEWEST_PAIRS} reeds that are read and tried.`;
  if (said.length === 0)
    return `Nothing can be said of what goes with good trials: among ${relations.length} comparisons none is surer than chance would make one.`;
  const first = new Map([...said].reverse().map((relation) => [relation.outcome.name, relation] as const));
  const told = said.filter((relation) => first.get(relation.outcome.name) === relation).slice(0, SUMMED_UP);
  return `${sentence(listed(told.map((relation) => `${relation.outcome.title} goes with ${moved(relation)}`)))}. ${sentence(countWord(said.length))} of ${relations.length} comparisons ${said.length === 1 ? 'is' : 'are'} surer than chance.`;
}

/** Outcomes of which nothing can be said, in words. */
export function silentOutcomes(relations: readonly Relation[]): string[] {
  const titles = new Map(relations.map(({ outcome }) => [outcome.name, outcome.title]));
  for (const { outcome, said } of relations) if (said) titles.delete(outcome.name);
  return [...titles.values()];
}

/** What is thinner where the rest is thicker is named beside it from this share of the largest move on. Our own number. */
const OPPOSITE = 1 / 3;
/** Moves of half the largest over so much of the blade are all over it. Our own number. */
const ALL_OVER = 0.6;

const whereAcross = (across: number) =>
  across === 0 ? 'in the middle' : Math.abs(across) > 0.6 ? 'at the edges' : 'half way out';

/** A way of varying named by what it is: `Thicker or thinner at 8 mm, at the edges`. */
export function wayName(
  { largest, oneSdMm }: Pick<PrincipalComponent, 'largest' | 'oneSdMm'>,
  writing: NumberFormat,
): string {
  const { us, ysMm } = PROFILE_GRID;
  const place = (fromTipMm: number, across: number) =>
    `${placeWords(fromTipMm, writing)}, ${whereAcross(across)}`;
  const most = place(largest.fromTipMm, largest.across);
  const shares = oneSdMm.map((mm) => mm / largest.valueMm);
  const least = Math.min(...shares);
  if (least <= -OPPOSITE) {
    const at = shares.indexOf(least);
    const [y, across] = [ysMm[Math.floor(at / us.length)]!, us[at % us.length]!];
    const isInLine = whereAcross(across) === whereAcross(largest.across);
    const from = isInLine ? placeWords(largest.fromTipMm, writing) : `${most},`;
    return `Thicker at ${from} and thinner at ${place(y, across)}`;
  }
  const isAllOver = shares.filter((share) => share > 0.5).length >= ALL_OVER * shares.length;
  return isAllOver ? `Thicker or thinner all over, most at ${most}` : `Thicker or thinner at ${most}`;
}

/** One way of varying in words. */
export function wayWords({ share, uShare, largest }: PrincipalComponent, writing: NumberFormat): string {
  const percent = (value: number) => numberText(100 * value, 0, writing);
  return `${percent(share)} ±${percent(COVERAGE * uShare)} % of how they differ; most ${placeWords(largest.fromTipMm, writing)} from the tip, ${whereAcross(largest.across)}: two reeds in three lie within ${amountText(largest.valueMm, writing)} of the mean there.`;
}

/** Why no ways are shown. */
export function sayVariation(variation: Variation): string | undefined {
  return 'tooFew' in variation
    ? `Nothing can be said yet: of this style ${onlyWords(variation.tooFew)} a full map, and it needs ${countWord(FEWEST_REEDS)}.`
    : undefined;
}
