import type { FitReading } from '../surface/reed-model.ts';
import type { JudgedPass, Noise } from './explanation.ts';
import { leftOut, type FirstOdd } from './first-cane.ts';
import { digitsTurned, NAMED_SDS, TENTH_MM, type OddReading } from './single-readings.ts';

/** Fewer readings lead to expect nothing of one of them. */
const FEWEST_READINGS = 30;
/** Off by as much as a slip makes it, a fifth of what was expected or 0.06 mm, and by so many standard deviations. */
const SLIP = { share: 0.2, leastMm: 0.025, mostMm: 0.06, sds: 4.4 };
/** Off by less than any slip of a tenth, a third or turned digits. */
const ODD = { mm: 0.03, sds: 5.9 };
/** A slip put right lands within this many standard deviations of what was expected. */
const LANDING_SDS = 2.5;
const MOST_ODD = 4;

/**
 * Readings of a first pass that its other readings do not lead to expect: its neighbours, and the same place of the facing
 * blade. The oddest first, each judged without those before it.
 */
export function oddFirstReadings({ readings }: JudgedPass, usual: Noise, stepMm: number): OddReading[] {
  return setApart(readings, FEWEST_READINGS, (left) => leftOut(left, usual)).odd.map((one) =>
    asOdd(one, stepMm),
  );
}

/**
 * The oddest readings, one after the other, each judged without those before it, and the readings that are left.
 *
 * @param fewest So many there must be to lead to expect anything of one of them.
 * @param judge Each reading by the others.
 */
export function setApart(
  readings: readonly FitReading[],
  fewest: number,
  judge: (left: readonly FitReading[]) => readonly FirstOdd[],
): { readonly odd: readonly FirstOdd[]; readonly left: readonly FitReading[] } {
  const odd: FirstOdd[] = [];
  let left = readings;
  while (odd.length < MOST_ODD && left.length >= fewest) {
    const oddest = judge(left)
      .filter(isOdd)
      .toSorted((a, b) => Math.abs(b.sds) - Math.abs(a.sds))[0];
    if (!oddest) break;
    odd.push(oddest);
    left = left.filter((reading) => reading !== oddest.reading);
  }
  return { odd, left };
}

function isOdd({ reading, offMm, sds }: FirstOdd): boolean {
  const [off, away] = [Math.abs(offMm), Math.abs(sds)];
  const slipMm = Math.min(SLIP.mostMm, Math.max(SLIP.leastMm, SLIP.share * (reading.thicknessMm - offMm)));
  return off >= slipMm ? away >= SLIP.sds : off >= ODD.mm && away >= ODD.sds;
}

/** With what was meant, where a slip leads to what was expected. */
export function asOdd({ reading, offMm, uMm, sds }: FirstOdd, stepMm: number): OddReading {
  const { thicknessMm } = reading;
  const expectedMm = thicknessMm - offMm;
  const meantMm = [...digitsTurned(thicknessMm, stepMm), thicknessMm - TENTH_MM, thicknessMm + TENTH_MM]
    .filter((mm) => mm > 0 && Math.abs(mm - expectedMm) <= LANDING_SDS * uMm)
    .sort((a, b) => Math.abs(a - expectedMm) - Math.abs(b - expectedMm))[0];
  const isNamed = meantMm !== undefined && Math.abs(sds) >= NAMED_SDS;
  return {
    ...{ reading, expectedMm, sds },
    ...(meantMm !== undefined && { meantMm }),
    grade: isNamed ? 'named' : 'asked',
  };
}
