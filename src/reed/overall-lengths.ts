import type { Pass } from '../../shared/pass.ts';
import { remediedClipMm } from './corrected-readings.ts';

/** Assumed where nothing was entered. Common practice, no source. */
export const USUAL_OVERALL_MM = 70;

type Measured = Pick<Pass, 'overallLengthMm' | 'clipMm' | 'remedies'>;

/** Overall lengths of the passes, in their order, mm: as entered, or the one before less the clip. A reed never grows. */
export function overallLengths(passes: readonly Measured[]): number[] {
  const lengths: number[] = [];
  for (const pass of passes) {
    const before = lengths.at(-1);
    const entered =
      pass.overallLengthMm ?? (before ?? USUAL_OVERALL_MM) - (before === undefined ? 0 : (pass.clipMm ?? 0));
    lengths.push(Math.min(before ?? Infinity, entered - remediedClipMm(pass)));
  }
  return lengths;
}

/** The overall length after a pass, by its place among them, mm; undefined where none was entered so far. */
export function knownOverallMm(passes: readonly Measured[], place: number): number | undefined {
  const isKnown = passes.slice(0, place + 1).some(({ overallLengthMm }) => overallLengthMm !== undefined);
  return isKnown ? overallLengths(passes.slice(0, place + 1))[place] : undefined;
}
