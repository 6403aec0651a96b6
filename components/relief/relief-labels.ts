import { BLADES, type Place } from '../../shared/blade.ts';
import { joined, thicknessFigure, type NumberFormat } from '../../src/words/format.ts';
import { gridValue, side1Of } from '../map/blade-drawing.ts';
import type { MapMark, OutlinePoint } from '../map/map-data.ts';
import { quantityText } from '../map/quantity-text.ts';
import { held } from '../scene/motion.ts';
import type { OnCanvas } from '../scene/eye.ts';
import type { ReliefScene } from '../scene/relief-scene.ts';
import { LENS_AHEAD_MM, type ReliefBlade } from './relief-data.ts';

/** Words that stand at a place of a blade and keep level while the reed turns; under a plan `spare` is what stands over the floor. */
export interface ReliefLabel {
  readonly kind: 'name' | 'side' | 'distance' | 'corner' | 'mark' | 'reading' | 'spare' | 'difference';
  readonly text: string;
  readonly place: Place;
  /** The mark that the words stand for, for its lozenge and its colour. */
  readonly mark?: MapMark;
}

/** Distances that are written along the outer edges, mm. */
const EACH_MM = 5;
/** Labels nearer than this to one that was placed before give way, CSS pixels. */
const ROOM = { left: 21, top: 14 };
const ROOM_OF: Partial<Record<ReliefLabel['kind'], typeof ROOM>> = {
  difference: { left: 46, top: 30 },
  spare: { left: 34, top: 26 },
};
/** Words fade as their place turns away, and go at the edge of sight. */
const FACING = { gone: 0.06, full: 0.3 };
/** Distances stand so far beside their edge, CSS pixels; names ahead of the tip, mm. */
const BESIDE = 18;
/** Where the outline of a reed is looked for. */
const ACROSS_REED = [-1, -0.8, -0.6, -0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8, 1];
const AHEAD_MM = 1.4;
/** A's, where it is held as a sheet over B, mm. */
const AHEAD_OF_SHEET_MM = 3;
/** A name, and a corner's figure, are not cut off by the edge of the picture, CSS pixels. */
const LEAST_TOP = 15;
const LEAST_SIDE = 30;
/** Corners stand so far beyond the ends of the opening, and so far off the blade that faces them, CSS pixels. */
const BEYOND = 48;
const APART = 12;

/** Half of what the words on side 1 take, with their distance from the thread, and in a narrow picture, CSS pixels. */
const SIDE_WORDS = { left: 26, top: 14, least: 14 };
/** A name stands off the bark: it is seen a little longer. */
const NAME_FACING = 0.4;
const OVER = {
  name: 'name',
  side: 'bark',
  distance: 'bark',
  corner: 'bark',
  mark: 'bark',
  reading: 'bark',
  spare: 'bark',
  difference: 'print',
} as const;

const givesWay = ({ kind }: ReliefLabel) => kind !== 'name' && kind !== 'corner';
/** Words beside the reed that have no room are left out; those on it become dots. */
const isBeside = ({ kind }: ReliefLabel) => kind === 'side' || kind === 'distance';

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

/** What can be told of a printed difference, the largest first. */
function toldLabels({ blade, print }: ReliefBlade, fromMm: number, writing: NumberFormat): ReliefLabel[] {
  const marks = print && 'difference' in print ? (print.difference.marks ?? []) : [];
  return marks
    .filter(({ inDoubt, fromTipMm }) => !inDoubt && fromTipMm >= fromMm)
    .sort((one, other) => Math.abs(other.valueMm) - Math.abs(one.valueMm))
    .map((mark) => ({
      kind: 'difference',
      text: quantityText('difference', mark.valueMm, writing),
      place: { blade, fromTipMm: mark.fromTipMm, across: mark.across },
      mark,
    }));
}

/** Distances along the outer edge of a blade: A's left one, B's right, side 1, where the dot is. */
function distanceLabels({ blade, bladeLengthMm }: ReliefBlade, fromMm: number): ReliefLabel[] {
  const across = blade === 'A' ? -1 : 1;
  return Array.from({ length: Math.floor(bladeLengthMm / EACH_MM) }, (_, k) => (k + 1) * EACH_MM)
    .filter((mm) => mm > fromMm)
    .map((fromTipMm) => ({
      kind: 'distance',
      text: String(fromTipMm),
      place: { blade, fromTipMm, across },
    }));
}

/**
 * The labels of a blade in the order in which they take their room. A place near its floor is marked where thickness is
 * shown: over a difference its mark would hide what is told there.
 *
 * @param fromMm Where it is cut, mm from the tip.
 */
export function labelsOf(
  blade: ReliefBlade,
  fromMm: number,
  isOnStaple: boolean,
  writing: NumberFormat,
): ReliefLabel[] {
  const opening = isOnStaple && fromMm === 0 ? cornerLabels(blade, writing) : [];
  const at = (fromTipMm: number, across: number): Place => ({ blade: blade.blade, fromTipMm, across });
  const isPlan = blade.print?.is === 'strokes';
  const isDifference = blade.print !== undefined && 'difference' in blade.print;
  const stands = ({ odd, nearFloor }: MapMark) => (nearFloor ? !isDifference : odd !== undefined);
  const isSheet = isOnStaple && blade.blade === 'A' && blade.print?.is === 'bridges';
  const aheadMm = opening.length > 0 ? LENS_AHEAD_MM : isSheet ? AHEAD_OF_SHEET_MM : AHEAD_MM;
  const spareMm = (mark: MapMark) => mark.valueMm - floorUnder(blade, mark);
  const seen = blade.marks.filter(({ fromTipMm }) => fromTipMm >= fromMm);
  // Where least stands over the floor is told first.
  const told = isPlan
    ? seen
        .filter((mark) => Number.isFinite(spareMm(mark)))
        .sort((one, other) => spareMm(one) - spareMm(other))
    : seen;
  const marks = told.map((mark): ReliefLabel => ({
    kind: stands(mark) ? 'mark' : isPlan ? 'spare' : 'reading',
    text: quantityText('thickness', isPlan ? wholeMm(spareMm(mark)) : mark.valueMm, writing),
    place: at(mark.fromTipMm, mark.across),
    mark,
  }));
  return [
    {
      kind: 'name',
      text: blade.blade,
      place: at(fromMm - aheadMm, 0),
    },
    { kind: 'side', text: 'side 1', place: at(blade.bladeLengthMm, side1Of(blade.blade)) },
    ...opening,
    ...toldLabels(blade, fromMm, writing),
    ...marks.filter(({ kind }) => kind === 'mark'),
    ...distanceLabels(blade, fromMm),
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
  const dots = { A: scene.side1('A'), B: scene.side1('B') };
  labels.forEach((label, k) => {
    const element = elements[k];
    if (!element) return;
    const stands = standingOf(label, scene, dots[label.place.blade]);
    element.hidden = !stands || stands.away <= FACING.gone;
    if (!stands || element.hidden) return;
    const { left, top, away } = stands;
    const room = ROOM_OF[label.kind] ?? ROOM;
    const isCrowded =
      givesWay(label) &&
      taken.some((other) => Math.abs(other.left - left) < room.left && Math.abs(other.top - top) < room.top);
    // On the staple both dots stand side by side, and one word tells of both; so with the distances.
    element.hidden = isCrowded && isBeside(label);
    element.classList.toggle('dot', isCrowded);
    if (!isCrowded) taken.push({ left, top });
    element.style.setProperty('transform', `translate(${left.toFixed(1)}px, ${top.toFixed(1)}px)`);
    element.style.setProperty(
      'opacity',
      Math.min((away - FACING.gone) / (FACING.full - FACING.gone), 1).toFixed(2),
    );
  });
}

/** Where side 1 of a label's blade is seen. */
type Dot = ReturnType<ReliefScene['side1']>;

/** A place with its edge and the middle of its line, as they are seen. */
interface Beside {
  readonly place: Place;
  readonly middle: OnCanvas;
  readonly edge: OnCanvas;
}

/** Where a label stands, CSS pixels, and how far it faces the eye; undefined where nothing was read. */
function standingOf({ kind, place }: ReliefLabel, scene: ReliefScene, dot: Dot) {
  if (kind === 'side') return dot && besideDot(dot, scene);
  const found = scene.onCanvas(place, OVER[kind]);
  if (!found) return undefined;
  if (kind === 'corner') return { ...besideLens(place, found, scene), away: 1 };
  const { left, top, facing } = found;
  if (kind === 'name') return { left, top: Math.max(top, LEAST_TOP), away: facing + NAME_FACING };
  const middle = kind === 'distance' ? scene.onCanvas({ ...place, across: 0 }) : undefined;
  return middle
    ? { ...besideReed({ place, middle, edge: found }, dot, scene), away: middle.facing }
    : { left, top, away: facing };
}

/** Words on side 1 stand beyond the thread, level with its dot. */
function besideDot({ dot, axis, halfPx }: NonNullable<Dot>, scene: ReliefScene) {
  const { out, offPx } = sideways(axis[0], axis[1], dot);
  const words = SIDE_WORDS.left * Math.abs(out.left) + SIDE_WORDS.top * Math.abs(out.top);
  const share = halfPx + words - offPx;
  const left = held(dot.left + share * out.left, SIDE_WORDS.least, scene.widthPx - SIDE_WORDS.least);
  return { left, top: dot.top + share * out.top, away: dot.facing };
}

/** A corner stands beyond its end of the opening, and off the other blade's. */
function besideLens({ blade, fromTipMm, across }: Place, end: OnCanvas, scene: ReliefScene) {
  const on = (u: number) => scene.onCanvas({ blade, fromTipMm, across: u }) ?? end;
  const [middle, other] = [on(0), on(-across)];
  const along = unit(end.left - other.left, end.top - other.top);
  const off = unit(middle.left - (end.left + other.left) / 2, middle.top - (end.top + other.top) / 2);
  const left = end.left + BEYOND * along.left + APART * off.left;
  return {
    left: held(left, LEAST_SIDE, scene.widthPx - LEAST_SIDE),
    top: end.top + BEYOND * along.top + APART * off.top,
  };
}

function unit(left: number, top: number) {
  const length = Math.hypot(left, top) || 1;
  return { left: left / length, top: top / length };
}

/** Square to a line on the picture, towards a point; and how far off the line that stands, CSS pixels. */
function sideways(from: OnCanvas, to: OnCanvas, towards: OnCanvas) {
  const along = unit(to.left - from.left, to.top - from.top);
  const offPx = (towards.top - from.top) * along.left - (towards.left - from.left) * along.top;
  const way = offPx < 0 ? -1 : 1;
  return { out: { left: -way * along.top, top: way * along.left }, offPx: Math.abs(offPx) };
}

/** A distance stands beside the reed, square to its length, on the side of its edge. */
function besideReed({ place, middle, edge }: Beside, dot: Dot, scene: ReliefScene) {
  const { fromTipMm } = place;
  const [from, to] = dot?.axis ?? [middle, edge];
  const { out } = sideways(from, to, edge);
  const reach = BLADES.flatMap((blade) =>
    ACROSS_REED.map((across) => {
      const on = scene.onCanvas({ blade, fromTipMm, across });
      return on ? (on.left - middle.left) * out.left + (on.top - middle.top) * out.top : 0;
    }),
  );
  const share = Math.max(...reach) + BESIDE;
  return { left: middle.left + share * out.left, top: middle.top + share * out.top };
}
