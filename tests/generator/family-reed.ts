import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FitPass, FitReading } from '../../src/surface/reed-model.ts';
import { seededRandom } from '../seeded-random.ts';
import { drawsFrom, type Draws } from '../study/generated-cane.ts';
import { shapeOf, type Family, type Shape } from './families.ts';

export const EXTENTS = ['full', 'ragged', 'half', 'centre', 'partial'] as const;
/** How much of each later pass is read: all, with gaps, one part of one or both blades, the centre line, near the knife. */
export type Extent = (typeof EXTENTS)[number];

/** Seating and step of a gauge, and how well its zero holds from pass to pass; one standard deviation, mm. */
export const FAMILY_GAUGES = {
  dial: { seatingMm: 0.004, stepMm: 0.01, zeroMm: 0.0015 },
  fine: { seatingMm: 0.0015, stepMm: 0.001, zeroMm: 0.0006 },
} as const;

export interface FamilySettings {
  readonly family: Family;
  readonly gauge: keyof typeof FAMILY_GAUGES;
  /** Placement along, one standard deviation; a third of it across, mm. */
  readonly handMm: number;
  readonly extent: Extent;
  readonly seed: number;
  /** Passes in all; 2 to 4 by chance where it is absent. */
  readonly count?: number;
  /** The shape of its blades, where it is not any of the family's. */
  readonly shapeOf?: (draws: Draws) => Shape;
  /** Share of the readings that sit badly: without being slips they are off by BADLY_SEATED_MM more, one standard deviation. */
  readonly badShare?: number;
  /** Where its maker's knife goes and how deep, where it is not anywhere. */
  readonly knife?: Knife;
}

/** Habits of a knife: where its patches lie along, and how deep they are, mm. */
export interface Knife {
  readonly fromMm: number;
  readonly toMm: number;
  readonly deepMm: readonly [number, number];
}

/** An invented pass as faults are looked for in it. */
export interface FamilyPass extends FitPass {
  readonly controls: readonly FitReading[];
}

/** A reed of a family, read without a fault, and what was really there. */
export interface FamilyReed extends FamilySettings {
  readonly passes: readonly FamilyPass[];
  /** Cane after a pass at a distance from that pass's tip. */
  readonly thicknessMm: (blade: Blade, pass: number, fromTipMm: number, across: number) => number;
  /** What went since the pass before, at a distance from the later pass's tip. */
  readonly removedMm: (blade: Blade, pass: number, fromTipMm: number, across: number) => number;
  /** One reading more of a pass by the same gauge and hand, for a study of repeats. */
  readonly readAgain: (blade: Blade, pass: number, fromTipMm: number, across: number) => number;
}

const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];
const BLADE_LENGTH_MM = 23;
const FIRST_LENGTH_MM = 70;
const PASS_ERRORS = { lengthMm: 0.05, swelling: 0.004 };
const BADLY_SEATED_MM = 0.03;
/** Blades differ, sides differ, a hand is uneven: in proportion to the thickness, one standard deviation. */
const UNLIKE = { blade: 0.018, side: 0.018, waves: 0.006 };

interface Patch {
  readonly blade: Blade;
  readonly depthMm: Shape;
  readonly yMm: number;
  readonly reachMm: number;
}

type IsRead = (blade: Blade, fromTipMm: number, across: number) => boolean;

export function familyReed(settings: FamilySettings): FamilyReed {
  const { family, seed, extent } = settings;
  const draws = drawsFrom(seededRandom(seed));
  const shape = settings.shapeOf?.(draws) ?? shapeOf(family, draws);
  const fresh = { A: ownShape(shape, draws), B: ownShape(shape, draws) };
  const count = settings.count ?? 2 + Math.floor(draws.random() * 3);
  const cane: Record<Blade, Shape>[] = [fresh];
  const lost: Record<Blade, Shape>[] = [{ A: () => 0, B: () => 0 }];
  const lengths = [FIRST_LENGTH_MM];
  const passes = [readPass(settings, 0, FIRST_LENGTH_MM, fresh, () => true, draws)];
  for (let index = 1; index < count; index++) {
    const isRead = extentOf(extent, draws, settings.knife);
    const patches = patchesOf(cane[index - 1]!, isRead.where, draws);
    const gone = Object.fromEntries(BLADES.map((blade) => [blade, lossOf(patches, blade)])) as Record<
      Blade,
      Shape
    >;
    const before = cane[index - 1]!;
    lost.push(gone);
    cane.push({ A: (y, u) => before.A(y, u) - gone.A(y, u), B: (y, u) => before.B(y, u) - gone.B(y, u) });
    const clipMm = draws.chance(0.2) ? Math.round(draws.between(2, 6)) / 20 : 0;
    lengths.push(lengths[index - 1]! - clipMm);
    passes.push(
      readPass(settings, index, lengths[index]!, cane[index]!, isRead.read(patches, lengths[index]!), draws),
    );
  }
  const onFirst = (pass: number, fromTipMm: number) => FIRST_LENGTH_MM - lengths[pass]! + fromTipMm;
  return {
    ...settings,
    passes,
    thicknessMm: (blade, pass, y, u) => cane[pass]![blade](onFirst(pass, y), u),
    removedMm: (blade, pass, y, u) => lost[pass]![blade](onFirst(pass, y), u),
    readAgain: (blade, pass, y, u) =>
      readOne(settings, (at, across) => cane[pass]![blade](onFirst(pass, at), across), y, u, draws),
  };
}

function ownShape(shape: Shape, draws: Draws): Shape {
  const [blade, side] = [draws.normal(UNLIKE.blade), draws.normal(UNLIKE.side)];
  const waves = Array.from({ length: 4 }, () => ({
    size: draws.normal(UNLIKE.waves / Math.sqrt(2)),
    along: (2 * Math.PI) / draws.between(4, 10),
    ...{ across: draws.between(-2, 2), phase: draws.between(0, 2 * Math.PI) },
  }));
  return (y, u) =>
    shape(y, u) *
    waves.reduce(
      (sum, { size, along, across, phase }) => sum + size * Math.cos(along * y + across * u + phase),
      1 + blade + side * u,
    );
}

/** Where the knife mostly goes, and what is read of a pass. */
function extentOf(extent: Extent, draws: Draws, knife?: Knife) {
  const anywhere: Where = { blades: BLADES, fromMm: 1, toMm: 18, ...knife };
  const halves = [
    { blades: ['B'], fromMm: 9, toMm: 30 },
    { blades: ['A'], fromMm: 9, toMm: 30 },
    { blades: ['A'], fromMm: 0, toMm: 4.5 },
    { blades: BLADES, fromMm: 4.5, toMm: 10.5 },
  ] as const;
  const half = halves[Math.floor(draws.random() * halves.length)]!;
  const read = (patches: readonly Patch[], lengthMm: number): IsRead => {
    switch (extent) {
      case 'full':
        return () => true;
      case 'ragged':
        return () => !draws.chance(0.25);
      case 'half':
        return (blade, y) =>
          (half.blades as readonly Blade[]).includes(blade) && y >= half.fromMm && y <= half.toMm;
      case 'centre':
        return (_, __, u) => u === 0;
      case 'partial':
        return (blade, y) =>
          patches.some(
            (p) => p.blade === blade && Math.abs(FIRST_LENGTH_MM - lengthMm + y - p.yMm) < p.reachMm,
          );
    }
  };
  return { where: extent === 'half' ? { ...half, toMm: Math.min(half.toMm, 18) } : anywhere, read };
}

interface Where extends Omit<Knife, 'deepMm'>, Partial<Pick<Knife, 'deepMm'>> {
  readonly blades: readonly Blade[];
}

function patchesOf(cane: Readonly<Record<Blade, Shape>>, where: Where, draws: Draws): Patch[] {
  const patches = Array.from({ length: 1 + Math.floor(draws.random() * 4) }, () => patch(cane, where, draws));
  // A band across both blades is nobody's habit.
  if (where.deepMm || !draws.chance(0.3)) return patches;
  const [from, to] = (
    [
      [0, 4],
      [5, 9],
      [9, 18],
    ] as const
  )[Math.floor(draws.random() * 3)]!;
  const deep = draws.between(0.005, 0.015);
  const edge = (x: number) => (1 + x / Math.sqrt(1 + x * x)) / 2;
  const depthMm: Shape = (y) => deep * edge((y - from) / 0.3) * edge((to - y) / 0.3);
  return [
    ...patches,
    ...where.blades.map((blade) => ({ blade, depthMm, yMm: (from + to) / 2, reachMm: (to - from) / 2 + 1 })),
  ];
}

function patch(cane: Readonly<Record<Blade, Shape>>, where: Where, { between, random }: Draws): Patch {
  const blade = where.blades[Math.floor(random() * where.blades.length)]!;
  const [y0, u0] = [between(Math.max(1, where.fromMm), where.toMm), between(-0.7, 0.7)];
  const [along, across] = [between(0.7, 2), between(0.15, 0.55)];
  // Nobody takes a quarter of what is there in one pass.
  const deep = Math.min(between(...(where.deepMm ?? ([0.01, 0.05] as const))), 0.25 * cane[blade](y0, u0));
  const depthMm: Shape = (y, u) =>
    deep * Math.exp(-0.5 * (((y - y0) / along) ** 2 + ((u - u0) / across) ** 2));
  return { blade, depthMm, yMm: y0, reachMm: 2.5 * along };
}

function lossOf(patches: readonly Patch[], blade: Blade): Shape {
  const own = patches.filter((one) => one.blade === blade);
  return (y, u) => own.reduce((sum, { depthMm }) => sum + depthMm(y, u), 0);
}

export const familyHalfWidthMm = (fromTipMm: number) => (7 - 0.09 * fromTipMm) / 2;

function readOne(
  { gauge, handMm, badShare = 0 }: FamilySettings,
  cane: Shape,
  y: number,
  u: number,
  { normal, chance }: Draws,
): number {
  const { seatingMm, stepMm } = FAMILY_GAUGES[gauge];
  const met = cane(y + normal(handMm), u + normal(handMm / 3) / familyHalfWidthMm(y)) + normal(seatingMm);
  const badlyMm = badShare > 0 && chance(badShare) ? normal(BADLY_SEATED_MM) : 0;
  return Math.max(1, Math.round((met + badlyMm) / stepMm)) * stepMm;
}

function readPass(
  settings: FamilySettings,
  index: number,
  overallLengthMm: number,
  cane: Readonly<Record<Blade, Shape>>,
  isRead: IsRead,
  draws: Draws,
): FamilyPass {
  const { normal } = draws;
  const zero = normal(FAMILY_GAUGES[settings.gauge].zeroMm);
  // The first pass is the one that length and wetness are counted from.
  const [short, swollen] =
    index === 0 ? [0, 0] : [normal(PASS_ERRORS.lengthMm), normal(PASS_ERRORS.swelling)];
  const gone = FIRST_LENGTH_MM - overallLengthMm;
  const readings = BLADES.flatMap((blade) =>
    ROWS_MM.flatMap((fromTipMm) =>
      ACROSS.filter((u) => isRead(blade, fromTipMm, u)).map((across) => {
        const met: Shape = (y, u) => cane[blade](gone + short + y, u) * (1 + swollen) + zero;
        const thicknessMm = readOne(settings, met, fromTipMm, across, draws);
        return { blade, fromTipMm, across, thicknessMm, repeats: 1, noiseFactor: 1 };
      }),
    ),
  );
  return {
    ...{ index, overallLengthMm, bladeLengthMm: BLADE_LENGTH_MM - gone, halfWidthMm: familyHalfWidthMm },
    ...{ readings, controls: [] },
  };
}
