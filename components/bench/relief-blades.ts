import { BLADES } from '../../shared/blade.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { floorAt } from '../../src/blade/floors.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import type { Plate } from './plate-data.ts';

/** What is drawn over and under the bark. */
interface Sheets {
  readonly withFloor: boolean;
  /** The cane that the blades were made of, drawn as a ghost. */
  readonly original?: OriginalCane | undefined;
}

/** The blades of a plate of thickness as reliefs: the readings as pins, floor and gouged cane as sheets. */
export function reliefBlades(
  { assembled }: BenchedReed,
  pass: number,
  plate: Plate,
  { withFloor, original }: Sheets,
): ReliefBlade[] {
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
        pins: data.marks.map((mark) => ({ ...mark, thicknessMm: mark.valueMm })),
        ...(withFloor && { floorMm: over((y, u) => floorAt(floors, y, u)) }),
        ...(original && { originalMm: over(gouged) }),
      },
    ];
  });
}
