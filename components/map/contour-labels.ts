import { svg, type SVGTemplateResult } from 'lit';
import { MM_PER } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { plainText } from '../../src/words/format.ts';
import { differenceText } from '../figure-text.ts';
import type { Quantity } from '../theme/ramp.ts';
import { gridPoints, gridValue, type Point } from './blade-drawing.ts';
import { cornersOf, roomFor, textBox, type Box } from './boxes.ts';
import { bandColour, bandInk } from './colour-layer.ts';
import type { Contour } from './level-lines.ts';
import type { StationLook } from './station-layer.ts';

interface LabelLook extends Omit<StationLook, 'current'> {
  readonly contours: readonly Contour[];
  /** Where the figures of the stations stand. */
  readonly taken: readonly Box[];
}

interface Label {
  readonly text: string;
  readonly levelMm: number;
  readonly at: Point;
  /** Of the line there, degrees; the text is never upside down. */
  readonly turn: number;
}

/** Between two places that are tried along a line, and from a label to what stands beside it, drawing units. */
const TRY_EACH = 4;
const CLEAR = 1.5;

function labelText(levelMm: number, quantity: Quantity, writing: NumberFormat): string {
  return quantity === 'difference'
    ? differenceText(levelMm, writing)
    : plainText(levelMm / MM_PER[writing.unit], writing);
}

/** Places along a line, with the direction of the line there. */
function triesOn(points: readonly Point[]): { at: Point; turn: number }[] {
  return points.slice(1).flatMap(([x, y], k) => {
    const [fromX, fromY] = points[k]!;
    const [dx, dy] = [x - fromX, y - fromY];
    const count = Math.floor(Math.hypot(dx, dy) / TRY_EACH) + 1;
    // A direction and its opposite are one line: text is read from the left.
    const turn = (Math.atan(dy / (dx === 0 ? 1e-9 : dx)) * 180) / Math.PI;
    return Array.from({ length: count }, (_, n) => {
      const share = (n + 0.5) / count;
      return { at: [fromX + share * dx, fromY + share * dy] as const, turn };
    });
  });
}

/** Whether colour lies under all of a box: wood that was read, and a difference that is measurable. */
function isCoveredBy({ drawing, data }: LabelLook, box: Box): boolean {
  const { valuesMm, measurable } = data;
  return cornersOf(box, CLEAR).every(([x, y]) => {
    const place = drawing.placeAt(x, y);
    const isRead = !Number.isNaN(gridValue(data, valuesMm, place));
    return isRead && (!measurable || gridValue(data, measurable, place) >= 0.5);
  });
}

/** The roomiest place of each strong line's label; none where it would stand on a figure or over the edge. */
export function placeLabels(look: LabelLook): Label[] {
  const { drawing, data, quantity, contours, taken, fontSize } = look;
  const boxes = [...taken];
  const placed: Label[] = [];
  for (const { levelMm, lines } of contours.filter(({ strong }) => strong)) {
    const text = labelText(levelMm, quantity, look);
    let best: { label: Label; box: Box; room: number } | undefined;
    for (const one of lines.flatMap((line) => triesOn(gridPoints(drawing, data, line)))) {
      const box = textBox(text, one.at, fontSize, one.turn);
      const room = roomFor(box, boxes);
      // What lies under a box is looked up only where there is more room than at any place before.
      if (room < CLEAR || (best && room <= best.room) || !isCoveredBy(look, box)) continue;
      best = { label: { text, levelMm, ...one }, box, room };
    }
    if (!best) continue;
    placed.push(best.label);
    boxes.push(best.box);
  }
  return placed;
}

/** The values of the strong lines, each written along its line. */
export function labelLayer(look: LabelLook): SVGTemplateResult {
  const { quantity, fontSize, numbersOnly } = look;
  const ink = (levelMm: number) => (numbersOnly ? 'var(--bench-ink)' : bandInk(quantity, levelMm));
  const ground = (levelMm: number) => (numbersOnly ? 'var(--bench-plate)' : bandColour(quantity, levelMm));
  return svg`<g class="levels" aria-hidden="true" font-size=${fontSize}>${placeLabels(look).map(
    ({ text, levelMm, at: [x, y], turn }) => svg`<text fill=${ink(levelMm)}
      stroke=${ground(levelMm)} transform=${`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn.toFixed(0)})`}
      >${text}</text>`,
  )}</g>`;
}
