import { startingStyle } from '../blade/starting-styles.ts';
import { figuresOf, outcomesOf, type Column, type KnownReed } from './columns.ts';
import { relations, type Compared, type Relation } from './relations.ts';
import { waysOfVarying, type Variation } from './ways.ts';

const ORDINALS = ['first', 'second', 'third'];

/** What the reeds of one style have in common, and what goes with what. */
export interface StyleTraits {
  readonly styleId: string;
  readonly styleName: string;
  readonly reeds: readonly KnownReed[];
  readonly variation: Variation;
  /** The surest first. */
  readonly relations: readonly Relation[];
}

/** Reeds of one style, with their columns: worked out once, whatever the outcomes are compared with. */
export interface StyleColumns extends Compared {
  readonly styleId: string;
  readonly reeds: readonly KnownReed[];
  readonly variation: Variation;
}

function wayColumns(variation: Variation): Column[] {
  if ('tooFew' in variation) return [];
  return variation.ways.map(({ places }, k) => ({
    name: `way-${k + 1}`,
    title: `more of the ${ORDINALS[k]} way`,
    opposite: `less of the ${ORDINALS[k]} way`,
    values: places,
  }));
}

/** Puts the reeds of each style together, the style with most reeds first. */
export function columnsByStyle(reeds: readonly KnownReed[]): StyleColumns[] {
  const groups = new Map<string, KnownReed[]>();
  for (const one of reeds) {
    const { styleId } = one.reed;
    groups.set(styleId, [...(groups.get(styleId) ?? []), one]);
  }
  return [...groups]
    .sort(([, a], [, b]) => b.length - a.length)
    .map(([styleId, own]) => {
      const variation = waysOfVarying(own.map(({ summary }) => summary.profileMm));
      const figures = [...figuresOf(own), ...wayColumns(variation)];
      return { styleId, reeds: own, variation, figures, outcomes: outcomesOf(own) };
    });
}

/** What good reeds have in common: ways of varying for each style, and what is sure enough to be said of trials. */
export function commonTraits(reeds: readonly KnownReed[]): StyleTraits[] {
  const styles = columnsByStyle(reeds);
  const found = relations(styles);
  return styles.map(({ styleId, reeds: own, variation }, i) => ({
    styleId,
    styleName: startingStyle(styleId).name,
    reeds: own,
    variation,
    relations: found[i]!,
  }));
}
