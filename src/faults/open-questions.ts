import type { Blade } from '../../shared/blade.ts';
import { knownNoise } from '../surface/choose-noise.ts';
import { stepOf, type FitOptions } from '../surface/fit-reed.ts';
import type { FitPass, FitReading } from '../surface/reed-model.ts';
import type { SharedErrorSizes } from '../surface/shared-errors.ts';
import type { Fault, PassFaults } from './fault.ts';
import { unsettledPasses } from './unsettled-passes.ts';

/** Whether anything is asked of a pass that widens figures, or lets a reading weigh less, while it is open. */
export function isOpen(found: readonly PassFaults[]): boolean {
  return found.some(({ faults, readAgain }) => faults.length > 0 || readAgain.some(({ inDoubt }) => inDoubt));
}

/**
 * A reed as it is fitted while faults of its passes are asked: what all readings of a pass may share is as unsure as the
 * question is large, and readings that may belong elsewhere, or be slips, weigh as little as the answers differ. So the
 * figures cover both answers; a remedy, or its refusal by reading again, narrows them.
 *
 * @param passes In the order of `found`.
 */
export function whileOpen(
  passes: readonly FitPass[],
  found: readonly PassFaults[],
  options: FitOptions,
): { passes: readonly FitPass[]; options: FitOptions } {
  const { seatingMm } = knownNoise(options, options.stepMm ?? stepOf(passes)).noise;
  return {
    passes: passes.map((pass, at) => ({
      ...pass,
      readings: pass.readings.map((reading) => {
        const apartMm = answersApartMm(reading, pass.readings, found[at]!);
        if (apartMm === 0) return reading;
        return { ...reading, noiseFactor: Math.hypot(reading.noiseFactor, apartMm / seatingMm) };
      }),
    })),
    options: {
      ...options,
      unsettled: unsettledPasses(found),
      openErrors: found.map(({ faults }) => openErrorsOf(faults)),
    },
  };
}

/** How far the answers to what is asked of a pass move all its readings together, at most. */
function openErrorsOf(faults: readonly Fault[]): SharedErrorSizes {
  const largest = (kinds: readonly Fault['kind'][], sizeOf: (fault: Fault) => number) =>
    Math.max(0, ...faults.filter(({ kind }) => kinds.includes(kind)).map(sizeOf));
  const valueOf = ({ valueMm = 0 }: Fault) => Math.abs(valueMm);
  return {
    zeroMm: largest(['zero'], valueOf),
    driftMm: largest(['drift'], valueOf),
    swelling: largest(['swelling'], ({ factor = 1 }) => Math.abs(factor - 1)),
    lengthMm: largest(['clip', 'shifted'], valueOf),
  };
}

/** How far the answers that are open differ for one reading, mm. */
function answersApartMm(
  reading: FitReading,
  readings: readonly FitReading[],
  { faults, readAgain }: PassFaults,
): number {
  const slips = faults.flatMap(({ kind, blade, place, valueMm, expectedMm }) => {
    const otherMm = valueMm ?? expectedMm;
    return kind === 'digits' && place && otherMm !== undefined ? [{ blade, ...place, otherMm }] : [];
  });
  const low = readAgain
    .filter(({ inDoubt }) => inDoubt)
    .map(({ expectedMm, ...place }) => ({ ...place, otherMm: expectedMm }));
  const apart = [...slips, ...low]
    .filter(
      ({ blade, fromTipMm, across }) =>
        blade === reading.blade && fromTipMm === reading.fromTipMm && across === reading.across,
    )
    .map(({ otherMm }) => Math.abs(reading.thicknessMm - otherMm));
  const elsewhere = faults.flatMap((fault) => counterpartOf(reading, fault) ?? []);
  const others = elsewhere.map(({ blade, across }) => {
    const other = readings.find(
      (one) => one.blade === blade && one.across === across && one.fromTipMm === reading.fromTipMm,
    );
    return other ? Math.abs(reading.thicknessMm - other.thicknessMm) : 0;
  });
  return Math.max(0, ...apart, ...others);
}

/** Where a reading belongs if labels were taken for each other; undefined where it stays. */
function counterpartOf(
  { blade, across }: FitReading,
  fault: Fault,
): { readonly blade: Blade; readonly across: number } | undefined {
  if (fault.kind === 'swapped') return { blade: blade === 'A' ? 'B' : 'A', across };
  const isMirrored = fault.kind === 'mirrored' && (fault.blade === 'both' || fault.blade === blade);
  return isMirrored ? { blade, across: 0 - across } : undefined;
}
