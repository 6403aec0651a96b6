import { evenness, type Contrast } from '../answers/even.ts';
import { isMeasurable } from '../words/figure-words.ts';
import { zonesAt, type ReedAtPass } from '../answers/benched-reed.ts';
import type { Ratio } from '../figures/ratio.ts';
import { CONTRASTS } from '../figures/zone-figures.ts';
import { zoneRatios } from '../figures/zone-ratios.ts';
import type { Estimate } from '../surface/reed-model.ts';
import type { ComparedZone } from './compare.ts';
import type { Target } from './target.ts';

/** A ratio of two zones on a reed and on what it is set beside. */
export interface RatioBeside {
  readonly title: string;
  readonly own: Ratio;
  /** Absent where the other has no such zones. */
  readonly other?: Ratio;
}

/** Ratios of zones side by side. Doubts of the other's zones are taken as independent, which makes its doubt the larger. */
export function ratiosBeside({ benched, pass }: ReedAtPass, zones: readonly ComparedZone[]): RatioBeside[] {
  const otherOf = (name: string) => zones.find((zone) => zone.name === name)?.other;
  return zoneRatios(benched.model!, pass, zonesAt(benched, pass)).map(({ title, upper, lower, ratio }) => {
    const [above, below] = [otherOf(upper), otherOf(lower)];
    return { title, own: ratio, ...(above && below && { other: independentRatio(above, below) }) };
  });
}

/** Source: law of propagation of uncertainty without correlation, GUM 5.1.2. */
function independentRatio(upper: Estimate, lower: Estimate): Ratio {
  const value = upper.valueMm / lower.valueMm;
  const relative = Math.hypot(upper.uMm / upper.valueMm, lower.uMm / lower.valueMm);
  return { value, u: Math.abs(value) * relative };
}

/** A contrast of a zone on a reed and on what it is set beside. */
export interface BalanceBeside {
  readonly title: string;
  readonly contrast: Contrast;
  readonly own: Estimate;
  /** Absent where the other is no reed, or lacks the zone; of several reeds their mean. */
  readonly other?: Estimate;
}

/** Where a reed, or what it is set beside, is measurably uneven. */
export function balanceBeside(own: ReedAtPass, target: Target): BalanceBeside[] {
  const reeds = ['a reed', 'several reeds'].includes(target.from) ? target.parts.map(({ reed }) => reed) : [];
  const theirs = reeds.map(({ benched, pass }) => evenness(benched, pass));
  return evenness(own.benched, own.pass).flatMap(({ name, title, balance }) =>
    (Object.keys(CONTRASTS) as Contrast[]).flatMap((contrast) => {
      const others = theirs.flatMap(
        (zones) => zones.find((zone) => zone.name === name)?.balance[contrast] ?? [],
      );
      const other = others.length > 0 ? meanOf(others) : undefined;
      const mine = balance[contrast];
      if (!isMeasurable(mine) && !(other && isMeasurable(other))) return [];
      return [{ title, contrast, own: mine, ...(other && { other }) }];
    }),
  );
}

const meanOf = (all: readonly Estimate[]): Estimate => ({
  valueMm: all.reduce((sum, { valueMm }) => sum + valueMm, 0) / all.length,
  uMm: Math.hypot(...all.map(({ uMm }) => uMm)) / all.length,
});
