import type { Blade } from '../../shared/blade.ts';
import type { Style } from '../../shared/style.ts';
import type { PlacedZone } from '../../src/blade/zones.ts';
import { COVERAGE } from '../../src/words/format.ts';
import type { Reach } from '../../src/figures/reach.ts';
import type { FigureMap, ValueMap } from '../../src/figures/surface-map.ts';
import type { PassGeometry } from '../../src/surface/reed-model.ts';
import type { BladeMapData, MapMark, MapZone, OutlinePoint, ZoneSegment } from './map-data.ts';

type HangsFrom = ZoneSegment['hangsFrom'];

interface MapParts {
  readonly blade: Blade;
  readonly geometry: Pick<PassGeometry, 'bladeLengthMm' | 'halfWidthMm'>;
  /** Deepest distance that was read, mm: nothing is drawn beyond. */
  readonly readToMm: number;
  readonly marks: readonly MapMark[];
  readonly zones: readonly MapZone[];
  /** How far the readings reach; absent where nothing is said of it. */
  readonly reach?: Reach;
}

/** What is mapped: a difference is bare where it is inside its simultaneous doubt. */
export type Mapped =
  | { readonly map: ValueMap; readonly isDifference?: false }
  | { readonly map: FigureMap; readonly isDifference: true };

/** Puts a map of the core into the form that the picture of one blade takes. */
export function bladeMapData({
  blade,
  geometry,
  readToMm,
  marks,
  zones,
  reach,
  ...mapped
}: MapParts & Mapped): BladeMapData {
  const { ysMm, us, valuesMm } = mapped.map;
  const isRead = (k: number) => ysMm[Math.floor(k / us.length)]! <= readToMm;
  return {
    blade,
    bladeLengthMm: geometry.bladeLengthMm,
    ysMm,
    us,
    halfWidthMm: ysMm.map(geometry.halfWidthMm),
    valuesMm: valuesMm.map((value, k) => (isRead(k) ? value : NaN)),
    ...(mapped.isDifference && { measurable: shareOfDoubt(mapped.map) }),
    marks,
    zones,
    ...(reach && { reach: reach.map(([fromTipMm, across]) => ({ fromTipMm, across })) }),
  };
}

/**
 * A half where a value equals its simultaneous doubt: there the border of what is measurable is drawn. Nothing is not
 * measurable, without a doubt, too, as of the middle of a blade less its mirror.
 */
function shareOfDoubt(map: FigureMap): Float64Array {
  return map.valuesMm.map((value, k) =>
    value === 0 ? 0 : Math.abs(value) / (2 * map.factor(k) * map.uMm[k]!),
  );
}

/** The doubt of a map, 95 %, as a map of its own. */
export function doubtMap(map: FigureMap): ValueMap {
  return { ysMm: map.ysMm, us: map.us, valuesMm: map.uMm.map((u) => COVERAGE * u) };
}

/** Nearer than this to the edge of the wood, a zone's border is the outline of the blade itself. */
const AT_EDGE = 0.999;

/**
 * Outlines of a pass's zones as stretches of one kind, each drawn once: what two zones share is left out of the second, and
 * so is what lies on the edge of the blade.
 *
 * @param placed The style's zones as they lie on the pass, in the style's order.
 */
export function mapZones({ zones }: Pick<Style, 'zones'>, placed: readonly PlacedZone[]): MapZone[] {
  const drawn = new Set<string>();
  return zones.map(({ name, title, outlines }, z) => {
    const laid = outlines.map((_, o) =>
      (placed[z]?.outlines[o] ?? []).map(([fromTipMm, across]) => ({ fromTipMm, across })),
    );
    return {
      name,
      title,
      outlines: laid,
      segments: outlines.flatMap((outline, o) =>
        segmentsOf(
          laid[o]!,
          outline.map(({ hangsFrom }) => hangsFrom),
          drawn,
        ),
      ),
    };
  });
}

function isOnTheEdge(a: OutlinePoint, b: OutlinePoint): boolean {
  const sideways = Math.abs(a.across) > AT_EDGE && Math.abs(b.across) > AT_EDGE && a.across * b.across > 0;
  return sideways || (a.fromTipMm <= 0 && b.fromTipMm <= 0);
}

function keyOf(a: OutlinePoint, b: OutlinePoint): string {
  return [a, b]
    .map(({ fromTipMm, across }) => `${fromTipMm.toFixed(3)} ${across.toFixed(3)}`)
    .sort()
    .join(' ');
}

function segmentsOf(
  points: readonly OutlinePoint[],
  hangs: readonly HangsFrom[],
  drawn: Set<string>,
): ZoneSegment[] {
  const segments: { hangsFrom: HangsFrom; points: OutlinePoint[] }[] = [];
  points.forEach((from, k) => {
    const next = (k + 1) % points.length;
    const to = points[next]!;
    const key = keyOf(from, to);
    if (isOnTheEdge(from, to) || drawn.has(key)) return;
    drawn.add(key);
    const hangsFrom = hangs[k] === 'cane' && hangs[next] === 'cane' ? 'cane' : 'tip';
    const last = segments.at(-1);
    if (last?.hangsFrom === hangsFrom && last.points.at(-1) === from) last.points.push(to);
    else segments.push({ hangsFrom, points: [from, to] });
  });
  return segments;
}
