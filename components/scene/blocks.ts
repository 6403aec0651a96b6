import { gridPlaces, gridValue } from '../map/blade-drawing.ts';
import { cellsOf, contourRings } from '../../src/numerics/contours.ts';
import type { BladeGrid, OutlinePoint } from '../map/map-data.ts';
import { PALETTE } from '../theme/palette.ts';
import { bandPosition, ramp } from '../theme/ramp.ts';
import type { BladeBody, BodyLook, BodyParts } from './blade-body.ts';
import { BladeField } from './blade-field.ts';
import { ribbonFaces, sheetFaces } from './body-faces.ts';
import { differenceMaterial } from './cane-material.ts';
import type { Vec3 } from './vec3.ts';

/** Fineness of what is printed on a blade. */
export const PRINT_STEPS = { along: 160, across: 64 };

/** Heights at a place, mm of the scene above the gouged side. */
export type Height = (fromTipMm: number, across: number) => number;

/** How much a print's own heights are drawn larger. */
export interface PrintLook extends BodyLook {
  readonly differenceFactor: number;
}

/** What of a difference can be told: its values as a smooth field, and where they are measurable. */
export class Told {
  readonly grid: BladeGrid;
  private readonly values: BladeField;

  constructor(grid: BladeGrid) {
    this.grid = grid;
    this.values = new BladeField(
      grid,
      Array.from(grid.valuesMm, (value) => (Number.isNaN(value) ? 0 : value)),
    );
  }

  at(fromTipMm: number, across: number): number {
    return this.values.at(fromTipMm, across);
  }

  /** 1 in the measurable region, 0 outside; its border is at 0.5. */
  isTold(fromTipMm: number, across: number): number {
    const { grid } = this;
    const told = grid.measurable ? gridValue(grid, grid.measurable, { fromTipMm, across }) : 1;
    const value = gridValue(grid, grid.valuesMm, { fromTipMm, across });
    return Number.isNaN(told) || Number.isNaN(value) ? 0 : told;
  }

  /** Borders of the measurable regions, closed. */
  borders(): OutlinePoint[][] {
    const { grid } = this;
    const values = Array.from(grid.valuesMm, (value, k) =>
      Number.isNaN(value) ? 0 : (grid.measurable?.[k] ?? 1),
    );
    const field = cellsOf({ nx: grid.us.length, ny: grid.ysMm.length, values });
    return contourRings(field, 0.5).map((ring) => gridPlaces(grid, ring));
  }
}

/** A point some mm of the scene above the gouged side. */
export function above({ surface }: BladeBody, fromTipMm: number, across: number, heightMm: number): Vec3 {
  return surface.arch.point(fromTipMm, across, heightMm / surface.arch.factor);
}

/** Blocks that stand over the measurable regions between two heights, cut along their borders. */
export function addBlocks(
  parts: BodyParts,
  body: BladeBody,
  look: BodyLook,
  told: Told,
  low: Height,
  high: Height,
) {
  const scale = ramp('difference', look.theme);
  const print = (y: number, u: number) => ({
    band: bandPosition(scale, told.at(y, u)),
    known: told.isTold(y, u),
  });
  const skin = differenceMaterial(look.theme, look.light);
  const ys = body.ys(PRINT_STEPS.along);
  for (const [name, height] of [
    ['block', high],
    ['underside of a block', low],
  ] as const)
    parts.mesh(
      name,
      sheetFaces(ys, body.us(PRINT_STEPS.across), (y, u) => ({
        point: above(body, y, u, height(y, u)),
        print: print(y, u),
      })),
      skin,
    );
  for (const border of told.borders()) {
    const at = (height: Height) =>
      border.map(({ fromTipMm, across }) => above(body, fromTipMm, across, height(fromTipMm, across)));
    const [foot, top] = [at(low), at(high)];
    const wall = ribbonFaces(foot, top, (k) => {
      const { fromTipMm, across } = border[k]!;
      return { ...print(fromTipMm, across), known: 1 };
    });
    parts.mesh('wall of a block', wall, skin);
    const colour = PALETTE[look.theme][isLack(border, told) ? 'lack' : 'excess'];
    parts.line('border of a block', [[...top, top[0]!]], { colour, width: 1.5 });
    parts.line('foot of a block', [[...foot, foot[0]!]], { colour, width: 1, opacity: 0.8 });
  }
}

const isLack = (border: readonly OutlinePoint[], told: Told) =>
  border.reduce((sum, { fromTipMm, across }) => sum + told.at(fromTipMm, across), 0) < 0;
