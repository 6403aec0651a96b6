import type { OutlinePoint, Zone } from '../../shared/style.ts';

/** A corner of a zone: of which outline, and which of its corners. */
export interface CornerAt {
  readonly outline: number;
  readonly corner: number;
}

type Outline = readonly OutlinePoint[];

const FEWEST_CORNERS = 3;
const MOST_CORNERS = 100;
/** Less than this is a slip of the hand: mm along by shares of the half-width. Our own number. */
const LEAST_AREA = 0.05;
const SAME = 1e-6;

const mirrored = (outline: Outline): OutlinePoint[] =>
  outline.map(({ across, ...rest }) => ({ ...rest, across: across === 0 ? 0 : -across }));

const isSame = (one: Outline, other: Outline) =>
  one.length === other.length &&
  one.every(
    ({ fromTipMm, across }, k) =>
      Math.abs(fromTipMm - other[k]!.fromTipMm) < SAME && Math.abs(across - other[k]!.across) < SAME,
  );

/** Whether a zone lies on both sides of a blade alike: it is drawn on one, and the other follows. */
export function isOnBothSides({ outlines }: Pick<Zone, 'outlines'>): boolean {
  const [one, other] = outlines;
  return outlines.length === 2 && isSame(mirrored(one!), other!);
}

/** The zone with another outline; where both sides are alike the other follows. */
function withOutline(zone: Zone, at: number, outline: readonly OutlinePoint[]): Zone {
  const follows = isOnBothSides(zone);
  return {
    ...zone,
    outlines: zone.outlines.map((one, k) => (k === at ? [...outline] : follows ? mirrored(outline) : one)),
  };
}

/** The zone with one corner elsewhere, or hung from another end. */
export function withCorner(zone: Zone, { outline, corner }: CornerAt, to: Partial<OutlinePoint>): Zone {
  const corners = zone.outlines[outline]!;
  return withOutline(
    zone,
    outline,
    corners.map((one, k) => (k === corner ? { ...one, ...to } : one)),
  );
}

/** The zone with a corner more, half way from this one to the next; the same zone where it has as many as it may. */
export function withCornerAfter(zone: Zone, { outline, corner }: CornerAt): Zone {
  const corners = zone.outlines[outline]!;
  if (corners.length >= MOST_CORNERS) return zone;
  const [here, next] = [corners[corner]!, corners[(corner + 1) % corners.length]!];
  const between = (name: 'fromTipMm' | 'across') => Number(((here[name] + next[name]) / 2).toFixed(3));
  const added = { fromTipMm: between('fromTipMm'), across: between('across'), hangsFrom: here.hangsFrom };
  return withOutline(zone, outline, corners.toSpliced(corner + 1, 0, added));
}

/** The zone without a corner; the same zone where only three are left. */
export function withoutCorner(zone: Zone, { outline, corner }: CornerAt): Zone {
  const corners = zone.outlines[outline]!;
  return corners.length <= FEWEST_CORNERS ? zone : withOutline(zone, outline, corners.toSpliced(corner, 1));
}

/** `b` for 0, ... `z`, `bb`. */
const lettersOf = (k: number): string =>
  k < 25 ? String.fromCharCode(98 + k) : `${lettersOf(Math.floor(k / 25) - 1)}${lettersOf(k % 25)}`;

/** A stable name for files, made of a title, that no other zone has. */
export function zoneName(title: string, taken: readonly string[]): string {
  const letters = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 24);
  const stem = letters === '' ? 'zone' : letters;
  // Names hold letters alone: they are counted by letters, too.
  let name = stem;
  for (let k = 0; taken.includes(name); k++) name = `${stem}-${lettersOf(k)}`;
  return name;
}

/** A place of a style's blade. */
export type DrawnPlace = Pick<OutlinePoint, 'fromTipMm' | 'across'>;

/** Where a zone may be drawn from and to: opposite corners of a rectangle. */
export interface Drawn {
  readonly from: DrawnPlace;
  readonly to: DrawnPlace;
}

/** A zone as it is drawn first, a rectangle; away from the middle it lies on both sides of the blade. */
export function drawnZone(title: string, taken: readonly string[], { from, to }: Drawn): Zone {
  const [top, bottom] = [from.fromTipMm, to.fromTipMm].sort((a, b) => a - b) as [number, number];
  const [left, right] = [from.across, to.across].sort((a, b) => a - b) as [number, number];
  const corner = (fromTipMm: number, across: number): OutlinePoint => ({
    fromTipMm,
    across,
    hangsFrom: 'tip',
  });
  const outline = [corner(top, left), corner(top, right), corner(bottom, right), corner(bottom, left)];
  const isBeside = left > 0 || right < 0;
  return {
    name: zoneName(title, taken),
    title,
    outlines: isBeside ? [mirrored(outline), outline] : [outline],
  };
}

const area = (outline: Outline) =>
  Math.abs(
    outline.reduce((sum, here, k) => {
      const next = outline[(k + 1) % outline.length]!;
      return sum + here.fromTipMm * next.across - next.fromTipMm * here.across;
    }, 0),
  ) / 2;

/** On which side of the line from a to b a place lies: above 0, below 0, or 0 on it. */
const turn = (a: OutlinePoint, b: OutlinePoint, c: OutlinePoint) =>
  Math.sign(
    (b.fromTipMm - a.fromTipMm) * (c.across - a.across) - (b.across - a.across) * (c.fromTipMm - a.fromTipMm),
  );

const cross = (a: OutlinePoint, b: OutlinePoint, c: OutlinePoint, d: OutlinePoint) =>
  turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;

function crossesItself(outline: Outline): boolean {
  const edges = outline.map((here, k) => [here, outline[(k + 1) % outline.length]!] as const);
  return edges.some(([a, b], i) => edges.some(([c, d], j) => j > i && cross(a, b, c, d)));
}

/** Why a zone cannot be drawn so; undefined where it can. */
export function zoneProblem({ title, outlines }: Zone): string | undefined {
  if (outlines.some(crossesItself))
    return `The line of ${title} crosses itself there. It stays as it was: move another corner first.`;
  if (outlines.some((outline) => area(outline) < LEAST_AREA))
    return `${title} would be too small to hold a reading. It stays as it was.`;
  return undefined;
}
