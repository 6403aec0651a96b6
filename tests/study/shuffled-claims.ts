import { columnsByStyle } from '../../src/traits/common-traits.ts';
import type { KnownReed } from '../../src/traits/columns.ts';
import { relations } from '../../src/traits/relations.ts';

/** In how many of so many shuffles something was said, though outcomes had nothing to do with surfaces. */
export interface Claims {
  readonly shuffles: number;
  readonly withClaim: number;
  /** Comparisons in each shuffle. */
  readonly compared: number;
  /** Upper 95 % limit of the rate. */
  readonly upper: number;
}

function shuffled(length: number, random: () => number): number[] {
  const order = Array.from({ length }, (_, i) => i);
  for (let i = length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

/** Gives each reed the outcomes of another of its style, all of them together, and counts what is then said. */
export function claimsUnderShuffles(
  reeds: readonly KnownReed[],
  shuffles: number,
  random: () => number,
): Claims {
  const styles = columnsByStyle(reeds);
  let withClaim = 0;
  let compared = 0;
  for (let k = 0; k < shuffles; k++) {
    const found = relations(
      styles.map(({ figures, outcomes, reeds: own }) => {
        const order = shuffled(own.length, random);
        const moved = outcomes.map((outcome) => ({
          ...outcome,
          values: order.map((i) => outcome.values[i]!),
        }));
        return { figures, outcomes: moved };
      }),
    ).flat();
    compared = found.length;
    if (found.some(({ said }) => said)) withClaim += 1;
  }
  return { shuffles, withClaim, compared, upper: upperLimit(withClaim, shuffles) };
}

/** Rate at which so few or fewer would be seen once in twenty. Source: Clopper & Pearson 1934, one-sided, by bisection. */
export function upperLimit(count: number, of: number): number {
  const atMost = (rate: number) => {
    let term = (1 - rate) ** of;
    let sum = term;
    for (let k = 1; k <= count; k++) {
      term *= ((of - k + 1) / k) * (rate / (1 - rate));
      sum += term;
    }
    return sum;
  };
  let [low, high] = [count / of, 1 - 1e-12];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (atMost(middle) > 0.05) low = middle;
    else high = middle;
  }
  return high;
}
