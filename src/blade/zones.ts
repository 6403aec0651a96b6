import type { Lengths, OutlinePoint, Style, Zone } from '../../shared/style.ts';
import { isInPolygon, type Point } from '../numerics/polygon.ts';

/** A zone as it lies on one pass's blade: closed outlines of (mm from that pass's tip, across). */
export interface PlacedZone {
  readonly name: string;
  readonly title: string;
  readonly outlines: readonly (readonly Point[])[];
}

/** The blade for which a reed's zones were laid out. */
export interface ZoneFrame {
  readonly lengths: Lengths;
  /** Overall length of the reed when these lengths held, mm. */
  readonly overallLengthMm: number;
}

/** A distance in a style's template carried to a reed's own lengths, straight between the landmarks. */
export function stretched(fromTipMm: number, template: Lengths, own: Lengths): number {
  const from = [0, template.tipMm, template.heartEndMm, template.scrapeEndMm];
  const to = [0, own.tipMm, own.heartEndMm, own.scrapeEndMm];
  const next = from.findIndex((landmark) => landmark >= fromTipMm);
  if (next === 0) return fromTipMm;
  if (next === -1) return to[3]! + fromTipMm - from[3]!;
  const share = (fromTipMm - from[next - 1]!) / (from[next]! - from[next - 1]!);
  return to[next - 1]! + share * (to[next]! - to[next - 1]!);
}

/**
 * A style's zones on a pass, placed from that pass's own tip; only the scrape's end and what lies beyond it stay with the
 * cane when the tip is clipped.
 */
export function placeZones(
  style: Pick<Style, 'lengths' | 'zones'>,
  frame: ZoneFrame,
  passOverallLengthMm: number,
): PlacedZone[] {
  const clippedMm = frame.overallLengthMm - passOverallLengthMm;
  const place = ({ fromTipMm, across, hangsFrom }: OutlinePoint): Point => {
    const y = stretched(fromTipMm, style.lengths, frame.lengths);
    const moved = hangsFrom === 'cane' ? y - clippedMm : y;
    return [Math.max(0, moved), across];
  };
  return style.zones.map(({ name, title, outlines }: Zone) => ({
    name,
    title,
    outlines: outlines.map((outline) => outline.map(place)),
  }));
}

/** Whether a place lies in a zone. */
export function isInZone(
  { outlines }: Pick<PlacedZone, 'outlines'>,
  fromTipMm: number,
  across: number,
): boolean {
  return outlines.some((outline) => isInPolygon(outline, fromTipMm, across));
}

/** A full-width rectangle between two distances from the tip. */
export function rectangleZone(name: string, fromMm: number, toMm: number): PlacedZone {
  const outline: Point[] = [
    [fromMm, -1],
    [fromMm, 1],
    [toMm, 1],
    [toMm, -1],
  ];
  return { name, title: name, outlines: [outline] };
}
