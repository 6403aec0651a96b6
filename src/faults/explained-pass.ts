import type { FitReading } from '../surface/reed-model.ts';
import type { ExplainedPass } from './cane.ts';
import type { Explanation, JudgedPass, Noise } from './explanation.ts';
import type { CaneReading } from './known-cane.ts';
import type { OddReading } from './single-readings.ts';
import { trueAcross, trueBlade } from './suspicion.ts';

/** A reading that is only asked about is believed this much less. */
const DOUBTED = 6;

/** A pass as it enters what is known of the cane: named faults undone, odd readings put right or doubted. */
export function asExplained(
  pass: JudgedPass,
  noise: Noise,
  explanation: Explanation | undefined,
  odd: readonly OddReading[],
): ExplainedPass {
  const place = (reading: FitReading, thicknessMm: number, doubt = 1): CaneReading => {
    const { blade, fromTipMm, across, noiseFactor, repeats, time = 0 } = reading;
    const seatingMm = (doubt * noise.seatingMm * noiseFactor) / Math.sqrt(repeats);
    const zMm = pass.overallLengthMm - fromTipMm;
    if (!explanation) return { blade, zMm, across, thicknessMm, seatingMm };
    const { labelling } = explanation;
    const offsets = explanation.offsets;
    return {
      blade: trueBlade(blade, labelling),
      zMm: zMm - offsets.shiftMm[blade],
      across: trueAcross(blade, across, labelling),
      thicknessMm: (thicknessMm - offsets.zeroMm[blade] - offsets.driftMm * time) / (1 + offsets.swelling),
      seatingMm,
    };
  };
  const stations = pass.readings.flatMap((reading) => {
    const oddity = odd.find((one) => one.reading === reading);
    if (!oddity) return [place(reading, reading.thicknessMm)];
    if (oddity.grade === 'asked') return [place(reading, reading.thicknessMm, DOUBTED)];
    return oddity.meantMm === undefined ? [] : [place(reading, oddity.meantMm)];
  });
  return {
    stations,
    controls: pass.controls.map((reading) => place(reading, reading.thicknessMm)),
    ...(pass.soakMin !== undefined && { soakMin: pass.soakMin }),
  };
}
