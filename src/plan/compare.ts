import { BLADES, type Blade } from '../../shared/blade.ts';
import type { Reed } from '../../shared/reed.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import type { ReedFigures } from '../answers/record/record.ts';
import { figuresOf } from '../answers/record/reed-figures.ts';
import type { OriginalCane } from '../cane/original-cane.ts';
import { mapGrid, type MapGrid } from '../figures/surface-map.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { excessOver, type ExcessMap } from './excess.ts';
import {
  LEAST_COVER,
  lessTarget,
  nearestPlace,
  ownMean,
  targetMean,
  zonePlaces,
  type ZonePlaces,
} from './place-means.ts';
import { plainReed, type OverBlade, type Target } from './target.ts';
import { targetCrossing } from './target-crossing.ts';
import { innerPlaces } from './ways.ts';

/** A zone of a reed beside the same of a target. */
export interface ComparedZone {
  readonly name: string;
  readonly title: string;
  readonly own: Estimate;
  readonly other: Estimate;
  readonly difference: Estimate;
  /** How much the favourites differ from each other there, one standard deviation; 0 for a single reed. */
  readonly spreadMm: number;
  /** Share of the zone for which the target stands. */
  readonly share: number;
  /** The target stands for a part of it alone: these are no means of the zone. */
  readonly inPart?: true;
  /** Mean thickness of the zone before it was scraped, where that was asked for. */
  readonly originalMm?: number;
}

export interface CrossingRow {
  readonly thicknessMm: number;
  readonly own?: Estimate;
  readonly other?: Estimate;
}

/** How far apart two reeds are, as a root mean square over the places that both have. No measure of quality. */
export interface Distance {
  readonly rmsMm: number;
  /** What two readings of one and the same reed would be apart by doubt alone. */
  readonly doubtMm: number;
}

/** A reed beside a target, placed from the tip. Excess is positive: it can be scraped. Lack cannot be put back. */
export interface Compared {
  readonly own: ReedFigures;
  readonly target: Target;
  /** The figures of the one reed that the target is, where its zones are laid out as this reed's are. */
  readonly example?: ReedFigures;
  readonly zones: readonly ComparedZone[];
  readonly crossings: readonly CrossingRow[];
  readonly excess: Readonly<Partial<Record<Blade, ExcessMap>>>;
  /** Absent where the two share no place. */
  readonly distance?: Distance;
  /** What else differs, in words: it may matter more than thickness. */
  readonly notes: readonly string[];
}

/** A reed's cane as it was gouged, where that is written down. */
export type CaneOf = (reed: Reed) => OriginalCane | undefined;

/** What is known of the cane before it was scraped. */
interface Cane {
  readonly caneOf?: CaneOf;
  /** Of the reed itself, where shares of it are shown. */
  readonly originalMm?: OverBlade;
}

const GRID = { along: 51, across: 31 };

/** The grid on which a reed is set beside a target. */
export function besideGrid({ benched, pass }: ReedAtPass): MapGrid {
  return mapGrid(benched.assembled.passes[pass]!.bladeLengthMm, GRID.along, GRID.across);
}

/** A target that stands for this share of a zone stands for the zone: the rest is the margin of what was read. */
const WHOLE = 0.95;

/** The zones of a reed beside those of a target: zones for which it hardly stands are left out. */
export function comparedZones(own: ReedAtPass, target: Target, caneMm?: OverBlade): ComparedZone[] {
  const { benched, pass } = own;
  const model = benched.model!;
  const blades = BLADES.filter((blade) => model.blades[blade] && target.blades[blade]);
  const hasBlades = blades.length === Object.keys(model.blades).length;
  return figuresOf(own).placed.flatMap((zone): ComparedZone[] => {
    const { name, title } = zone;
    const cover = zonePlaces(target, zone, model.passes[pass]!, blades);
    const { places, share } = cover;
    if (share < LEAST_COVER) return [];
    const isWhole = hasBlades && share >= WHOLE;
    const mine = (isWhole && meanOf(figuresOf(own), name)) || ownMean(own, places);
    const theirs = isWhole ? otherMean(own, target, name, cover) : targetMean(target, places);
    const originalMm = caneMm && weighted(caneMm, places);
    return [
      {
        name,
        title,
        own: mine,
        other: theirs,
        difference: lessTarget(mine, theirs),
        spreadMm: spreadOver(target, places),
        share,
        ...(!isWhole && { inPart: true as const }),
        ...(originalMm !== undefined && { originalMm }),
      },
    ];
  });
}

/** A target's mean of a zone: of a reed with the same zones that of its own, where the target stands for the whole. */
export function otherMean(
  own: ReedAtPass,
  target: Target,
  zone: string,
  { places, share }: ZonePlaces,
): Estimate {
  const example = share >= WHOLE ? exampleOf(own, target) : undefined;
  return (example && meanOf(example, zone)) ?? targetMean(target, places);
}

const meanOf = ({ zones }: ReedFigures, zone: string) => zones.find(({ name }) => name === zone)?.mean;

/** The figures of the one reed that a target is, where its zones are laid out as this reed's are. */
export function exampleOf(own: ReedAtPass, target: Target): ReedFigures | undefined {
  const reed = plainReed(target);
  const [here, there] = [own, reed].map((one) => one?.benched.assembled);
  const isSame =
    here?.style.key === there?.style.key &&
    JSON.stringify(here?.frame.lengths) === JSON.stringify(there?.frame.lengths);
  return reed?.benched.model && isSame ? figuresOf(reed) : undefined;
}

/** Compares a reed with a target, with all zones placed from the tip. */
export function compare(own: ReedAtPass, target: Target, cane: Cane = {}): Compared {
  const { benched, pass } = own;
  const figures = figuresOf(own);
  const reed = plainReed(target);
  const example = exampleOf(own, target);
  const crossings = figures.crossings.map(({ thicknessMm, at }, i) => {
    const theirs = reed ? figuresOf(reed).crossings[i]!.at : targetCrossing(target, thicknessMm);
    return { thicknessMm, ...(at && { own: at }), ...(theirs && { other: theirs }) };
  });
  const excess = excessOver(benched.model!, pass, target);
  const distance = distanceOf(own, target, excess);
  return {
    own: figures,
    target,
    ...(example && { example }),
    zones: comparedZones(own, target, cane.originalMm),
    crossings,
    excess,
    ...(distance && { distance }),
    notes: notesOn(
      own,
      target.parts.map((part) => part.reed),
      cane.caneOf,
    ),
  };
}

function spreadOver({ grid, blades }: Target, places: ReturnType<typeof zonePlaces>['places']): number {
  return places.reduce(
    (sum, { blade, fromTipMm, across, weight }) =>
      sum + weight * blades[blade]!.spreadMm[nearestPlace(grid, fromTipMm, across)]!,
    0,
  );
}

function weighted(field: OverBlade, places: ReturnType<typeof zonePlaces>['places']): number {
  return places.reduce(
    (sum, { fromTipMm, across, blade, weight }) => sum + weight * field(fromTipMm, across, blade),
    0,
  );
}

function distanceOf(own: ReedAtPass, target: Target, excess: Compared['excess']): Distance | undefined {
  const { us } = target.grid;
  const inner = new Set(innerPlaces(target, own).map(({ across }) => across));
  let [squares, doubts, count] = [0, 0, 0];
  for (const { valuesMm, uMm } of Object.values(excess)) {
    valuesMm.forEach((value, i) => {
      if (!Number.isFinite(value) || !inner.has(us[i % us.length]!)) return;
      squares += value * value;
      doubts += uMm[i]! ** 2;
      count += 1;
    });
  }
  return count === 0 ? undefined : { rmsMm: Math.sqrt(squares / count), doubtMm: Math.sqrt(doubts / count) };
}

/** Gouges that differ by more than this, in the middle or at the side, are worth a note, mm. Common practice, no source. */
const SAME_GOUGE_MM = 0.01;
const SIDE_ARC_MM = 4.5;

function gougesDiffer(a: OriginalCane, b: OriginalCane): boolean {
  const apart = (across: number) => {
    const [mine, theirs] = [a, b].map((cane) =>
      cane.thicknessAt({ blade: 'A', across, halfWidthMm: SIDE_ARC_MM }),
    );
    return Math.abs(mine!.valueMm - theirs!.valueMm);
  };
  return Math.max(...[-1, 0, 1].map(apart)) > SAME_GOUGE_MM;
}

/** What else differs between a reed and others, in words. */
export function notesOn(
  { benched: { reed: a, assembled } }: ReedAtPass,
  others: readonly ReedAtPass[],
  caneOf: CaneOf = () => undefined,
): string[] {
  const notes = new Set<string>();
  for (const other of others) {
    const b = other.benched.reed;
    const style = other.benched.assembled.style;
    const [own, theirs] = [caneOf(a), caneOf(b)];
    if (assembled.style.key !== style.key) notes.add(`Another style: ${style.name.toLowerCase()}.`);
    if (a.lotId !== b.lotId) notes.add('Another lot of cane.');
    if (own && theirs && gougesDiffer(own, theirs)) notes.add('Another gouge.');
    if (a.shapeId !== b.shapeId) notes.add('Another shape.');
    if (a.staple?.lengthMm !== b.staple?.lengthMm || a.staple?.boreClass !== b.staple?.boreClass)
      notes.add('Another staple.');
  }
  return [...notes];
}
