import type { Column } from './columns.ts';
import type { Relation } from './relations.ts';

/** Fewer failures than this teach no floor. Common practice, no source. */
const FEWEST_FAILURES = 5;
const RESAMPLES = 200;

/** A thickness of a zone under which reeds of this maker tend to fail. */
export interface LearnedFloor {
  readonly name: string;
  readonly title: string;
  readonly floorMm: number;
  /** 95 %, from drawing the reeds again and again. */
  readonly interval: readonly [low: number, high: number];
  readonly under: { readonly failed: number; readonly all: number };
  readonly above: { readonly failed: number; readonly all: number };
}

interface Case {
  readonly mm: number;
  readonly failed: boolean;
}

/** The threshold that parts failures from the rest best: most caught less most falsely blamed (Youden 1950). */
function bestThreshold(cases: readonly Case[]): number {
  const sorted = [...cases].sort((a, b) => a.mm - b.mm);
  const failures = sorted.filter(({ failed }) => failed).length;
  const others = sorted.length - failures;
  let [caught, blamed, best, at] = [0, 0, -Infinity, sorted[0]!.mm];
  sorted.forEach(({ mm, failed }, i) => {
    if (failed) caught += 1;
    else blamed += 1;
    const next = sorted[i + 1]?.mm ?? mm;
    const gain = caught / failures - blamed / others;
    if (next > mm && gain > best) [best, at] = [gain, (mm + next) / 2];
  });
  return at;
}

function resampled(cases: readonly Case[], random: () => number): [number, number] {
  const found: number[] = [];
  for (let k = 0; k < RESAMPLES; k++) {
    const drawn = cases.map(() => cases[Math.floor(random() * cases.length)]!);
    const failures = drawn.filter(({ failed }) => failed).length;
    if (failures > 0 && failures < drawn.length) found.push(bestThreshold(drawn));
  }
  found.sort((a, b) => a - b);
  const at = (share: number) => found[Math.min(found.length - 1, Math.floor(share * found.length))]!;
  return [at(0.025), at(0.975)];
}

/**
 * Floors that failures teach: only for zones where being thin goes with failing surely enough to be said.
 *
 * @param random Uniform numbers in [0, 1), for the resampling.
 */
export function learnedFloors(
  relations: readonly Relation[],
  zones: readonly { readonly name: string; readonly title: string }[],
  random: () => number,
): LearnedFloor[] {
  return zones.flatMap(({ name, title }): LearnedFloor[] => {
    const told = relations.find(
      ({ figure, outcome, said, rho }) =>
        said && rho < 0 && figure.name === name && outcome.name === 'failed',
    );
    return told ? floorFrom(told.figure, told.outcome, { name, title }, random) : [];
  });
}

function floorFrom(
  figure: Column,
  failed: Column,
  zone: { readonly name: string; readonly title: string },
  random: () => number,
): LearnedFloor[] {
  const cases = figure.values
    .map((mm, i): Case => ({ mm, failed: failed.values[i] === 1 }))
    .filter(({ mm }) => !Number.isNaN(mm));
  if (cases.filter((one) => one.failed).length < FEWEST_FAILURES) return [];
  const floorMm = bestThreshold(cases);
  const count = (those: readonly Case[]) => ({
    failed: those.filter((one) => one.failed).length,
    all: those.length,
  });
  return [
    {
      ...zone,
      floorMm,
      interval: resampled(cases, random),
      under: count(cases.filter(({ mm }) => mm < floorMm)),
      above: count(cases.filter(({ mm }) => mm >= floorMm)),
    },
  ];
}
