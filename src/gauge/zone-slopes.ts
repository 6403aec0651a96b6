import { median } from 'd3-array';
import { floorAt } from '../blade/floors.ts';
import { assumedPlanform, halfWidthAt } from '../blade/planform.ts';
import type { StyleTemplate } from '../blade/starting-styles.ts';
import { USUAL_THICKNESS } from '../blade/usual-thickness.ts';
import { isInZone } from '../blade/zones.ts';
import type { Point } from '../numerics/polygon.ts';
import type { Slope } from './believable-change.ts';

/** A zone of a finished blade: how steep it is there, and how thick. */
export interface ZoneSlope {
  readonly title: string;
  /** Medians over the zone: the steep place at its edge belongs to the next one. */
  readonly slope: Slope;
  readonly thicknessMm: number;
}

const STEP_MM = 0.5;
const STEP_ACROSS = 0.1;
const CORK_MM = 100;

/**
 * How steep the usual finished reed of a style is in each of its zones. Beyond the scrape it is as at its end; a zone that
 * lies nowhere on the blade is left out.
 */
export function zoneSlopes({
  key,
  tipWidthMm,
  zones,
}: Pick<StyleTemplate, 'key' | 'tipWidthMm' | 'zones'>): ZoneSlope[] {
  const { thickness } = USUAL_THICKNESS[key]!;
  const endMm = Math.max(...thickness.fromTipMm.filter((_, k) => thickness.floorMm[k]![0] !== null));
  const planform = assumedPlanform(CORK_MM, tipWidthMm);
  const at = (y: number, u: number) => floorAt(thickness, Math.min(Math.max(y, 0), endMm), u)!;
  return zones.flatMap(({ title, outlines }) => {
    const placed = outlines.map((outline) =>
      outline.map(({ fromTipMm, across }): Point => [fromTipMm, across]),
    );
    const places = lattice(placed);
    if (places.length === 0) return [];
    const along = places.map(([y, u]) => (at(y + STEP_MM / 2, u) - at(y - STEP_MM / 2, u)) / STEP_MM);
    const across = places.map(
      ([y, u]) =>
        (at(y, u + STEP_ACROSS / 2) - at(y, u - STEP_ACROSS / 2)) /
        (STEP_ACROSS * halfWidthAt(planform, CORK_MM - y)),
    );
    const slope = { along: medianSize(along), across: medianSize(across) };
    const thicknessMm = places.reduce((sum, [y, u]) => sum + at(y, u), 0) / places.length;
    return [{ title, slope, thicknessMm }];
  });
}

/** Places within outlines, evenly over them. */
function lattice(outlines: readonly (readonly Point[])[]): Point[] {
  const longMm = Math.max(0, ...outlines.flat().map(([y]) => y));
  const rows = Array.from({ length: Math.ceil(longMm / STEP_MM) }, (_, j) => (j + 0.5) * STEP_MM);
  const columns = Array.from({ length: 2 / STEP_ACROSS }, (_, i) => (i + 0.5) * STEP_ACROSS - 1);
  return rows
    .flatMap((y) => columns.map((u): Point => [y, u]))
    .filter(([y, u]) => isInZone({ outlines }, y, u));
}

const medianSize = (values: readonly number[]) => median(values, Math.abs)!;
