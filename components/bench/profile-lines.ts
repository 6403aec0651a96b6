import { BLADES, type Blade } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { floorAt } from '../../src/blade/floors.ts';
import { thicknessMap, type MapGrid } from '../../src/figures/surface-map.ts';
import { standingReadings } from '../../src/answers/standing-readings.ts';
import { COVERAGE } from '../../src/words/format.ts';
import type { ChartBand, ChartLine, LineLook } from '../charts/chart-data.ts';
import type { ProfileLine } from '../map/map-data.ts';

const POINTS = { down: 93, across: 41 };
/** Readings this near to a line are its marks: mm along, fractions of the half-width across. */
const NEAR = { alongMm: 0.3, across: 0.05 };

/** Where a chart's points lie on a blade. */
interface Course {
  readonly at: readonly number[];
  readonly grid: MapGrid;
}

/**
 * A line down lies at the same place across on each blade, seen from its own bark side. A line across runs from A's left
 * to its right, and on B where that faces it.
 */
function courseOn(line: ProfileLine, blade: Blade, lengthMm: number): Course {
  const steps = (count: number) => Array.from({ length: count }, (_, i) => i / (count - 1));
  if (line.kind === 'down') {
    const at = steps(POINTS.down).map((share) => lengthMm * share);
    return { at, grid: { ysMm: at, us: [line.across] } };
  }
  const at = steps(POINTS.across).map((share) => -1 + 2 * share);
  return { at, grid: { ysMm: [line.fromTipMm], us: blade === 'A' ? at : at.map((u) => -u) } };
}

function marksOf({ benched, pass }: ReedAtPass, line: ProfileLine, blade: Blade) {
  const own = standingReadings(benched, pass).filter((reading) => reading.blade === blade);
  if (line.kind === 'down') {
    return own
      .filter(({ across }) => Math.abs(across - line.across) < NEAR.across)
      .map(({ fromTipMm, thicknessMm }) => ({ at: fromTipMm, thicknessMm }));
  }
  return own
    .filter(({ fromTipMm }) => Math.abs(fromTipMm - line.fromTipMm) < NEAR.alongMm)
    .map(({ across, thicknessMm }) => ({ at: blade === 'A' ? across : -across, thicknessMm }));
}

function lastRead({ benched, pass }: ReedAtPass): number {
  return Math.max(0.5, ...standingReadings(benched, pass).map(({ fromTipMm }) => fromTipMm));
}

interface Named {
  readonly name: string;
  readonly look: LineLook;
  readonly age?: number;
}

/** One blade along a line, with its doubt and its readings; nothing where the blade was not read. */
export function bladeLine(at: ReedAtPass, line: ProfileLine, blade: Blade, named: Named): ChartLine[] {
  const { model } = at.benched;
  if (!model?.blades[blade]) return [];
  const course = courseOn(line, blade, lastRead(at));
  const { valuesMm, uMm } = thicknessMap(model, blade, at.pass, course.grid);
  const isOwn = named.look !== 'favourite';
  return [
    {
      ...named,
      at: course.at,
      thicknessMm: valuesMm,
      ...(isOwn && { uMm, readings: marksOf(at, line, blade) }),
    },
  ];
}

/** How much wider than at each place by itself a blade's 95 % band is that holds along the whole line at once. */
export function wholeLineShare({ benched, pass }: ReedAtPass, line: ProfileLine): number | undefined {
  const blade = BLADES.find((name) => benched.model?.blades[name]);
  if (!blade) return undefined;
  const { grid } = courseOn(line, blade, lastRead({ benched, pass }));
  return thicknessMap(benched.model!, blade, pass, grid).factor() / COVERAGE;
}

/** Both blades along a line, each as itself. */
export function bladeLines(at: ReedAtPass, line: ProfileLine): ChartLine[] {
  const facing = line.kind === 'across' ? ', facing it' : '';
  return BLADES.flatMap((blade) =>
    bladeLine(at, line, blade, { name: blade === 'A' ? 'A' : `B${facing}`, look: blade }),
  );
}

/**
 * A blade along a line after a pass and after earlier ones, all on the same cane: earlier passes are placed from the cork
 * end and drawn by their distance from the later tip, so a clip shows as cane beyond the tip.
 *
 * @param earlier Places of the passes before.
 */
export function passLines(
  { benched, pass }: ReedAtPass,
  line: ProfileLine,
  blade: Blade,
  earlier: readonly number[],
): ChartLine[] {
  const { passes } = benched.assembled;
  const nameOf = (at: number) => `pass ${passes[at]!.index}`;
  const before = earlier.flatMap((at) => {
    const clippedMm = passes[at]!.overallLengthMm - passes[pass]!.overallLengthMm;
    const course: ProfileLine =
      line.kind === 'down' ? line : { kind: 'across', fromTipMm: line.fromTipMm + clippedMm };
    const named: Named = { name: nameOf(at), look: 'before', age: pass - at };
    return bladeLine({ benched, pass: at }, course, blade, named).map((own) => ({
      ...own,
      at: line.kind === 'down' ? Array.from(own.at, (y) => y - clippedMm) : own.at,
      readings: [],
    }));
  });
  return [...before, ...bladeLine({ benched, pass }, line, blade, { name: nameOf(pass), look: 'after' })];
}

/** Blade A of a favourite along a line. */
export function favouriteLine(favourite: ReedAtPass, line: ProfileLine): ChartLine[] {
  return bladeLine(favourite, line, 'A', { name: favourite.benched.reed.label, look: 'favourite' });
}

/** What both blades of several favourites span along a line, as far as all of them were read; nothing for fewer than two. */
export function favouritesBand(favourites: readonly ReedAtPass[], line: ProfileLine): ChartBand | undefined {
  const read = favourites.filter(({ benched }) => benched.model);
  if (read.length < 2) return undefined;
  const lengthMm = Math.min(...read.map(lastRead));
  const values = read.flatMap(({ benched, pass }) =>
    BLADES.filter((blade) => benched.model!.blades[blade]).map(
      (blade) => thicknessMap(benched.model!, blade, pass, courseOn(line, blade, lengthMm).grid).valuesMm,
    ),
  );
  const { at } = courseOn(line, 'A', lengthMm);
  return {
    name: `${read.length} favourites, from least to most`,
    at,
    lowMm: at.map((_, k) => Math.min(...values.map((own) => own[k]!))),
    highMm: at.map((_, k) => Math.max(...values.map((own) => own[k]!))),
  };
}

/** The floor along a line, where the style sets one. */
export function floorLine(at: ReedAtPass, line: ProfileLine): ChartLine[] {
  const { at: places, grid } = courseOn(line, 'A', lastRead(at));
  const { floors } = at.benched.assembled.style;
  const thicknessMm = grid.ysMm.flatMap((y) => grid.us.map((u) => floorAt(floors, y, u) ?? NaN));
  return thicknessMm.some(Number.isFinite) ? [{ name: 'floor', look: 'floor', at: places, thicknessMm }] : [];
}

/** Both blades down a line at one place across, with the favourite and the floor. */
export function downLines(at: ReedAtPass, across: number, favourite: ReedAtPass | undefined): ChartLine[] {
  const line: ProfileLine = { kind: 'down', across };
  return [
    ...bladeLines(at, line),
    ...(favourite ? favouriteLine(favourite, line) : []),
    ...floorLine(at, line),
  ];
}
