import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FitReading } from '../surface/reed-model.ts';

/** Which blade a reading written for each blade belongs to, and which blades were written left for right. */
export interface Labelling {
  readonly swapped: boolean;
  readonly mirrored: readonly Blade[];
}

export const AS_WRITTEN: Labelling = { swapped: false, mirrored: [] };

/** An amount that all readings of a pass, or of one blade, may share by mistake. */
export interface OffsetSuspicion {
  readonly kind: 'zero' | 'drift' | 'swelling' | 'shifted';
  readonly blade: Blade | 'both';
}

/** Something that may be wrong with a whole pass. */
export type Suspicion = OffsetSuspicion | { readonly kind: 'labels'; readonly labelling: Labelling };

/** What a pass's readings share, by the blade for which they are written. */
export interface Offsets {
  /** True distance from the tip less the written one, mm. */
  readonly shiftMm: Readonly<Record<Blade, number>>;
  /** What the gauge added, mm. */
  readonly zeroMm: Readonly<Record<Blade, number>>;
  /** What the gauge added more at the last reading than at the first, mm. */
  readonly driftMm: number;
  /** Growth in proportion. */
  readonly swelling: number;
}

const MIRRORED: readonly (readonly Blade[])[] = [[], ['A', 'B'], ['A'], ['B']];

/** The seven ways to write the right numbers under wrong names. */
const RELABELLINGS = [false, true]
  .flatMap((swapped) => MIRRORED.map((mirrored): Labelling => ({ swapped, mirrored })))
  .slice(1);

const OFFSETS: readonly OffsetSuspicion[] = [
  { kind: 'zero', blade: 'both' },
  { kind: 'zero', blade: 'A' },
  { kind: 'zero', blade: 'B' },
  { kind: 'drift', blade: 'both' },
  { kind: 'swelling', blade: 'both' },
  { kind: 'shifted', blade: 'both' },
  { kind: 'shifted', blade: 'A' },
  { kind: 'shifted', blade: 'B' },
];

const SUSPICIONS: readonly Suspicion[] = [
  ...OFFSETS,
  ...RELABELLINGS.map((labelling) => ({ kind: 'labels', labelling }) as const),
];

/** What a pass may be suspected of beside what is held: of a drift only where it is known when its readings were taken. */
export function suspicionsOf(
  { readings }: { readonly readings: readonly FitReading[] },
  held: readonly Suspicion[],
): Suspicion[] {
  const isTimed = readings.some(({ time }) => time !== undefined);
  return SUSPICIONS.filter((suspicion) => isNew(held, suspicion) && (isTimed || suspicion.kind !== 'drift'));
}

/** Whether a suspicion says something that those already held leave open: one labelling, one offset of each kind. */
export function isNew(held: readonly Suspicion[], { kind }: Suspicion): boolean {
  return held.every((other) => other.kind !== kind);
}

export function labellingOf(suspicions: readonly Suspicion[]): Labelling {
  return suspicions.find((suspicion) => suspicion.kind === 'labels')?.labelling ?? AS_WRITTEN;
}

/** The sum of offsets along some suspicions. */
export function offsetsAlong(suspicions: readonly OffsetSuspicion[], amounts: ArrayLike<number>): Offsets {
  const shiftMm = { A: 0, B: 0 };
  const zeroMm = { A: 0, B: 0 };
  let driftMm = 0;
  let swelling = 0;
  suspicions.forEach(({ kind, blade }, i) => {
    const amount = amounts[i]!;
    if (kind === 'swelling') swelling += amount;
    else if (kind === 'drift') driftMm += amount;
    else
      for (const name of BLADES)
        if (blade === 'both' || blade === name) (kind === 'zero' ? zeroMm : shiftMm)[name] += amount;
  });
  return { shiftMm, zeroMm, driftMm, swelling };
}

export function trueBlade(written: Blade, { swapped }: Labelling): Blade {
  return swapped === (written === 'A') ? 'B' : 'A';
}

export function trueAcross(written: Blade, across: number, { mirrored }: Labelling): number {
  return mirrored.includes(written) ? 0 - across : across;
}
