import { least } from 'd3-array';
import type { Blade } from '../../shared/blade.ts';
import { UNREAD_REMOVAL_SD_MM } from '../figures/unread.ts';
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
 * A reed as it is fitted while faults of its passes are asked: what all readings of a pass may share, labels taken for each
 * other among it, is as unsure as the question is large, and readings that may be slips weigh as little as the answers
 * differ. So the figures cover both answers; a remedy, or its refusal by reading again, narrows them.
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
        const apartMm = answersApartMm(reading, found[at]!);
        const mislabelledMm = mislabelledMmOf(reading, passes, at, found[at]!.faults);
        if (apartMm === 0 && mislabelledMm === undefined) return reading;
        return {
          ...reading,
          noiseFactor: Math.hypot(reading.noiseFactor, apartMm / seatingMm),
          ...(mislabelledMm !== undefined && { mislabelledMm }),
        };
      }),
    })),
    options: {
      ...options,
      unsettled: unsettledPasses(found),
      openErrors: found.map(({ faults }, at) => openErrorsOf(faults, passes[at]!)),
    },
  };
}

/** How far the answers to what is asked of a pass move all its readings together, at most. */
function openErrorsOf(faults: readonly Fault[], { readings }: FitPass): SharedErrorSizes {
  const largest = (kinds: readonly Fault['kind'][], sizeOf: (fault: Fault) => number) =>
    Math.max(0, ...faults.filter(({ kind }) => kinds.includes(kind)).map(sizeOf));
  const valueOf = ({ valueMm = 0 }: Fault) => Math.abs(valueMm);
  const isSwapAsked = faults.some(({ kind }) => kind === 'swapped');
  // If the one blade that was read is the other, what came off this one is not known.
  const isOneRead = new Set(readings.map(({ blade }) => blade)).size === 1;
  return {
    zeroMm: largest(['zero'], valueOf),
    ...(isSwapAsked && isOneRead && { unreadMm: UNREAD_REMOVAL_SD_MM }),
    driftMm: largest(['drift'], valueOf),
    swelling: largest(['swelling'], ({ factor = 1 }) => Math.abs(factor - 1)),
    lengthMm: largest(['clip', 'shifted'], valueOf),
    labels: largest(['swapped', 'mirrored'], () => 1),
  };
}

/** How far the answers that are open differ for one reading by itself, mm. */
function answersApartMm(
  { blade, fromTipMm, across, thicknessMm }: FitReading,
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
    .filter((slip) => slip.blade === blade && slip.fromTipMm === fromTipMm && slip.across === across)
    .map(({ otherMm }) => Math.abs(thicknessMm - otherMm));
  return Math.max(0, ...apart);
}

/**
 * How much thicker a reading is than its place, if labels of its pass were taken for each other: the reading that stands
 * under the other label is the place's own. Where the pass has none, an earlier pass says how both places differ.
 *
 * @param at Place of its pass among them.
 * @returns Nothing where labels are not asked of it, or nothing tells.
 */
function mislabelledMmOf(
  reading: FitReading,
  passes: readonly FitPass[],
  at: number,
  faults: readonly Fault[],
): number | undefined {
  const counterpart = faults.map((fault) => counterpartOf(reading, fault)).find((one) => one !== undefined);
  if (!counterpart) return undefined;
  const own = passes[at]!;
  const read = (pass: FitPass, { blade, across }: Pick<FitReading, 'blade' | 'across'>) => {
    const fromTipMm = reading.fromTipMm + pass.overallLengthMm - own.overallLengthMm;
    const away = (one: FitReading) => Math.abs(one.fromTipMm - fromTipMm);
    const near = pass.readings.filter(
      (one) => one.blade === blade && one.across === across && away(one) < SAME_PLACE_MM,
    );
    return least(near, away);
  };
  const other = read(own, counterpart);
  if (other) return reading.thicknessMm - other.thicknessMm;
  for (const pass of passes.slice(0, at).reverse()) {
    const [here, there] = [read(pass, reading), read(pass, counterpart)];
    if (here && there) return there.thicknessMm - here.thicknessMm;
  }
  return undefined;
}

/** Readings of passes between which the tip was clipped a little still lie side by side. */
const SAME_PLACE_MM = 0.3;

/** Where a reading belongs if labels were taken for each other; undefined where it stays. */
function counterpartOf(
  { blade, across }: FitReading,
  fault: Fault,
): { readonly blade: Blade; readonly across: number } | undefined {
  if (fault.kind === 'swapped') return { blade: blade === 'A' ? 'B' : 'A', across };
  const isMirrored = fault.kind === 'mirrored' && (fault.blade === 'both' || fault.blade === blade);
  return isMirrored ? { blade, across: 0 - across } : undefined;
}
