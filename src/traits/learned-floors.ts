import type { Column } from './columns.ts';
import type { Relation } from './relations.ts';

/** Fewer failures than this teach no floor. Common practice, no source. */
const FEWEST_FAILURES = 5;

/** A thickness of a zone under which reeds of this maker tend to fail. */
export interface LearnedFloor {
  readonly name: string;
  readonly title: string;
  readonly floorMm: number;
  /** 95 %. */
  readonly interval: readonly [low: number, high: number];
  readonly under: { readonly failed: number; readonly all: number };
  readonly above: { readonly failed: number; readonly all: number };
}

interface Case {
  readonly mm: number;
  readonly failed: boolean;
}

/** Twice the drop of the log likelihood that 95 % of thresholds stay within. Source: Hansen 2000, table 1, from memory. */
const WITHIN = 7.35;

/** Log likelihood of so many failures among so many reeds, at their own rate. */
function likelihood(failed: number, all: number): number {
  const term = (count: number) => (count === 0 ? 0 : count * Math.log(count / all));
  return term(failed) + term(all - failed);
}

/**
 * The threshold at which one rate of failing gives way to another, by greatest likelihood, with the thresholds that the
 * reeds cannot tell from it.
 *
 * Source: Hansen 2000, "Sample splitting and threshold estimation", Econometrica 68, doi 10.1111/1468-0262.00124.
 *
 * @param cases At least two different thicknesses.
 */
function threshold(cases: readonly Case[]): { floorMm: number; interval: readonly [number, number] } {
  const sorted = [...cases].sort((a, b) => a.mm - b.mm);
  const failures = sorted.filter(({ failed }) => failed).length;
  let under = 0;
  const candidates = sorted.slice(0, -1).flatMap(({ mm, failed }, i) => {
    if (failed) under += 1;
    const next = sorted[i + 1]!.mm;
    const fit = likelihood(under, i + 1) + likelihood(failures - under, sorted.length - i - 1);
    return next > mm ? [{ at: (mm + next) / 2, from: mm, to: next, fit }] : [];
  });
  const best = candidates.reduce((a, b) => (b.fit > a.fit ? b : a));
  const near = candidates.filter(({ fit }) => 2 * (best.fit - fit) <= WITHIN);
  return { floorMm: best.at, interval: [near[0]!.from, near.at(-1)!.to] };
}

/**
 * Floors that failures teach: only for zones where being thin goes with failing surely enough to be said.
 */
export function learnedFloors(
  relations: readonly Relation[],
  zones: readonly { readonly name: string; readonly title: string }[],
): LearnedFloor[] {
  return zones.flatMap(({ name, title }): LearnedFloor[] => {
    const told = relations.find(
      ({ figure, outcome, said, rho }) =>
        said && rho < 0 && figure.name === name && outcome.name === 'failed',
    );
    return told ? floorFrom(told.figure, told.outcome, { name, title }) : [];
  });
}

function floorFrom(
  figure: Column,
  failed: Column,
  zone: { readonly name: string; readonly title: string },
): LearnedFloor[] {
  const cases = figure.values
    .map((mm, i): Case => ({ mm, failed: failed.values[i] === 1 }))
    .filter(({ mm }) => !Number.isNaN(mm));
  if (cases.filter((one) => one.failed).length < FEWEST_FAILURES) return [];
  const { floorMm, interval } = threshold(cases);
  const count = (those: readonly Case[]) => ({
    failed: those.filter((one) => one.failed).length,
    all: those.length,
  });
  return [
    {
      ...zone,
      floorMm,
      interval,
      under: count(cases.filter(({ mm }) => mm < floorMm)),
      above: count(cases.filter(({ mm }) => mm >= floorMm)),
    },
  ];
}
