import { principalComponents } from '../learning/principal-components.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import { PROFILE_GRID } from './reed-summary.ts';

/** Fewer reeds than this say nothing of how a maker's reeds vary. Common practice, no source. */
export const FEWEST_REEDS = 8;
const MOST_WAYS = 3;
/** A way with less than this share of the variance is not shown. Common practice, no source. */
const LEAST_SHARE = 0.08;

/** One main way in which the surfaces of reeds vary about their mean. */
export interface PrincipalComponent {
  /** Share of the whole variance, with its standard error. */
  readonly share: number;
  readonly uShare: number;
  /** How one standard deviation of it moves the thickness at each place of the grid, mm. */
  readonly oneSdMm: readonly number[];
  /** Where the largest move is. */
  readonly largest: { readonly fromTipMm: number; readonly across: number; readonly valueMm: number };
  /** Where each reed lies along it, in standard deviations. */
  readonly places: readonly number[];
  /** Its share is too near that of the next for the two to be told apart. */
  readonly mixed: boolean;
}

/** How surfaces vary, or how many reeds there are when that is too few. */
export type Variation =
  | { readonly tooFew: number }
  | {
      readonly grid: MapGrid;
      readonly meanMm: readonly number[];
      readonly n: number;
      readonly ways: readonly PrincipalComponent[];
    };

/** The area that each place of the grid stands for, in mm along times fractions across. */
function areas({ ysMm, us }: MapGrid): number[] {
  const widths = (at: readonly number[]) =>
    at.map((value, i) => ((at[i + 1] ?? value) - (at[i - 1] ?? value)) / 2);
  return widths(ysMm).flatMap((along) => widths(us).map((across) => along * across));
}

/**
 * Functional principal components of the surfaces of reeds of one style, each the mean of both blades.
 *
 * Source: Ramsay & Silverman 2005, chapter 8. Standard error of a share from the variance 2 lambda^2 / (n - 1) of an
 * eigenvalue of normal data, by the delta method; two ways are mixed by the rule of North et al. 1982, from memory.
 *
 * @param profilesMm One row per reed at the places of `PROFILE_GRID`.
 */
export function waysOfVarying(profilesMm: readonly (readonly number[])[]): Variation {
  const n = profilesMm.length;
  if (n < FEWEST_REEDS) return { tooFew: n };
  const { mean, directions, sd, share, scores } = principalComponents(profilesMm, areas(PROFILE_GRID));
  const squares = share.reduce((sum, value) => sum + value * value, 0);
  const columns = PROFILE_GRID.us.length;
  const ways = share.slice(0, MOST_WAYS).flatMap((own, k): PrincipalComponent[] => {
    if (own < LEAST_SHARE) return [];
    const oneSdMm = directions[k]!.map((value) => value * sd[k]!);
    const at = oneSdMm.reduce((best, value, i) => (Math.abs(value) > Math.abs(oneSdMm[best]!) ? i : best), 0);
    const error = own * Math.sqrt(2 / (n - 1));
    return [
      {
        share: own,
        uShare: own * Math.sqrt((2 / (n - 1)) * Math.max(0, 1 - 2 * own + squares)),
        oneSdMm,
        largest: {
          fromTipMm: PROFILE_GRID.ysMm[Math.floor(at / columns)]!,
          across: PROFILE_GRID.us[at % columns]!,
          valueMm: oneSdMm[at]!,
        },
        places: scores.map((row) => (sd[k]! > 0 ? row[k]! / sd[k]! : 0)),
        mixed: own - (share[k + 1] ?? 0) < error,
      },
    ];
  });
  return { grid: PROFILE_GRID, meanMm: mean, n, ways };
}
