import { InputError } from '../../shared/errors.ts';

/** One-factor random effects: repeats within groups. */
export interface OneFactor {
  readonly ssBetween: number;
  readonly ssWithin: number;
  readonly dofBetween: number;
  readonly dofWithin: number;
  readonly f: number;
  /** Variance of one repeat about its group's value. */
  readonly repeatVariance: number;
  /** Variance of the groups' values; 0 where the estimate is negative. */
  readonly betweenVariance: number;
}

/**
 * Analysis of variance with one random factor, groups of equal or unequal size.
 *
 * Source: the balanced estimator of JCGM 100:2008 H.5; for unequal groups the effective size of Searle 1971, from memory.
 *
 * @param groups At least two, with one value or more each and at least one repeat somewhere.
 */
export function oneFactorVariances(groups: readonly (readonly number[])[]): OneFactor {
  const n = groups.reduce((total, group) => total + group.length, 0);
  if (groups.length < 2) throw new InputError(`groups: must be at least 2, got ${groups.length}`);
  if (groups.some((group) => group.length === 0)) throw new InputError('groups: must not be empty');
  if (n === groups.length) throw new InputError('groups: must hold a repeat');
  // Differences from the first value keep the digits of readings that share their leading ones.
  const origin = groups[0]![0]!;
  const centred = groups.map((group) => group.map((value) => value - origin));
  const grand = mean(centred.flat());
  const ssBetween = sum(centred.map((group) => group.length * (mean(group) - grand) ** 2));
  const ssWithin = sum(centred.map((group) => squaresAbout(group, mean(group))));
  const dofBetween = groups.length - 1;
  const dofWithin = n - groups.length;
  const repeatVariance = ssWithin / dofWithin;
  const size = (n - sum(groups.map((group) => group.length ** 2)) / n) / dofBetween;
  return {
    ssBetween,
    ssWithin,
    dofBetween,
    dofWithin,
    f: ssBetween / dofBetween / repeatVariance,
    repeatVariance,
    betweenVariance: Math.max(0, (ssBetween / dofBetween - repeatVariance) / size),
  };
}

/** Sums of squares and variances of a crossed study: every operator reads every part several times. */
export interface TwoFactor {
  readonly ss: Readonly<Record<'part' | 'operator' | 'interaction' | 'repeat' | 'total', number>>;
  readonly repeatVariance: number;
  readonly operatorVariance: number;
  /** Absent where the interaction was pooled with the repeats. */
  readonly interactionVariance?: number;
  readonly partVariance: number;
}

/**
 * Analysis of variance with two crossed random factors; negative estimates become 0.
 *
 * Source: Measurement Systems Analysis, 4th edition (AIAG 2010), appendix A.
 *
 * @param readings By part, operator and trial; every cell with the same number of trials, 2 or more.
 * @param interaction Kept as a component of its own, or pooled with the repeats.
 */
export function twoFactorVariances(
  readings: readonly (readonly (readonly number[])[])[],
  interaction: 'kept' | 'pooled',
): TwoFactor {
  const [p, o, n] = [readings.length, readings[0]?.length ?? 0, readings[0]?.[0]?.length ?? 0];
  checkCrossed(readings, o, n);
  const all = readings.flat(2);
  const grand = mean(all);
  const parts = readings.map((part) => mean(part.flat()));
  const operators = readings[0]!.map((_, j) => mean(readings.flatMap((part) => part[j]!)));
  const part = o * n * squaresAbout(parts, grand);
  const operator = p * n * squaresAbout(operators, grand);
  const repeat = sum(readings.flatMap((cells) => cells.map((cell) => squaresAbout(cell, mean(cell)))));
  const total = squaresAbout(all, grand);
  const ss = { part, operator, interaction: total - part - operator - repeat, repeat, total };
  const dofInteraction = (p - 1) * (o - 1);
  const pooled = (ss.interaction + repeat) / (dofInteraction + p * o * (n - 1));
  const repeatVariance = interaction === 'pooled' ? pooled : repeat / (p * o * (n - 1));
  const error = interaction === 'pooled' ? pooled : ss.interaction / dofInteraction;
  return {
    ss,
    repeatVariance,
    ...(interaction === 'kept' && { interactionVariance: Math.max(0, (error - repeatVariance) / n) }),
    operatorVariance: Math.max(0, (operator / (o - 1) - error) / (p * n)),
    partVariance: Math.max(0, (part / (p - 1) - error) / (o * n)),
  };
}

function checkCrossed(readings: readonly (readonly (readonly number[])[])[], o: number, n: number): void {
  if (readings.length < 2 || o < 2 || n < 2)
    throw new InputError(
      `readings: must be at least 2 parts, operators and trials, got ${readings.length}, ${o}, ${n}`,
    );
  readings.forEach((part, i) => {
    if (part.length !== o || part.some((cell) => cell.length !== n))
      throw new InputError(`readings[${i}]: must hold ${o} operators with ${n} trials each`);
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function mean(values: readonly number[]): number {
  return sum(values) / values.length;
}

function squaresAbout(values: readonly number[], centre: number): number {
  return sum(values.map((value) => (value - centre) ** 2));
}
