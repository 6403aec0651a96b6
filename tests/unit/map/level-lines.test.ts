import { describe, expect, it } from 'vitest';
import { thicknessPlate } from '../../../components/bench/plate-data.ts';
import { bladeDrawing, gridPlaces, gridPoints, WIDTH_FACTOR } from '../../../components/map/blade-drawing.ts';
import { placeLabels } from '../../../components/map/contour-labels.ts';
import { contoursOf, type Contour } from '../../../components/map/level-lines.ts';
import type { BladeMapData } from '../../../components/map/map-data.ts';
import { stationBoxes } from '../../../components/map/station-layer.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const PASS = 3;
const reed = scenarioReed('m-142');
const plate = thicknessPlate(reed, PASS);
const LEAST_GAP = 4;
const look = { quantity: 'thickness', unit: 'hundredths', widthFactor: WIDTH_FACTOR } as const;

function drawn(data: BladeMapData) {
  const drawing = bladeDrawing(data, data.bladeLengthMm);
  return { drawing, contours: contoursOf(data, { ...look, leastGapMm: LEAST_GAP / drawing.unitsPerMm }) };
}

/** Distance from a point to a stretch. */
function distance(
  [x, y]: readonly [number, number],
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
): number {
  const length = (bx - ax) ** 2 + (by - ay) ** 2;
  const share = length === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length;
  const held = Math.min(1, Math.max(0, share));
  return Math.hypot(x - ax - held * (bx - ax), y - ay - held * (by - ay));
}

describe.each(['A', 'B'] as const)('contour lines of a fitted blade, %s', (blade) => {
  const data = plate[blade]!;
  const { drawing, contours } = drawn(data);

  it('stand for every whole hundredth, every fifth stronger', () => {
    const hundredths = contours.map(({ levelMm }) => levelMm * 100);
    hundredths.forEach((value, k) => expect(value).toBeCloseTo(hundredths[0]! + k, 9));
    expect(hundredths[0]! % 1).toBe(0);
    contours.forEach(({ strong }, k) => expect(strong).toBe(Math.round(hundredths[k]!) % 5 === 0));
    expect([hundredths[0]! <= 6, hundredths.at(-1)! >= 58]).toEqual([true, true]);
  });

  it('run where the fitted surface has their value', () => {
    const model = reed.model!;
    const off: number[] = [];
    for (const { levelMm, lines } of contours)
      for (const place of lines.flatMap((line) => gridPlaces(data, line))) {
        const { valueMm } = estimate(model, pointFunctional(model, { blade, pass: PASS, ...place }));
        off.push(Math.abs(valueMm - levelMm));
      }
    expect(off.length).toBeGreaterThan(1500);
    off.sort((one, other) => one - other);
    // Straight between nodes 0.4 mm apart is off by h^2/8 times the bend: 0.15 mm a mm^2 at the sharpest, on the blend.
    expect(off.at(-1)).toBeLessThan(0.003);
    expect(off[Math.floor(off.length / 2)]).toBeLessThan(0.0003);
  });

  it('keep three CSS pixels where maps are smallest, fine ones being left out where they would not', () => {
    const points = ({ lines }: Contour) => lines.map((line) => gridPoints(drawing, data, line));
    contours.slice(1).forEach((contour, k) => {
      const before = contours[k]!;
      if (contour.strong && before.strong) return;
      for (const [x, y] of points(contour)
        .flat()
        .filter((_, n) => n % 5 === 0))
        for (const line of points(before))
          line.slice(1).forEach((to, n) => {
            // Maps are drawn at 0.75 CSS pixels a unit or more.
            expect(0.75 * distance([x, y], line[n]!, to)).toBeGreaterThan(2);
          });
    });
    const fine = contours.filter(({ strong }) => !strong);
    expect(fine.filter(({ lines }) => lines.length > 0).length).toBeGreaterThan(25);
  });

  it('have their values written on them, clear of the figures and of each other', () => {
    const fontSize = 13.5;
    const numbers = { ...look, decimal: 'point', drawing, data, fontSize, numbersOnly: false } as const;
    const taken = stationBoxes(numbers);
    const labels = placeLabels({ ...numbers, contours, taken, fontSize: 10 });
    expect(labels.length).toBeGreaterThan(8);
    for (const { text, levelMm, at } of labels) {
      expect(Number(text)).toBeCloseTo(100 * levelMm, 9);
      const line = contours.find((contour) => contour.levelMm === levelMm)!.lines;
      const away = line.flatMap((part) => {
        const points = gridPoints(drawing, data, part);
        return points.slice(1).map((to, k) => distance(at, points[k]!, to));
      });
      expect(Math.min(...away)).toBeLessThan(1e-6);
      for (const box of [...taken, ...labels.filter((other) => other.at !== at).map(asBox)])
        expect(
          Math.abs(at[0] - box.x) > box.halfWidth + 5 || Math.abs(at[1] - box.y) > box.halfHeight + 5,
          `${text} at ${at.join()}`,
        ).toBe(true);
    }
  });
});

const asBox = ({ at }: { at: readonly [number, number] }) => ({
  x: at[0],
  y: at[1],
  halfWidth: 5,
  halfHeight: 5,
});

describe('contoursOf', () => {
  it('draws half thous and stronger ones at each second thou for whom reads in thou', () => {
    const contours = contoursOf(plate.A!, { ...look, unit: 'thou', leastGapMm: 0.2 });
    const thou = contours.map(({ levelMm }) => levelMm / 0.0254);
    expect(thou[1]! - thou[0]!).toBeCloseTo(0.5, 9);
    contours.forEach(({ strong }, k) => expect(strong).toBe(Math.round(thou[k]! * 2) % 4 === 0));
  });
});
