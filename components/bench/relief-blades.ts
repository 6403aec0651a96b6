import { BLADES } from '../../shared/blade.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { floorAt } from '../../src/blade/floors.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import type { ArchFacts } from '../scene/arch.ts';
import type { Plate } from './plate-data.ts';

/** What is known of how a reed's blades are bent after a pass. */
function archOf({ passes }: BenchedReed, pass: number, original: OriginalCane | undefined): ArchFacts {
  const openingMm = passes[pass]?.openingMm;
  return {
    ...(openingMm !== undefined && { openingMm }),
    ...(original && { gougeRadiusMm: original.curve.innerRadiusMm.valueMm }),
  };
}

/** The blades of a plate of thickness as bodies: with their floor, and the cane as it was gouged where that is known. */
export function reliefBlades(
  benched: BenchedReed,
  pass: number,
  plate: Plate,
  original: OriginalCane | undefined,
): ReliefBlade[] {
  const { assembled } = benched;
  const { floors } = assembled.style;
  const { halfWidthMm } = assembled.passes[pass]!;
  return BLADES.flatMap((blade) => {
    const data = plate[blade];
    if (!data) return [];
    const over = (height: (y: number, u: number) => number | undefined) =>
      Array.from(data.ysMm)
        .flatMap((y) => Array.from(data.us, (u) => height(y, u) ?? NaN))
        .map((value, k) => (Number.isNaN(data.valuesMm[k]) ? NaN : value));
    const gouged = (y: number, across: number) =>
      original?.thicknessAt({ blade, across, halfWidthMm: halfWidthMm(y) }).valueMm;
    return [
      {
        ...data,
        arch: archOf(benched, pass, original),
        floorMm: over((y, u) => floorAt(floors, y, u)),
        ...(original && { originalMm: over(gouged) }),
      },
    ];
  });
}
