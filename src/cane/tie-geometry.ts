import type { Shape } from '../../shared/cane.ts';
import type { Planform } from '../../shared/planform.ts';
import type { Reed } from '../../shared/reed.ts';
import { halfWidthAt } from '../blade/planform.ts';
import { widthAt } from './shapes.ts';

/** What follows from how a reed was tied; a length is absent where one that it needs is. */
export interface TieGeometry {
  /** Thread to tip as tied, mm. */
  readonly bladeMm?: number;
  /** The thread's top above the staple's top, mm; below 0 where it stops short of it. */
  readonly threadOverStapleMm?: number;
  readonly tipWidthMm?: number;
  readonly widthAtThreadMm?: number;
  /** What a maker would look at again, in sentences. */
  readonly remarks: readonly string[];
}

/** Past the staple's top by more than this the thread closes the throat. Common practice, no source. */
const MOST_OVER_MM = 0.3;

/** Geometry of a reed as tied, from its staple, its lengths and its outline; from the shape while it has none of its own. */
export function tieGeometry(
  { staple, tie, planform }: Pick<Reed, 'staple' | 'tie' | 'planform'>,
  shape?: Pick<Shape, 'widths'>,
): TieGeometry {
  const { overallMm, threadMm } = tie ?? {};
  const bladeMm = overallMm !== undefined && threadMm !== undefined ? overallMm - threadMm : undefined;
  const overMm =
    threadMm !== undefined && staple?.lengthMm !== undefined ? threadMm - staple.lengthMm : undefined;
  const widths = planform ? ownWidths(planform, threadMm) : shape && shapeWidths(shape, bladeMm);
  return {
    ...(bladeMm !== undefined && { bladeMm }),
    ...(overMm !== undefined && { threadOverStapleMm: overMm }),
    ...widths,
    remarks: [
      ...(bladeMm !== undefined && bladeMm <= 0 ? ['The thread cannot stand above the tip.'] : []),
      ...(overMm !== undefined && overMm > MOST_OVER_MM
        ? ['The thread goes past the top of the staple: it may close the throat.']
        : []),
      ...(tie?.leaks === 'leaks' ? ['It leaks: seal it before any other fault is looked for.'] : []),
    ],
  };
}

type TieWidths = Pick<TieGeometry, 'tipWidthMm' | 'widthAtThreadMm'>;

function ownWidths(planform: Planform, threadMm: number | undefined): TieWidths {
  const tipWidthMm = planform.widths.at(-1)!.widthMm;
  const reaches = threadMm !== undefined && threadMm >= planform.widths[0]!.fromCorkMm;
  return { tipWidthMm, ...(reaches && { widthAtThreadMm: 2 * halfWidthAt(planform, threadMm) }) };
}

function shapeWidths({ widths }: Pick<Shape, 'widths'>, bladeMm: number | undefined): TieWidths {
  const tipWidthMm = widths[0]!.widthMm;
  const reaches = bladeMm !== undefined && bladeMm > 0 && bladeMm <= widths.at(-1)!.fromFoldMm;
  return { tipWidthMm, ...(reaches && { widthAtThreadMm: widthAt(widths, bladeMm) }) };
}
