import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { floorAt } from '../../src/blade/floors.ts';
import { estimate } from '../../src/figures/functional.ts';
import { rippleFunctional } from '../../src/figures/ripple.ts';
import type { ReedModel } from '../../src/surface/reed-model.ts';
import { caneInTheWay, type LampReed } from '../lamp/light.ts';
import { gridValue } from '../map/blade-drawing.ts';
import type { BladeGrid, BladeMapData } from '../map/map-data.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import type { ReliefBlade, ReliefPrint } from '../relief/relief-data.ts';
import type { ArchFacts } from '../scene/arch.ts';
import { cornersOf } from './opening-data.ts';
import { thicknessPlate, type Plate } from './plate-data.ts';

/** What is known of how a reed's blades are bent after a pass. */
function archOf({ passes }: FittedReed, pass: number, original: OriginalCane | undefined): ArchFacts {
  const openingMm = passes[pass]?.openingMm;
  return {
    ...(openingMm !== undefined && { openingMm }),
    ...(original && { gougeRadiusMm: original.curve.innerRadiusMm.valueMm }),
  };
}

/** How many standard uncertainties a ripple must pass so that not one of some 70 patches of a blade shows a false one: 95 %. */
const RIPPLE_FACTOR = 3.4;
/** The doubt of ripples is worked out at every so manieth node. */
const EVERY = 5;

/** The doubt of ripples at the nodes of a blade's map, mm. */
function rippleDoubt(model: ReedModel, blade: Blade, pass: number, { ysMm, us }: BladeGrid): number[] {
  const nodes = (knots: ArrayLike<number>) =>
    Array.from(knots).filter((_, k) => k % EVERY === 0 || k === knots.length - 1);
  const coarse = { ysMm: nodes(ysMm), us: nodes(us) };
  const valuesMm = coarse.ysMm.flatMap((fromTipMm) =>
    coarse.us.map(
      (across) => estimate(model, rippleFunctional(model, blade, pass, { fromTipMm, across })).uMm,
    ),
  );
  const grid = { ...coarse, valuesMm, halfWidthMm: coarse.ysMm };
  return Array.from(ysMm).flatMap((fromTipMm) =>
    Array.from(us, (across) => RIPPLE_FACTOR * gridValue(grid, valuesMm, { fromTipMm, across })),
  );
}

/** The blades of a plate of thickness as bodies: with their floor, and the cane as it was gouged where that is known. */
export function reliefBlades(
  benched: FittedReed,
  pass: number,
  plate: Plate,
  original: OriginalCane | undefined,
): ReliefBlade[] {
  const { assembled } = benched;
  const { floors } = assembled.style;
  const { halfWidthMm } = assembled.passes[pass]!;
  const corners = cornersOf(benched, pass);
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
        ...(corners && { corners: [corners[`${blade}L`], corners[`${blade}R`]] as const }),
        rippleDoubtMm: rippleDoubt(benched.model!, blade, pass, data),
        floorMm: over((y, u) => floorAt(floors, y, u)),
        ...(original && { originalMm: over(gouged) }),
      },
    ];
  });
}

/** A reed after a pass for a small picture: thickness alone, without lines and figures, and no ripple shaded. */
export function smallBlades(benched: FittedReed, pass: number): ReliefBlade[] {
  return Object.values(thicknessPlate(benched, pass)).map((data) => ({
    ...data,
    zones: [],
    marks: [],
    arch: archOf(benched, pass, undefined),
    rippleDoubtMm: new Float64Array(data.valuesMm.length).fill(Infinity),
  }));
}

/** The same blades against a lamp; none unless both were read. */
export function lampBlades(blades: readonly ReliefBlade[], attenuationPerMm: number): ReliefBlade[] {
  if (blades.length < 2) return [];
  const reed: LampReed = Object.fromEntries(blades.map((blade) => [blade.blade, blade]));
  return blades.map(({ blade, bladeLengthMm, ysMm, us, halfWidthMm, valuesMm, arch }) => {
    const way = blade === 'A' ? 1 : -1;
    const caneMm = Array.from(ysMm).flatMap((y) => Array.from(us, (u) => caneInTheWay(reed, y, way * u)));
    return {
      ...{ blade, bladeLengthMm, ysMm, us, halfWidthMm, valuesMm, zones: [], marks: [] },
      ...(arch && { arch }),
      print: { is: 'light', caneMm, attenuationPerMm },
    };
  });
}

/** What a question's flat map is in the relief. */
export type Carried = 'lifted' | 'bridges' | 'ghost' | 'strokes';

/** Puts what a question prints on the flat map onto the bodies: the same grid, the same figures, the same outlines. */
export function carrying(blades: readonly ReliefBlade[], plate: Plate, carried: Carried): ReliefBlade[] {
  return blades.map((body) => {
    const data = plate[body.blade];
    const print = data && printOf(body, data, carried);
    if (!print) return body;
    // What is printed speaks alone: the opening is not carried ahead of it.
    const { corners: _, ...rest } = body;
    return { ...rest, print };
  });
}

function printOf(body: ReliefBlade, data: BladeMapData, carried: Carried): ReliefPrint | undefined {
  if (carried === 'strokes') return data.nextStrokes && { is: 'strokes', outlines: data.nextStrokes };
  if (carried !== 'ghost') return { is: carried, difference: data };
  const targetMm = Array.from(data.ysMm).flatMap((fromTipMm, j) =>
    Array.from(
      data.us,
      (across, i) =>
        gridValue(body, body.valuesMm, { fromTipMm, across }) - data.valuesMm[j * data.us.length + i]!,
    ),
  );
  return { is: 'ghost', targetMm, difference: data };
}
