import { Vector3, type BufferGeometry, type Mesh } from 'three';
import { afterEach, describe, expect, it } from 'vitest';
import { thicknessPlate } from '../../../components/bench/plate-data.ts';
import { reliefBlades } from '../../../components/bench/relief-blades.ts';
import { gridValue } from '../../../components/map/blade-drawing.ts';
import type { ReliefBlade } from '../../../components/relief/relief-data.ts';
import { arrange } from '../../../components/scene/arrange.ts';
import { BladeObject } from '../../../components/scene/blade-object.ts';
import { pointOnBark } from '../../../components/scene/blade-solid.ts';
import type { GougeReading } from '../../../shared/cane.ts';
import { facing } from '../../../shared/blade.ts';
import { floorAt } from '../../../src/blade/floors.ts';
import { arcOf, originalCane } from '../../../src/cane/original-cane.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const PASS = 3;
const reed = scenarioReed('m-142');
const geometry = reed.assembled.passes[PASS]!;
/** Invented gouge, thicker on side 1. */
const gouged: GougeReading[] = [15, 60].flatMap((alongMm) =>
  [
    [-4.3, 0.48],
    [0, 0.62],
    [4.3, 0.44],
  ].map(([arcMm, thicknessMm]) => ({ alongMm, arcMm: arcMm!, thicknessMm: thicknessMm! })),
);
const original = originalCane({ readings: gouged })!;
const blades = reliefBlades(reed, PASS, thicknessPlate(reed, PASS), { withFloor: true, original });
const LOOK = { lay: 'flat', exaggeration: 8, unit: 'hundredths' } as const;
/** Lines lie this much above the bark, scene units. */
const LIFT = 0.02;

const made: BladeObject[] = [];
afterEach(() => made.splice(0).forEach((object) => object.dispose()));
function object(
  blade: ReliefBlade,
  cutAtMm?: number,
  look: typeof LOOK | { lay: 'arched'; exaggeration: 8; unit: 'hundredths' } = LOOK,
) {
  const one = new BladeObject(blade, look, 'day', cutAtMm);
  made.push(one);
  return one;
}

/** Vertices of a part, with the place of the blade under each. */
function points({ object: group, blade }: BladeObject, name: string) {
  const part = group.getObjectByName(name) as Mesh<BufferGeometry> | undefined;
  const positions = part!.geometry.getAttribute('position');
  return Array.from({ length: positions.count }, (_, k) => {
    const [x, y, z] = [positions.getX(k), positions.getY(k), positions.getZ(k)];
    const half = geometry.halfWidthMm(-y);
    return { x, y, z, place: { blade: blade.blade, fromTipMm: -y, across: x / half } };
  });
}
// Positions are 32-bit: 1e-6 of 25 mm, times 8.
const near = (value: number, expected: number, within = 1e-4) =>
  expect(Math.abs(value - expected)).toBeLessThan(within);

describe.each(['A', 'B'] as const)('the relief of blade %s', (name) => {
  const blade = blades.find((one) => one.blade === name)!;

  it('has the cane as it was gouged above, as high as the gouge curve at that width', () => {
    const ghost = points(object(blade), 'cane as gouged');
    expect(ghost.length).toBeGreaterThan(500);
    for (const { z, place } of ghost) {
      const arcMm = arcOf({ ...place, halfWidthMm: geometry.halfWidthMm(place.fromTipMm) });
      near(z / 8, original.curve.thicknessAt(arcMm).valueMm);
    }
    const side1 = ghost.filter(({ place }) => (name === 'A' ? place.across : -place.across) < -0.9);
    const side2 = ghost.filter(({ place }) => (name === 'A' ? place.across : -place.across) > 0.9);
    expect(side1[0]!.z).toBeGreaterThan(side2[0]!.z);
  });

  it('has each reading as a pin from the surface to what the gauge read', () => {
    const one = object(blade);
    const heads = points(one, 'heads of pins');
    expect(heads).toHaveLength(blade.pins.length);
    heads.forEach(({ z }, k) => near(z / 8, blade.pins[k]!.thicknessMm));
    const stems = points(one, 'pins');
    blade.pins.forEach((pin, k) => {
      const [foot, head] = [stems[2 * k]!, stems[2 * k + 1]!];
      const residualMm = pin.thicknessMm - gridValue(blade, blade.valuesMm, pin);
      near(head.z - foot.z + LIFT, 8 * residualMm);
      near(foot.place.across, pin.across, 1e-3);
    });
  });

  it('has the floor as a sheet, and marks where the bark is near it', () => {
    const one = object(blade);
    const { floors } = reed.assembled.style;
    for (const { z, place } of points(one, 'floor'))
      near(z / 8, floorAt(floors, place.fromTipMm, Math.max(-1, Math.min(1, place.across)))!);
    const marked = points(one, 'near its floor');
    for (const { place } of marked) {
      const overMm = gridValue(blade, blade.valuesMm, {
        ...place,
        across: Math.max(-1, Math.min(1, place.across)),
      });
      // Places come back from 32-bit positions: a grid value a hair beside its node.
      expect(
        overMm - floorAt(floors, place.fromTipMm, Math.max(-1, Math.min(1, place.across)))!,
      ).toBeLessThan(0.0202);
    }
    // The dig in B's right window is one hundredth above its floor.
    const atTheDig = marked.some(
      ({ place }) => Math.abs(place.fromTipMm - 10) < 0.5 && Math.abs(place.across - 0.4) < 0.1,
    );
    expect(atTheDig).toBe(name === 'B');
  });

  it('has the zones on the bark where they lie on the map', () => {
    const one = object(blade);
    const outlines = blade.zones.flatMap(({ segments }) => segments);
    for (const [part, hangsFrom] of [
      ['zones from the tip', 'tip'],
      ['zones from the thread', 'cane'],
    ] as const) {
      const drawn = points(one, part);
      expect(drawn.length).toBeGreaterThan(20);
      for (const { z, place } of drawn) {
        near(
          (z - LIFT) / 8,
          gridValue(blade, blade.valuesMm, { ...place, across: Math.max(-1, Math.min(1, place.across)) }),
          1e-3,
        );
        const away = outlines
          .filter((outline) => outline.hangsFrom === hangsFrom)
          .flatMap((outline) =>
            outline.points.slice(1).map((to, k) => offLine(place, outline.points[k]!, to)),
          );
        // Half-widths are straight between the rows of the grid: a place across comes back to 0.002 mm.
        expect(Math.min(...away)).toBeLessThan(1e-3);
      }
    }
  });

  it('has a contour line at each whole hundredth', () => {
    const one = object(blade);
    // The ends of a fine line that was cut short lie inside a cell, where straight and bilinear differ.
    for (const [part, each, within] of [
      ['fine contours', 1, 0.1],
      ['strong contours', 5, 0.002],
    ] as const) {
      const hundredths = points(one, part).map(({ z }) => ((z - LIFT) / 8) * 100);
      expect(hundredths.length).toBeGreaterThan(500);
      for (const value of hundredths) near(value / each, Math.round(value / each), within);
    }
  });

  it('is bent like the reed when it is arched, the edges staying where they were', () => {
    const flat = points(object(blade), 'bark');
    const bent = points(object(blade, undefined, { ...LOOK, lay: 'arched' }), 'bark');
    flat.forEach(({ z, place }, k) => {
      const share = place.fromTipMm / blade.bladeLengthMm;
      near(bent[k]!.z - z, (0.5 + 1.6 * share) * (1 - place.across ** 2), 1e-3);
    });
  });
});

/** Distance of a place from a straight stretch of an outline; mm along and fractions of the half-width across. */
function offLine(
  place: { fromTipMm: number; across: number },
  from: { fromTipMm: number; across: number },
  to: { fromTipMm: number; across: number },
) {
  const [dx, dy] = [to.across - from.across, to.fromTipMm - from.fromTipMm];
  const [px, py] = [place.across - from.across, place.fromTipMm - from.fromTipMm];
  const length = dx * dx + dy * dy;
  const share = length === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / length));
  return Math.hypot(px - share * dx, py - share * dy);
}

describe('two blades', () => {
  const pair = (cutAtMm?: number) => blades.map((blade) => object(blade, cutAtMm));
  const onBark = ({ object: group, blade }: BladeObject, place: { fromTipMm: number; across: number }) => {
    group.updateMatrixWorld(true);
    return group.localToWorld(new Vector3(...pointOnBark(blade, LOOK, place)!));
  };

  it('lie side by side, A at the left, or face each other, A above what faces it', () => {
    const [a, b] = pair();
    arrange([a!, b!], 'beside');
    expect(onBark(a!, { fromTipMm: 5, across: 1 }).x).toBeLessThan(
      onBark(b!, { fromTipMm: 5, across: -1 }).x,
    );
    const [above, below] = pair();
    arrange([above!, below!], 'facing');
    for (const across of [-0.8, 0, 0.4]) {
      const place = { blade: 'A', fromTipMm: 10, across } as const;
      const [top, bottom] = [onBark(above!, place), onBark(below!, facing(place))];
      near(top.x, bottom.x);
      near(top.y, bottom.y);
      expect(top.z).toBeGreaterThan(bottom.z);
    }
  });

  it('cut across show both sections at that distance, A above, side 1 of both at the left', () => {
    const both = pair(10);
    arrange(both, 'facing');
    const [a, b] = both.map((one) => {
      one.object.updateMatrixWorld(true);
      return points(one, 'cut').map(({ x, y, z, place }) => ({
        world: one.object.localToWorld(new Vector3(x, y, z)),
        place,
      }));
    });
    for (const { world } of [...a!, ...b!]) near(world.y, -10);
    expect(Math.min(...a!.map(({ world }) => world.z))).toBeGreaterThan(
      Math.max(...b!.map(({ world }) => world.z)),
    );
    // Side 1 is A's left and B's right.
    const left = (side: typeof a) =>
      side!.reduce((least, one) => (one.world.x < least.world.x ? one : least));
    near(left(a).place.across, -1, 1e-3);
    near(left(b).place.across, 1, 1e-3);
  });

  it('show nothing of the tip before the cut', () => {
    const [a] = pair(10);
    a!.placeClip();
    const material = (a!.object.getObjectByName('bark') as Mesh).material as {
      clippingPlanes: { distanceToPoint(point: Vector3): number }[];
    };
    const [plane] = material.clippingPlanes;
    expect(plane!.distanceToPoint(new Vector3(0, -9.9, 0))).toBeLessThan(0);
    expect(plane!.distanceToPoint(new Vector3(0, -10.1, 0))).toBeGreaterThan(0);
  });
});
