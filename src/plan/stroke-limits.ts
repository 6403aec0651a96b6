import type { FloorTable } from '../../shared/style.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { isInZone } from '../blade/zones.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import type { Side } from '../figures/zone-mean.ts';
import { cellsOf, contourRings, type GridLine } from '../numerics/contours.ts';
import type { Point } from '../numerics/polygon.ts';
import type { ExcessMap } from './excess.ts';
import { roomAbove, type Room } from './floor-room.ts';

/** Half the blade's width by distance from the tip, mm. */
type HalfWidth = (fromTipMm: number) => number;

/** What the strokes of one blade are held to. */
export interface LimitsInput {
  readonly map: ExcessMap;
  readonly floors: FloorTable;
  /** Readings at or under their floor. */
  readonly closed: readonly { readonly fromTipMm: number; readonly across: number }[];
  /** 1 at places of the map that a reading speaks for. */
  readonly read: Uint8Array;
  readonly halfWidthMm: HalfWidth;
  /** No stroke is nearer to a floor or to a lack, mm. */
  readonly marginMm: number;
}

/**
 * What speaks for and against strokes at every place of one blade. Each field is above 0 where strokes may go and goes
 * straight through 0 at its border.
 */
export interface StrokeLimits {
  readonly map: ExcessMap;
  readonly halfWidthMm: HalfWidth;
  /** The excess is read, above its doubt and above what favourites differ by. */
  readonly sure: Float64Array;
  /** How much further than the margin the nearest floor or lack is, mm. */
  readonly apartMm: Float64Array;
  readonly room: Room;
}

export function strokeLimits(input: LimitsInput): StrokeLimits {
  const { map, floors, read, halfWidthMm, marginMm } = input;
  const room = roomAbove(map, floors, halfWidthMm);
  const sure = map.told.map((share, i) => (read[i] === 1 && Number.isFinite(share) ? share - 1 : -1));
  const keptFrom = [...input.closed.map(({ fromTipMm, across }): Point => [fromTipMm, across])];
  const lack = map.told.map((share) => (Number.isFinite(share) ? -share - NEARLY_SURE : -1));
  const under = room.clearMm.map((clear, i) => (read[i] === 1 ? Math.max(-1, -clear / FALL_MM) : -1));
  for (const field of [lack, under]) keptFrom.push(...placesAbove(map, field));
  const apartMm = new Float64Array(sure.length);
  eachPlace(map, (y, u, at) => {
    if (sure[at]! <= 0) return;
    apartMm[at] = distanceTo(keptFrom, y, u, halfWidthMm(y)) - marginMm;
  });
  return { map, halfWidthMm, sure, apartMm, room };
}

/** A field must clear its border by this: between places of the grid it is drawn straight, which it is not quite. */
export const CLEAR = 0.15;
/**
 * A lack is kept from where it is so nearly sure: between two places of the grid its peak may lie higher than at both. In
 * simulated plans looked at finer it rose by 0.035 at most.
 */
const NEARLY_SURE = 0.9;
/** Thicknesses are set against distances at this rate, mm. */
const FALL_MM = 0.01;

/** What the room above the floor leaves of a field when so much is taken. */
export function withRoom(field: Float64Array, roomMm: Float64Array, takeMm: number): Float64Array {
  return field.map((value, at) => Math.min(value, Math.max(-1, (roomMm[at]! - takeMm) / FALL_MM)));
}

/** A field cut to a zone, on one side of the blade: how far inside it a place lies, mm, where that is less. */
export function withinZone(
  { map, halfWidthMm }: StrokeLimits,
  field: Float64Array,
  zone: PlacedZone,
  side: Side,
): Float64Array {
  const cut = field.slice();
  eachPlace(map, (y, u, at) => {
    if (field[at]! <= 0) return;
    const half = halfWidthMm(y);
    const onSide = side === 'both' ? Infinity : half * (side === 'left' ? -u : u);
    // A zone's own border may be touched.
    cut[at] = Math.max(-1, Math.min(field[at]!, CLEAR + Math.min(onSide, insideMm(zone, y, u, half))));
  });
  return cut;
}

/** Area of a zone on one side of a blade, as far as the map goes, mm2. */
export function zoneAreaMm2({ map, halfWidthMm }: StrokeLimits, zone: PlacedZone, side: Side): number {
  let area = 0;
  eachPlace(map, (y, u) => {
    if ((side === 'left' && u > 0) || (side === 'right' && u < 0)) return;
    if (isInZone(zone, y, u)) area += cellMm(map) * halfWidthMm(y);
  });
  return area;
}

/** What a place of the grid stands for: mm along by shares of the half-width. */
export const cellMm = ({ ysMm, us }: MapGrid) => (ysMm[1]! - ysMm[0]!) * (us[1]! - us[0]!);

/** Calls for every place of a grid. */
export function eachPlace(
  { ysMm, us }: MapGrid,
  call: (fromTipMm: number, across: number, at: number) => void,
): void {
  ysMm.forEach((y, row) => us.forEach((u, column) => call(y, u, row * us.length + column)));
}

/** Outlines of where a field over a grid is above a level. */
export function outlinesAbove({ ysMm, us }: MapGrid, values: ArrayLike<number>, level: number): Point[][] {
  const cells = cellsOf({ nx: us.length, ny: ysMm.length, values });
  return contourRings(cells, level).map((ring) => placesOf(ring, ysMm, us));
}

function placesOf(ring: GridLine, ysMm: readonly number[], us: readonly number[]): Point[] {
  const at = (values: readonly number[], index: number) => {
    const k = Math.min(Math.floor(index), values.length - 2);
    return values[k]! + (index - k) * (values[k + 1]! - values[k]!);
  };
  return Array.from({ length: ring.length / 2 }, (_, k): Point => [
    at(ysMm, ring[2 * k + 1]!),
    at(us, ring[2 * k]!),
  ]);
}

/** The border and the places of where a field is above 0. */
function placesAbove(grid: MapGrid, field: Float64Array): Point[] {
  const places = outlinesAbove(grid, field, 0).flat();
  eachPlace(grid, (y, u, at) => {
    if (field[at]! > 0) places.push([y, u]);
  });
  return places;
}

function distanceTo(places: readonly Point[], y: number, u: number, half: number): number {
  let least = Infinity;
  for (const [py, pu] of places) {
    const square = (y - py) ** 2 + ((u - pu) * half) ** 2;
    if (square < least) least = square;
  }
  return Math.sqrt(least);
}

/** How far inside a zone a place lies, mm; below 0 outside. */
function insideMm({ outlines }: PlacedZone, y: number, u: number, half: number): number {
  const isIn = isInZone({ outlines }, y, u);
  const away = Math.min(...outlines.map((outline) => toOutlineMm(outline, y, u, half)));
  return isIn ? away : -away;
}

/** Distance of a place from an outline, mm. What lies on the edge of the wood bounds nothing. */
function toOutlineMm(outline: readonly Point[], y: number, u: number, half: number): number {
  let least = Infinity;
  outline.forEach(([ay, au], i) => {
    const [by, bu] = outline[(i + 1) % outline.length]!;
    const isEdge = (Math.abs(au) >= 1 && au === bu) || (ay <= 0 && by <= 0);
    if (isEdge) return;
    const [along, across] = [by - ay, (bu - au) * half];
    const [dy, dx] = [y - ay, (u - au) * half];
    const length = along * along + across * across;
    const share = length > 0 ? Math.min(1, Math.max(0, (dy * along + dx * across) / length)) : 0;
    least = Math.min(least, Math.hypot(dy - share * along, dx - share * across));
  });
  return least;
}
