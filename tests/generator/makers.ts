import { seededRandom } from '../seeded-random.ts';
import { drawsFrom, type Draws } from '../study/generated-cane.ts';
import { longScrape, rangesOf, type LongRanges } from './families.ts';
import { FAMILY_GAUGES, familyReed, type FamilyReed, type FamilySettings } from './family-reed.ts';

/** How a maker's reeds go together: much alike, less alike, another style from the middle on, two styles in turn by chance. */
export const MAKERS = ['steady', 'varied', 'changing', 'mixed'] as const;
export type MakerKind = (typeof MAKERS)[number];

/** What share of a wide family's range one maker's reeds fill. Sizes: common practice, no source. */
const FILLS: Readonly<Record<MakerKind, number>> = {
  steady: 0.12,
  varied: 0.35,
  changing: 0.15,
  mixed: 0.15,
};
const HANDS_MM = [0.08, 0.15, 0.22] as const;

export interface Maker {
  readonly kind: MakerKind;
  readonly gauge: keyof typeof FAMILY_GAUGES;
  readonly handMm: number;
  /** The reed with a number; those before `half` are of the first style where a maker changes. */
  readonly reed: (index: number) => FamilyReed;
}

/** An invented maker; everything follows from the seed. @param changeAt The first reed of the second style. @param like Whose gauge and hand it has. */
export function inventedMaker(
  kind: MakerKind,
  seed: number,
  changeAt = Infinity,
  like?: Pick<Maker, 'gauge' | 'handMm'>,
  scraping: Pick<FamilySettings, 'count' | 'knife'> = { count: 1 },
): Maker {
  const draws = drawsFrom(seededRandom(seed));
  const styles = [styleOf(kind, draws), styleOf(kind, draws)] as const;
  const drawn = draws.chance(2 / 3) ? ('dial' as const) : ('fine' as const);
  const hand = HANDS_MM[Math.floor(draws.random() * HANDS_MM.length)]!;
  const { gauge, handMm } = like ?? { gauge: drawn, handMm: hand };
  const second = (index: number, own: Draws) =>
    kind === 'mixed' ? own.chance(0.5) : kind === 'changing' && index >= changeAt;
  return {
    kind,
    gauge,
    handMm,
    reed: (index) =>
      familyReed({
        ...{ family: 'mixed', gauge, handMm, extent: 'full', seed: seed * 1000 + index },
        ...scraping,
        shapeOf: (own) => longScrape(styles[second(index, own) ? 1 : 0], own),
      }),
  };
}

/** One maker's narrow ranges within the wide ones of a family. */
function styleOf(kind: MakerKind, draws: Draws): LongRanges {
  const wide = rangesOf('mixed');
  const step = wide.steps[Math.floor(draws.random() * wide.steps.length)]!;
  const narrowed = Object.entries(wide).map(([name, range]) => {
    if (name === 'steps') return [name, [step]];
    const [low, high] = range as readonly [number, number];
    const [middle, half] = [draws.between(low, high), (FILLS[kind] * (high - low)) / 2];
    return [name, [middle - half, middle + half]];
  });
  return Object.fromEntries(narrowed) as LongRanges;
}
