import type { Blade } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Remedy } from '../../shared/remedy.ts';
import { correctReadings, type GaugeState } from '../gauge/correct-readings.ts';

/** What of a pass its thicknesses follow from. */
export type ReadPass = Pick<Pass, 'readings' | 'remedies' | 'zeroBeforeMm' | 'zeroAfterMm'>;

/** A reading with its thickness, after the remedies that the maker accepted and the gauge's zero. */
export type ReadThickness = Reading & {
  thicknessMm: number;
  /** When it was taken: 0 for the first reading of its pass, 1 for the last. */
  time: number;
};

const SAME_PLACE_MM = 1e-6;

function concerns(remedyBlade: Blade | 'both', blade: Blade): boolean {
  return remedyBlade === 'both' || remedyBlade === blade;
}

/** One reading as it would have been without the fault that a remedy names. */
function remedied(reading: ReadThickness, remedy: Remedy): ReadThickness {
  switch (remedy.kind) {
    case 'swapped':
      return { ...reading, blade: reading.blade === 'A' ? 'B' : 'A' };
    case 'mirrored':
      return concerns(remedy.blade, reading.blade) ? { ...reading, across: 0 - reading.across } : reading;
    case 'shifted':
      return concerns(remedy.blade, reading.blade)
        ? { ...reading, fromTipMm: reading.fromTipMm + remedy.shiftMm }
        : reading;
    case 'zero':
      return concerns(remedy.blade, reading.blade)
        ? { ...reading, thicknessMm: reading.thicknessMm - remedy.addedMm }
        : reading;
    case 'drift':
      return { ...reading, thicknessMm: reading.thicknessMm - remedy.driftMm * reading.time };
    case 'swelling':
      return concerns(remedy.blade, reading.blade)
        ? { ...reading, thicknessMm: reading.thicknessMm / remedy.factor }
        : reading;
    case 'digits':
      return remedy.blade === reading.blade &&
        Math.abs(remedy.fromTipMm - reading.fromTipMm) < SAME_PLACE_MM &&
        Math.abs(remedy.across - reading.across) < SAME_PLACE_MM
        ? { ...reading, thicknessMm: remedy.thicknessMm }
        : reading;
    case 'clip':
      return reading;
  }
}

/**
 * The readings of a pass that hold a thickness: corrected for the gauge's zero, tongue and calibration line, and then by
 * the accepted remedies in their order. The pass itself stays as it was.
 */
export function correctedReadings(pass: ReadPass, gauge: GaugeState): ReadThickness[] {
  return correctReadings(pass, gauge).map(({ reading, thicknessMm, time }) =>
    pass.remedies.reduce(remedied, { ...reading, thicknessMm, time }),
  );
}

/** What was clipped without being entered, by the accepted remedies. */
export function remediedClipMm({ remedies }: Pick<Pass, 'remedies'>): number {
  return remedies.reduce((sum, remedy) => sum + (remedy.kind === 'clip' ? remedy.clipMm : 0), 0);
}
