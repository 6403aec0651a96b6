import { growthOf, type Noise, type ReadPass } from './drift.ts';
import type { Fault } from './fault.ts';

/** Fewer places read twice may all be slips. */
const FEWEST_TWICE = 2;
/** A drift that places read twice show by themselves: standard deviations from which it is asked, and named. */
const SHOWN = { mm: 0.008, askedSds: 3, namedSds: 4.5 };

/** The drift of a pass that nothing is known of but its own places read twice: weighted least squares. */
export function driftOfFirst(pass: ReadPass, noise: Noise): Fault[] {
  const growth = growthOf(pass, noise);
  if (growth.length < FEWEST_TWICE) return [];
  const weight = growth.reduce((sum, { apart, uMm }) => sum + (apart / uMm) ** 2, 0);
  const driftMm =
    growth.reduce((sum, { grewMm, apart, uMm }) => sum + (grewMm * apart) / uMm ** 2, 0) / weight;
  const evidence = Math.abs(driftMm) * Math.sqrt(weight);
  if (Math.abs(driftMm) < SHOWN.mm || evidence < SHOWN.askedSds) return [];
  const grade = evidence >= SHOWN.namedSds ? 'named' : 'asked';
  const found = { kind: 'drift', blade: 'both', grade, evidence } as const;
  const valueMm = Number(driftMm.toFixed(3));
  const uMm = Number((1 / Math.sqrt(weight)).toFixed(4));
  return [{ ...found, valueMm, uMm, remedy: { kind: 'drift', driftMm: valueMm } }];
}
