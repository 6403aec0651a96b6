import { svg, type SVGTemplateResult } from 'lit';
import { isInPolygon } from '../../src/numerics/polygon.ts';
import type { BladeDrawing, Point } from './blade-drawing.ts';
import { cornersOf, roomFor, textBox, type Box } from './boxes.ts';
import type { BladeMapData } from './map-data.ts';

interface Name {
  readonly title: string;
  readonly at: Point;
  readonly turn: number;
}

/** Between two places that are tried, and from a name to what stands beside it, drawing units. */
const TRY_EACH = 4;
const CLEAR = 1;
/** From the blade's edge to a name that has no room on the wood: where that is taken, further out. */
const BESIDE = [9, 20];

/** Places inside an outline where a name fits, upright or turned along the blade. */
function triesIn(outline: readonly Point[], title: string, fontSize: number): Name[] {
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  const steps = (values: number[]) => {
    const least = Math.min(...values);
    return Array.from(
      { length: Math.floor((Math.max(...values) - least) / TRY_EACH) },
      (_, k) => least + (k + 1) * TRY_EACH,
    );
  };
  return steps(ys)
    .flatMap((y) => steps(xs).flatMap((x) => [0, -90].map((turn): Name => ({ title, at: [x, y], turn }))))
    .filter(({ at, turn }) =>
      cornersOf(textBox(title, at, fontSize, turn), CLEAR).every(([x, y]) => isInPolygon(outline, x, y)),
    );
}

/** A name along the inner edge of the blade, as near the middle of its zone as there is room. */
function beside(
  drawing: BladeDrawing,
  outline: readonly Point[],
  isFree: (name: Name) => boolean,
  title: string,
): Name {
  const ys = outline.map(([, y]) => y);
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const middle = (top + bottom) / 2;
  const tries = Array.from(
    { length: Math.floor((bottom - top) / TRY_EACH) + 1 },
    (_, k) => top + k * TRY_EACH,
  )
    .sort((one, other) => Math.abs(one - middle) - Math.abs(other - middle))
    .flatMap((y) =>
      BESIDE.map((away): Name => {
        const { fromTipMm } = drawing.placeAt(drawing.centre, y);
        const inner = -drawing.outer;
        return { title, at: [drawing.x(fromTipMm, inner) + inner * away, y], turn: -90 };
      }),
    );
  return tries.find(isFree) ?? tries[0]!;
}

/** Where the names of the zones stand: where there is most room on the wood, else beside it. */
export function placeNames(
  drawing: BladeDrawing,
  { zones }: BladeMapData,
  taken: readonly Box[],
  fontSize: number,
): Name[] {
  const boxes = [...taken];
  return zones.flatMap(({ title, outlines = [] }) => {
    const drawn = outlines.map((outline) =>
      outline.map(({ fromTipMm, across }): Point => [drawing.x(fromTipMm, across), drawing.y(fromTipMm)]),
    );
    if (drawn.length === 0) return [];
    const boxOf = ({ at, turn }: Name) => textBox(title, at, fontSize, turn);
    const tries = drawn
      .flatMap((outline) => triesIn(outline, title, fontSize))
      // Turned words are read less easily: they have to win room.
      .map((name) => ({ name, room: Math.min(roomFor(boxOf(name), boxes), 12) - (name.turn === 0 ? 0 : 6) }));
    const best = tries.reduce<(typeof tries)[number] | undefined>(
      (found, one) => (found && found.room >= one.room ? found : one),
      undefined,
    );
    const isFree = (name: Name) => roomFor(boxOf(name), boxes) >= CLEAR;
    const name = best && isFree(best.name) ? best.name : beside(drawing, drawn.at(-1)!, isFree, title);
    boxes.push(boxOf(name));
    return [name];
  });
}

/** The names of the zones, small, clear of the figures. */
export function zoneNamesLayer(
  drawing: BladeDrawing,
  data: BladeMapData,
  taken: readonly Box[],
  fontSize: number,
): SVGTemplateResult {
  return svg`<g class="zone-names" aria-hidden="true" font-size=${fontSize}>${placeNames(
    drawing,
    data,
    taken,
    fontSize,
  ).map(
    ({ title, at: [x, y], turn }) =>
      svg`<text transform=${`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn})`}>${title}</text>`,
  )}</g>`;
}
