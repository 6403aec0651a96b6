import { belongingOf } from '../family/belongs.ts';
import { stationsIn } from '../family/interpolation.ts';
import { leftOut } from '../family/odd-readings.ts';
import type { Predictive } from '../family/predictive.ts';
import { usualZeroUMm } from '../gauge/correct-readings.ts';
import type { FitReading } from '../surface/reed-model.ts';
import type { JudgedPass, Noise } from './explanation.ts';
import { asOdd, MOST_ODD, type FirstOdd } from './first-pass.ts';
import type { OddReading } from './single-readings.ts';

/** Tuned on invented makers of 30 reeds: `npm run study:fewer`. */
const ODD = { sds: 4.6, mm: 0.03 };

/**
 * Readings of a first pass that neither the maker's other reeds nor the reed's other readings lead to expect: the oddest
 * first, each judged without those before it. Undefined where the reed, without them, is of no such family.
 *
 * @param noise Seating and placement; the family has the placement of its own hand.
 * @param families What was learned, for example of finished reeds and of fresh ones.
 */
export function oddInFamily(
  { readings }: Pick<JudgedPass, 'readings'>,
  { seatingMm }: Pick<Noise, 'seatingMm'>,
  stepMm: number,
  families: readonly Predictive[],
): OddReading[] | undefined {
  const noise = { seatingMm, zeroMm: usualZeroUMm(stepMm) };
  const judged = families.map((predictive) => {
    const stations = stationsIn(predictive.frame, predictive.stations);
    const { odd, left } = setApart(readings, (all) =>
      leftOut({ readings: all, ...noise }, predictive, stations),
    );
    return { odd, belonging: belongingOf({ readings: left, ...noise }, predictive, stations) };
  });
  const nearest = judged
    .filter(({ belonging }) => !belonging.isOutside)
    .toSorted((a, b) => a.belonging.sds - b.belonging.sds)[0];
  return nearest?.odd.map((one) => asOdd(one, stepMm));
}

function setApart(
  readings: readonly FitReading[],
  judge: (left: readonly FitReading[]) => ReturnType<typeof leftOut>,
) {
  const odd: FirstOdd[] = [];
  let left = readings;
  while (odd.length < MOST_ODD && left.length > 1) {
    const all = judge(left).map(({ at, offMm, uMm }) => ({
      reading: left[at]!,
      offMm,
      uMm,
      sds: offMm / uMm,
    }));
    const oddest = all.reduce((most, one) => (Math.abs(one.sds) > Math.abs(most.sds) ? one : most));
    if (Math.abs(oddest.sds) < ODD.sds || Math.abs(oddest.offMm) < ODD.mm) break;
    odd.push(oddest);
    left = left.filter((reading) => reading !== oddest.reading);
  }
  return { odd, left };
}
