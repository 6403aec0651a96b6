import { PerspectiveCamera, Vector3 } from 'three';
import { afterEach, describe, expect, it } from 'vitest';
import type { ReliefSettings } from '../../../components/relief/relief-data.ts';
import { makeLight } from '../../../components/scene/cane-material.ts';
import { ReedModel } from '../../../components/scene/reed-model.ts';
import { ANGLES, HOME, POSES, type Angles } from '../../../components/scene/stance.ts';
import { settings } from './flat-reed.ts';
import { BLADES, type Blade } from '../../../shared/blade.ts';

const made: ReedModel[] = [];
afterEach(() => made.splice(0).forEach((model) => model.dispose()));
function standing(stance: ReliefSettings['stance']): ReedModel {
  const model = new ReedModel(settings(stance), 'day', makeLight());
  made.push(model);
  model.pose(POSES[stance]);
  return model;
}

/** Where a corner is seen from some angles: right and up are plus. */
function seen(model: ReedModel, { turn, tilt }: Angles, blade: Blade, across: number, fromTipMm = 1) {
  const eye = new PerspectiveCamera(11, 1, 1, 1000);
  eye.up.set(0, 0, 1);
  const middle = new Vector3(0, -12, 0);
  eye.position
    .copy(middle)
    .add(
      new Vector3(
        Math.sin(tilt) * Math.sin(turn),
        Math.sin(tilt) * Math.cos(turn),
        Math.cos(tilt),
      ).multiplyScalar(200),
    );
  eye.lookAt(middle);
  eye.updateMatrixWorld(true);
  return model.seat({ blade, fromTipMm, across })!.point.project(eye);
}

it('lifts a figure as the slice under it is lifted: straight up from a leaning place, and down under B', () => {
  const place = { fromTipMm: 10, across: 0.9 };
  for (const [stance, blade, up] of [
    ['opened', 'A', 1],
    ['opened', 'B', 1],
    ['staple', 'B', -1],
  ] as const) {
    const model = standing(stance);
    const [on, lifted] = [0, 3].map((mm) => model.seat({ blade, ...place }, 0, mm)!.point);
    expect(lifted!.sub(on!).distanceTo(new Vector3(0, 0, 3 * up))).toBeLessThan(1e-9);
  }
});

describe('the datum of the reed in space', () => {
  it('opened: A left, B right, side 1 outside, the tip up', () => {
    const model = standing('opened');
    const x = (blade: Blade, u: number) => seen(model, HOME.opened, blade, u).x;
    const order = [x('A', -1), x('A', 1), x('B', -1), x('B', 1)];
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(seen(model, HOME.opened, 'A', 0, 1).y).toBeGreaterThan(seen(model, HOME.opened, 'A', 0, 20).y);
  });

  it('on the staple, from the cork: A above, side 1 on the left on both blades, the tip away', () => {
    const model = standing('staple');
    for (const angles of [HOME.staple, { turn: Math.PI, tilt: 1.2 }]) {
      expect(seen(model, angles, 'A', -1).x).toBeLessThan(seen(model, angles, 'A', 1).x);
      expect(seen(model, angles, 'B', 1).x).toBeLessThan(seen(model, angles, 'B', -1).x);
      expect(seen(model, angles, 'A', 0).y).toBeGreaterThan(seen(model, angles, 'B', 0).y);
    }
  });

  it('on the staple A at u lies over B at -u', () => {
    const model = standing('staple');
    for (const u of [-0.8, 0.3, 1]) {
      const [a, b] = [
        model.seat({ blade: 'A', fromTipMm: 9, across: u })!.point,
        model.seat({ blade: 'B', fromTipMm: 9, across: -u })!.point,
      ];
      expect(a.x).toBeCloseTo(b.x, 6);
      expect(a.y).toBeCloseTo(b.y, 6);
      expect(a.z).toBeCloseTo(-b.z, 6);
    }
  });

  it('from the tip left and right have changed places', () => {
    const model = standing('staple');
    expect(seen(model, ANGLES.tip, 'A', -1).x).toBeGreaterThan(seen(model, ANGLES.tip, 'A', 1).x);
  });

  it('side 1 faces the eye that looks from side 1', () => {
    const model = standing('staple');
    const towards = (angles: Angles) =>
      new Vector3(
        Math.sin(angles.tilt) * Math.sin(angles.turn),
        Math.sin(angles.tilt) * Math.cos(angles.turn),
        Math.cos(angles.tilt),
      );
    const edge = model.seat({ blade: 'A', fromTipMm: 15, across: -1 })!.normal;
    expect(edge.dot(towards(ANGLES['side 1']))).toBeGreaterThan(0.5);
    expect(edge.dot(towards(ANGLES['side 2']))).toBeLessThan(0);
  });

  it('flattened, the blades lie in one plane at their own widths', () => {
    const model = standing('flat');
    const edge = (u: number) => model.seat({ blade: 'A', fromTipMm: 0, across: u })!.point;
    expect(Math.abs(edge(0).z - edge(1).z)).toBeLessThan(0.01);
  });

  it('finds again the place that a point of the bark belongs to, on either blade', () => {
    const model = standing('staple');
    BLADES.forEach((blade, k) => {
      const { point } = model.seat({ blade, fromTipMm: 7, across: 0.4 })!;
      const place = model.placeOn(model.barks[k]!, point)!;
      expect(place.blade).toBe(blade);
      expect(place.fromTipMm).toBeCloseTo(7, 6);
      expect(place.across).toBeCloseTo(0.4, 6);
    });
  });
});
