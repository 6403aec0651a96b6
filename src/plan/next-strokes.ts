import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FloorTable } from '../../shared/style.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { contains } from '../answers/there-now.ts';
import { COVERAGE } from '../words/format.ts';
import type { PassGeometry } from '../surface/reed-model.ts';
import type { ExcessMap } from './excess.ts';
import { roomAbove, type ClosedPlace, type Room } from './floor-room.ts';
import { stationsToRead, type StationToRead } from './read-first.ts';

/** One piece of work: a zone, how much of how much, and where. */
export interface Step {
  readonly zone: string;
  readonly title: string;
  readonly blades: readonly Blade[];
  readonly side: 'left' | 'right' | 'both';
  readonly fromMm: number;
  readonly toMm: number;
  /** To be taken now: at most half the excess. */
  readonly takeMm: number;
  /** Mean excess over the places that are sure, with its doubt. */
  readonly excessMm: number;
  readonly uMm: number;
  /** Excess as a share of the thickness there: bending stiffness goes about as its cube, so thin places weigh more. */
  readonly effect: number;
  /** What would be left is no larger than its doubt: after the step one stops and reads before anything else. */
  readonly stopAndRead: boolean;
  /** Places of the step, per blade: 1 where strokes go. */
  readonly places: Readonly<Partial<Record<Blade, Uint8Array>>>;
}

/** Why a zone that is thicker than the target is left alone. */
export interface Left {
  readonly zone: string;
  readonly title: string;
  readonly blade: Blade;
  readonly side: 'left' | 'right' | 'both';
  readonly reason: 'closed' | 'floor' | 'doubt';
}

/** A place under the target. */
export interface Lack {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  readonly lackMm: number;
}

export interface Plan {
  /** In the order in which to work; only the first is to be done before reading again. */
  readonly steps: readonly Step[];
  readonly left: readonly Left[];
  /** Places where doubt alone forbids scraping: reading them would settle it. */
  readonly readFirst: readonly StationToRead[];
  /** Largest lack of each blade: it cannot be put back. */
  readonly lacks: Readonly<Partial<Record<Blade, Lack>>>;
}

export interface PlanInput {
  readonly excess: Readonly<Partial<Record<Blade, ExcessMap>>>;
  readonly zones: readonly PlacedZone[];
  readonly floors: FloorTable;
  readonly geometry: PassGeometry;
  /** Readings at or under their floor. */
  readonly closed: readonly (ClosedPlace & { readonly blade: Blade })[];
  /** Left out: zones of the tip go last unless this says otherwise. */
  readonly tipLast?: boolean;
}

/** Never more than this share of the excess at once. Common practice, no source. */
const SHARE = 0.5;
/** Less than this is not worth a step, mm; more than this is never asked for in one go. Common practice, no source. */
const LEAST_MM = 0.004;
const MOST_MM = 0.03;
/** A zone needs sure excess on this share of its area to become a step. */
const LEAST_SHARE = 0.12;
const TIP_ZONES = ['tip', 'corners'];

interface Piece {
  readonly blade: Blade;
  readonly zone: PlacedZone;
  readonly side: 'left' | 'right' | 'both';
  readonly places: Uint8Array;
  readonly count: number;
  readonly area: number;
  readonly excessMm: number;
  readonly uMm: number;
  readonly roomMm: number;
  readonly thicknessMm: number;
}

/**
 * What to scrape next and what to leave: only where the excess is sure, never below a floor, at most half of it, one
 * zone at a time on both blades in turn, the zone with the largest effect first and the tip last.
 */
export function nextStrokes(input: PlanInput): Plan {
  const { excess, zones, floors, geometry, closed, tipLast = true } = input;
  const left: Left[] = [];
  const readFirst: StationToRead[] = [];
  const pieces: Piece[] = [];
  for (const blade of BLADES) {
    const map = excess[blade];
    if (!map) continue;
    const room = roomAbove(
      map,
      floors,
      closed.filter((place) => place.blade === blade),
      geometry.halfWidthMm,
    );
    readFirst.push(...stationsToRead(blade, map, room, zones));
    for (const zone of zones) {
      for (const side of sidesOf(zone)) {
        const piece = pieceOf(map, room, zone, blade, side);
        if ('reason' in piece) left.push(piece);
        else if (piece.count > 0) pieces.push(piece);
      }
    }
  }
  return {
    steps: ordered(joined(pieces), tipLast),
    left,
    readFirst,
    lacks: lacksOf(excess),
  };
}

/** Zones with an outline on each side are worked side by side. */
function sidesOf({ outlines }: PlacedZone): readonly ('left' | 'right' | 'both')[] {
  return outlines.length === 2 ? ['left', 'right'] : ['both'];
}

function placesOf(map: ExcessMap, zone: PlacedZone, side: 'left' | 'right' | 'both'): number[] {
  const columns = map.us.length;
  const places: number[] = [];
  map.ysMm.forEach((y, row) =>
    map.us.forEach((u, column) => {
      if ((side === 'left' && u > 0) || (side === 'right' && u < 0)) return;
      const isInside = zone.outlines.some((outline) => contains(outline, y, u));
      if (isInside && Number.isFinite(map.valuesMm[row * columns + column]!))
        places.push(row * columns + column);
    }),
  );
  return places;
}

function pieceOf(
  map: ExcessMap,
  room: Room,
  zone: PlacedZone,
  blade: Blade,
  side: 'left' | 'right' | 'both',
): Piece | Left {
  const inside = placesOf(map, zone, side);
  const sure = inside.filter((i) => map.sure[i] === 1 && map.valuesMm[i]! > 0);
  const free = sure.filter((i) => room.mm[i]! >= LEAST_MM);
  const none = {
    blade,
    zone,
    side,
    places: new Uint8Array(0),
    count: 0,
    area: inside.length,
    excessMm: 0,
    uMm: 0,
    roomMm: 0,
    thicknessMm: 1,
  };
  if (sure.length < LEAST_SHARE * inside.length || inside.length === 0) return none;
  if (free.length < LEAST_SHARE * inside.length) {
    const doubtful = sure.some((i) => room.doubtful[i] === 1);
    const closed = sure.every((i) => room.mm[i] === 0 && room.doubtful[i] === 0);
    return {
      zone: zone.name,
      title: zone.title,
      blade,
      side,
      reason: doubtful ? 'doubt' : closed ? 'closed' : 'floor',
    };
  }
  const places = new Uint8Array(map.valuesMm.length);
  free.forEach((i) => (places[i] = 1));
  const mean = (values: Float64Array) => free.reduce((sum, i) => sum + values[i]!, 0) / free.length;
  return {
    ...none,
    places,
    count: free.length,
    excessMm: mean(map.valuesMm),
    uMm: mean(map.uMm),
    roomMm: Math.min(...free.map((i) => room.mm[i]!)),
    thicknessMm: mean(map.thicknessMm),
  };
}

/** Pieces of the same zone and side on both blades become one step; different sides stay apart unless all are there. */
function joined(pieces: readonly Piece[]): Step[] {
  const groups = new Map<string, Piece[]>();
  for (const piece of pieces) groups.set(piece.zone.name, [...(groups.get(piece.zone.name) ?? []), piece]);
  return [...groups.values()].flatMap((group) => {
    const wholes = BLADES.filter((blade) => group.some((piece) => piece.blade === blade));
    const sides = new Set(group.map(({ side }) => side));
    const even = group.length === wholes.length * sides.size;
    return even ? [stepOf(group)] : group.map((piece) => stepOf([piece]));
  });
}

function stepOf(group: readonly Piece[]): Step {
  const [first] = group as readonly [Piece, ...Piece[]];
  const count = group.reduce((sum, piece) => sum + piece.count, 0);
  const excessMm = group.reduce((sum, piece) => sum + piece.excessMm * piece.count, 0) / count;
  const uMm = group.reduce((sum, piece) => sum + piece.uMm * piece.count, 0) / count;
  const roomMm = Math.min(...group.map((piece) => piece.roomMm));
  const sides = new Set(group.map(({ side }) => side));
  const along = first.zone.outlines.flat().map(([y]) => y);
  const places: Partial<Record<Blade, Uint8Array>> = {};
  for (const piece of group) {
    const known = places[piece.blade];
    places[piece.blade] = known ? known.map((value, i) => value | piece.places[i]!) : piece.places;
  }
  const takeMm = Math.min(SHARE * excessMm, roomMm, MOST_MM);
  return {
    zone: first.zone.name,
    title: first.zone.title,
    blades: BLADES.filter((blade) => places[blade]),
    side: sides.size === 1 ? first.side : 'both',
    fromMm: Math.min(...along),
    toMm: Math.max(...along),
    takeMm,
    stopAndRead: COVERAGE * uMm >= excessMm - takeMm,
    excessMm,
    uMm,
    places,
    effect: group.reduce((sum, piece) => sum + (piece.excessMm / piece.thicknessMm) * piece.count, 0) / count,
  };
}

/** Worth doing, those with the largest effect first, the tip last. */
function ordered(steps: readonly Step[], tipLast: boolean): Step[] {
  const late = ({ zone }: Step) => (tipLast && TIP_ZONES.includes(zone) ? 1 : 0);
  return steps
    .filter(({ takeMm }) => takeMm >= LEAST_MM)
    .sort((a, b) => late(a) - late(b) || b.effect - a.effect);
}

function lacksOf(excess: PlanInput['excess']): Plan['lacks'] {
  const lacks: Partial<Record<Blade, Lack>> = {};
  for (const blade of BLADES) {
    const map = excess[blade];
    if (!map) continue;
    let worst = -1;
    map.valuesMm.forEach((value, i) => {
      if (map.sure[i] === 1 && value < 0 && (worst < 0 || value < map.valuesMm[worst]!)) worst = i;
    });
    if (worst < 0) continue;
    const columns = map.us.length;
    lacks[blade] = {
      blade,
      fromTipMm: map.ysMm[Math.floor(worst / columns)]!,
      across: map.us[worst % columns]!,
      lackMm: -map.valuesMm[worst]!,
    };
  }
  return lacks;
}
