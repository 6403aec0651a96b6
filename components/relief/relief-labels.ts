import type { Place } from '../../shared/blade.ts';
import { joined, thicknessFigure, type NumberFormat } from '../../src/words/format.ts';
import { gridValue } from '../map/blade-drawing.ts';
import type { MapMark, OutlinePoint } from '../map/map-data.ts';
import { quantityText } from '../map/quantity-text.ts';
import type { OnCanvas } from '../scene/eye.ts';
import type { ReliefScene } from '../scene/relief-scene.ts';
import { LENS_AHEAD_MM, type ReliefBlade } from './relief-data.ts';

/** Words that stand at a place of a blade and keep level while the reed turns; under a plan `spare` is what stands over the floor. */
export interface ReliefLabel {
  readonly kind: 'name' | 'distance' | 'corner' | 'mark' | 'reading' | 'spare' | 'difference';
  readonly text: string;
  readonly place: Place;
  /** The mark that the words stand for, for its lozenge and its colour. */
  readonly mark?: MapMark;
}

/** Distances that are written along the outer edges, mm. */
const EACH_MM = 5;
/** Labels nearer than this to one that was placed before give way, CSS pixels. */
const ROOM = { left: 21, top: 14 };
const ROOM_OF_DIFFERENCE = { left: 46, top: 30 };
/** Words fade as their place turns away, and go at the edge of sight. */
const FACING = { gone: 0.06, full: 0.3 };
/** Distances stand so far beside their edge, CSS pixels; names ahead of the tip, mm. */
const BESIDE = 16;
const AHEAD_MM = 1.4;
/** A name is not cut off by the edge of the picture, CSS pixels. */
const LEAST_TOP = 15;
/** Corners stand so far beyond the ends of the opening, and so far off the blade that faces them, CSS pixels. */
const BEYOND = 36;
const APART = 12;

/** A name stands off the bark: it is seen a little longer. */
const NAME_FACING = 0.4;
const OVER = {
  name: 'name',
  distance: 'bark',
  corner: 'bark',
  mark: 'bark',
  reading: 'bark',
  spare: 'bark',
  difference: 'print',
} as const;

const isOnWood = ({ kind }: ReliefLabel) => kind !== 'name' && kind !== 'distance' && kind !== 'corner';

/** A's outer edge is its left one, B's its right: side 1, where the dot is. */
const outer = ({ blade }: ReliefBlade) => (blade === 'A' ? -1 : 1);

/** The floor under a place, mm; NaN where there is none. */
const floorUnder = (blade: ReliefBlade, place: OutlinePoint) =>
  blade.floorMm ? gridValue(blade, blade.floorMm, place) : NaN;

/** What surely stands over the floor, mm: whole hundredths, as readings are, and never more than there is. */
const wholeMm = (valueMm: number) => Math.floor(valueMm * 100 + 1e-6) / 100;

/** The corners of the opening that is carried ahead of the tip. */
function cornerLabels({ blade, corners }: ReliefBlade, writing: NumberFormat): ReliefLabel[] {
  return (corners ?? []).map((corner, k) => ({
    kind: 'corner',
    text: joined(thicknessFigure(corner, writing)),
    place: { blade, fromTipMm: -LENS_AHEAD_MM, across: 2 * k - 1 },
  }));
}

/**
 * The labels of a blade in the order in which they take their room.
 *
 * @param fromMm Where it is cut, mm from the tip.
 */
export function labelsOf(
  blade: ReliefBlade,
  fromMm: number,
  isOnStaple: boolean,
  writing: NumberFormat,
): ReliefLabel[] {
  const textOf = ({ valueMm }: MapMark, isDifference: boolean) =>
    quantityText(isDifference ? 'difference' : 'thickness', valueMm, writing);
  const opening = isOnStaple && fromMm === 0 ? cornerLabels(blade, writing) : [];
  const at = (fromTipMm: number, across: number): Place => ({ blade: blade.blade, fromTipMm, across });
  const isPlan = blade.print?.is === 'strokes';
  const marks = blade.marks
    .filter(({ fromTipMm }) => fromTipMm >= fromMm)
    .map((mark): ReliefLabel => ({
      kind: mark.odd || mark.nearFloor ? 'mark' : isPlan ? 'spare' : 'reading',
      text: textOf(
        isPlan ? { ...mark, valueMm: wholeMm(mark.valueMm - floorUnder(blade, mark)) } : mark,
        false,
      ),
      place: at(mark.fromTipMm, mark.across),
      mark,
    }))
    .filter(({ mark }) => !isPlan || Number.isFinite(floorUnder(blade, mark!)));
  const told = (blade.print && 'difference' in blade.print ? (blade.print.difference.marks ?? []) : [])
    .filter(({ inDoubt, fromTipMm }) => !inDoubt && fromTipMm >= fromMm)
    .map((mark): ReliefLabel => ({
      kind: 'difference',
      text: textOf(mark, true),
      place: at(mark.fromTipMm, mark.across),
      mark,
    }))
    .sort((one, other) => Math.abs(other.mark!.valueMm) - Math.abs(one.mark!.valueMm));
  const count = Math.floor(blade.bladeLengthMm / EACH_MM);
  const distances = Array.from({ length: count }, (_, k) => (k + 1) * EACH_MM)
    .filter((mm) => mm > fromMm)
    .map((mm): ReliefLabel => ({ kind: 'distance', text: String(mm), place: at(mm, outer(blade)) }));
  return [
    {
      kind: 'name',
      text: blade.blade,
      place: at(fromMm - (opening.length > 0 ? LENS_AHEAD_MM : AHEAD_MM), 0),
    },
    ...opening,
    ...told,
    ...marks.filter(({ kind }) => kind === 'mark'),
    ...distances,
    ...marks.filter(({ kind }) => kind !== 'mark'),
  ];
}

/**
 * Puts labels where their places stand now: level, apart, faded where their place turns away. A reading without room is a
 * dot.
 *
 * @param elements One for each label.
 */
export function placeLabels(
  labels: readonly ReliefLabel[],
  elements: ArrayLike<HTMLElement>,
  scene: ReliefScene,
): void {
  const taken: { left: number; top: number }[] = [];
  labels.forEach((label, k) => {
    const element = elements[k];
    if (!element) return;
    const found = scene.onCanvas(label.place, OVER[label.kind]);
    const middle = label.kind === 'distance' && scene.onCanvas({ ...label.place, across: 0 });
    const away =
      label.kind === 'corner'
        ? 1
        : found
          ? (middle || found).facing + (label.kind === 'name' ? NAME_FACING : 0)
          : 1;
    element.hidden = !found || away <= FACING.gone;
    if (!found || element.hidden) return;
    const at =
      label.kind === 'corner'
        ? besideLens(label.place, found, scene)
        : middle
          ? outwards(middle, found)
          : found;
    const top = label.kind === 'name' ? Math.max(at.top, LEAST_TOP) : at.top;
    const room = label.kind === 'difference' ? ROOM_OF_DIFFERENCE : ROOM;
    const isCrowded =
      isOnWood(label) &&
      taken.some(
        (other) => Math.abs(other.left - at.left) < room.left && Math.abs(other.top - at.top) < room.top,
      );
    element.classList.toggle('dot', isCrowded);
    if (!isCrowded) taken.push(at);
    element.style.setProperty('transform', `translate(${at.left.toFixed(1)}px, ${top.toFixed(1)}px)`);
    element.style.setProperty(
      'opacity',
      Math.min((away - FACING.gone) / (FACING.full - FACING.gone), 1).toFixed(2),
    );
  });
}

/** A corner stands beyond its end of the opening, and off the other blade's. */
function besideLens({ blade, fromTipMm, across }: Place, end: OnCanvas, scene: ReliefScene) {
  const on = (u: number) => scene.onCanvas({ blade, fromTipMm, across: u }) ?? end;
  const [middle, other] = [on(0), on(-across)];
  const along = unit(end.left - other.left, end.top - other.top);
  const off = unit(middle.left - (end.left + other.left) / 2, middle.top - (end.top + other.top) / 2);
  return {
    left: end.left + BEYOND * along.left + APART * off.left,
    top: end.top + BEYOND * along.top + APART * off.top,
  };
}

function unit(left: number, top: number) {
  const length = Math.hypot(left, top) || 1;
  return { left: left / length, top: top / length };
}

/** A distance stands beside its edge, on the line from the middle of the blade. */
function outwards(middle: OnCanvas, edge: OnCanvas) {
  const [dx, dy] = [edge.left - middle.left, edge.top - middle.top];
  const share = BESIDE / (Math.hypot(dx, dy) || 1);
  return { left: edge.left + share * dx, top: edge.top + share * dy };
}
