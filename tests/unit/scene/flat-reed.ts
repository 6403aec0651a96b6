import type { ReliefSettings } from '../../../components/relief/relief-data.ts';
import { BLADES, type Blade } from '../../../shared/blade.ts';

const ysMm = Array.from({ length: 25 }, (_, j) => j);
const us = Array.from({ length: 11 }, (_, i) => -1 + i / 5);
/** An invented blade, as thick as told, on a coarse grid. */
export const flatBlade = (blade: Blade, thicknessMm = (y: number) => 0.1 + 0.018 * y) => ({
  blade,
  bladeLengthMm: 24,
  ysMm,
  us,
  halfWidthMm: ysMm.map((y) => 3.5 - 0.05 * y),
  valuesMm: ysMm.flatMap((y) => us.map(() => thicknessMm(y))),
  zones: [],
  marks: [],
});
/** What a picture of both blades shows. */
export const settings = (stance: ReliefSettings['stance']): ReliefSettings => ({
  blades: BLADES.map((blade) => flatBlade(blade)),
  stance,
  factor: 4.5,
  differenceFactor: 18,
  unit: 'hundredths',
  lift: 1,
  light: { isEven: false, angle: 0 },
});
