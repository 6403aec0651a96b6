import type { FittedReed } from '../answers/fitted-reed.ts';
import { standingReadings } from '../answers/standing-readings.ts';

/** A reed's readings along the middle, half way out and near the edge, both blades and sides together. */
export interface Profile {
  /** One line for each of `LINES`: distances from the tip, rising, and mean thickness there, mm. */
  readonly lines: readonly { readonly ysMm: readonly number[]; readonly thicknessMm: readonly number[] }[];
}

/** Distances from the centre line. */
const LINES = [0, 0.4, 0.8] as const;
const NEAR_LINE = 0.15;

/** Profile of a reed after a pass, from its standing readings alone: no surface is fitted. */
export function profileOf(reed: Pick<FittedReed, 'assembled'>, pass: number): Profile {
  const standing = standingReadings(reed, pass);
  return {
    lines: LINES.map((line) => {
      const rows = new Map<number, number[]>();
      for (const { fromTipMm, across, thicknessMm } of standing) {
        if (Math.abs(Math.abs(across) - line) > NEAR_LINE) continue;
        const y = Math.round(fromTipMm * 100) / 100;
        rows.set(y, [...(rows.get(y) ?? []), thicknessMm]);
      }
      const ysMm = [...rows.keys()].sort((a, b) => a - b);
      const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
      return { ysMm, thicknessMm: ysMm.map((y) => mean(rows.get(y)!)) };
    }),
  };
}

const STEP_MM = 0.5;
/** Fewer places in common say too little. */
const FEWEST = 12;

/**
 * How far apart two profiles are, root mean square over the stretches that both were read on, mm; undefined where those are
 * too short. A likeness, no measure of quality.
 */
export function profileDistance(a: Profile, b: Profile): number | undefined {
  let [squares, count] = [0, 0];
  a.lines.forEach((line, i) => {
    const other = b.lines[i]!;
    if (line.ysMm.length < 2 || other.ysMm.length < 2) return;
    const from = Math.max(line.ysMm[0]!, other.ysMm[0]!);
    const to = Math.min(line.ysMm.at(-1)!, other.ysMm.at(-1)!);
    for (let y = from; y <= to + 1e-9; y += STEP_MM) {
      squares += (valueAt(line, y) - valueAt(other, y)) ** 2;
      count += 1;
    }
  });
  return count < FEWEST ? undefined : Math.sqrt(squares / count);
}

function valueAt({ ysMm, thicknessMm }: Profile['lines'][number], y: number): number {
  const next = Math.max(
    1,
    ysMm.findIndex((at) => at >= y - 1e-9),
  );
  const share = (y - ysMm[next - 1]!) / (ysMm[next]! - ysMm[next - 1]!);
  return thicknessMm[next - 1]! + share * (thicknessMm[next]! - thicknessMm[next - 1]!);
}

/** A reed with its distance from another. */
export interface NearReed<T> {
  readonly reed: T;
  readonly rmsMm: number;
}

/** The most alike first. */
export function nearestProfiles<T>(
  own: Profile,
  others: readonly { readonly reed: T; readonly profile: Profile }[],
  most: number,
): NearReed<T>[] {
  return others
    .flatMap(({ reed, profile }) => {
      const rmsMm = profileDistance(own, profile);
      return rmsMm === undefined ? [] : [{ reed, rmsMm }];
    })
    .sort((a, b) => a.rmsMm - b.rmsMm)
    .slice(0, most);
}
