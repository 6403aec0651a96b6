import { oddFirstReadings } from '../../src/faults/first-pass.ts';
import { knownNoise } from '../../src/surface/choose-noise.ts';
import type { OddReading } from '../../src/faults/single-readings.ts';
import type { FitReading } from '../../src/surface/reed-model.ts';
import { familyReed, FAMILY_GAUGES, type FamilySettings } from '../generator/family-reed.ts';
import { seededRandom } from '../seeded-random.ts';

/** A slip of a count of hundredths as it is written; the same text where there is nothing to slip. */
type Slipped = (text: string, random: () => number) => string;

const inHundredths = (change: (hundredths: number, isUp: boolean) => number): Slipped => {
  return (text, random) => {
    const [, decimals = ''] = text.split('.');
    return Math.max(0, change(Number(text), random() < 0.5)).toFixed(decimals.length);
  };
};

/** Digits are typed without their point: the last of a fine gauge is a tenth of a hundredth. */
const inDigits = (change: (digits: string, at: number) => string): Slipped => {
  return (text, random) => {
    const digits = text.replace('.', '');
    const typed = Number(change(digits, Math.floor(random() * digits.length)));
    return text.includes('.') ? (typed / 10).toFixed(1) : `${typed}`;
  };
};

/** Ways in which a reading is written wrong. A dial shows `45`, a fine gauge `45.3`. */
const SLIPS: Readonly<Record<string, Slipped>> = {
  tenth: inHundredths((read, isUp) => (isUp || read < 13 ? read + 10 : read - 10)),
  third: inHundredths((read, isUp) => (read * (isUp ? 4 : 2)) / 3),
  turned: (text) => text.replace(/^(\d)(\d)/, '$2$1'),
  lost: inDigits((digits, at) => digits.slice(0, at) + digits.slice(at + 1)),
  doubled: inDigits((digits, at) => digits.slice(0, at + 1) + digits.slice(at)),
};

/** What changes less than this is no slip to be found, mm. */
const LEAST_SLIP_MM = 0.03;

/** One slip in a first pass, and what is said of the reading; nothing where it is not told. */
export interface SlipCase {
  readonly kind: string;
  readonly rightMm: number;
  readonly sizeMm: number;
  readonly odd?: OddReading;
}

export interface SlipStudy {
  readonly slips: readonly SlipCase[];
  /** What is asked of each clean first pass. */
  readonly clean: readonly (readonly OddReading[])[];
}

export function studySlips(
  settings: Omit<FamilySettings, 'seed' | 'count' | 'extent'>,
  firstSeed: number,
  reeds: number,
): SlipStudy {
  const slips: SlipCase[] = [];
  const clean: OddReading[][] = [];
  const { stepMm } = FAMILY_GAUGES[settings.gauge];
  const { seatingMm, alongMm } = knownNoise({}, stepMm).noise;
  const noise = { seatingMm, placementMm: alongMm };
  for (let seed = firstSeed; seed < firstSeed + reeds; seed++) {
    const [pass] = familyReed({ ...settings, extent: 'full', seed, count: 1 }).passes;
    const oddOf = (readings: readonly FitReading[]) =>
      oddFirstReadings({ ...pass!, readings, readTwice: [], accident: false }, noise, stepMm);
    clean.push(oddOf(pass!.readings));
    const random = seededRandom(seed + 3_000_000);
    for (const [kind, slip] of Object.entries(SLIPS)) {
      const place = Math.floor(random() * pass!.readings.length);
      const right = pass!.readings[place]!;
      const thicknessMm =
        Number(slip((100 * right.thicknessMm).toFixed(stepMm < 0.01 ? 1 : 0), random)) / 100;
      const sizeMm = thicknessMm - right.thicknessMm;
      if (thicknessMm <= 0 || Math.abs(sizeMm) < LEAST_SLIP_MM) continue;
      const wrong = { ...right, thicknessMm };
      const odd = oddOf(pass!.readings.with(place, wrong)).find(({ reading }) => reading === wrong);
      slips.push({ kind, rightMm: right.thicknessMm, sizeMm, ...(odd && { odd }) });
    }
  }
  return { slips, clean };
}
