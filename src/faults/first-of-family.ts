import { belongingOf, STRANGE_SDS } from '../family/belongs.ts';
import { stationsIn } from '../family/interpolation.ts';
import { leftOut } from '../family/odd-readings.ts';
import type { Predictive } from '../family/predictive.ts';
import { usualZeroUMm } from '../gauge/correct-readings.ts';
import type { JudgedPass, Noise } from './explanation.ts';
import { asOdd, setApart } from './first-pass.ts';
import type { OddReading } from './single-readings.ts';

/** A reading is judged by another at least. */
const FEWEST_READINGS = 2;

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
    const { odd, left } = setApart(readings, FEWEST_READINGS, (all) =>
      leftOut({ readings: all, ...noise }, predictive, stations).map(({ at, offMm, uMm }) => ({
        ...{ reading: all[at]!, offMm, uMm },
        sds: offMm / uMm,
      })),
    );
    return { odd, belonging: belongingOf({ readings: left, ...noise }, predictive, stations) };
  });
  const nearest = judged
    .filter(({ belonging }) => belonging.sds <= STRANGE_SDS)
    .toSorted((a, b) => a.belonging.sds - b.belonging.sds)[0];
  return nearest?.odd.map((one) => asOdd(one, stepMm));
}
