import { nothing, svg, type SVGTemplateResult } from 'lit';
import { acrossWords } from '../../src/words/figure-words.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { plainText } from '../../src/words/format.ts';
import type { Quantity } from '../theme/ramp.ts';
import { gridValue, type BladeDrawing } from './blade-drawing.ts';
import { bandColour, bandInk } from './colour-layer.ts';
import type { BladeMapData, MapMark } from './map-data.ts';
import { textBox, type Box } from './boxes.ts';
import { quantityText, spokenUnit } from './quantity-text.ts';
import { spread } from './spread.ts';
import { rowsOf } from './stations.ts';

/** How numbers are set on a blade. */
export interface StationLook extends NumberFormat {
  readonly drawing: BladeDrawing;
  readonly data: BladeMapData;
  readonly quantity: Quantity;
  /** Size of type, drawing units. */
  readonly fontSize: number;
  /** Bare wood under the numbers: they are ink. */
  readonly numbersOnly: boolean;
  /** Number of the mark that the keyboard stands on. */
  readonly current: number;
}

/** Least distance between rows of figures, and from the tip's edge to the middle of the first, in sizes of type. */
const ROW_GAP = 1.04;
const FIRST_ROW = 0.62;
/** A row that is moved further than this from its place gets a mark there. */
const LEADER_FROM = 0.3;
const PALE_SIZE = 0.86;
/** Figures longer than two digits and a sign are set smaller, so that five stand beside each other at the thread. */
const LONG = { from: 4, size: 0.88 };

/** A station in words: `10 mm from the tip, right: 35 hundredths, near its floor`. */
export function markWords(mark: MapMark, quantity: Quantity, writing: NumberFormat): string {
  const where = `${plainText(mark.fromTipMm, writing)} mm from the tip, ${acrossWords(mark.across)}`;
  const text = quantityText(quantity, mark.valueMm, writing);
  const notes = [
    `${text} ${spokenUnit(quantity, writing.unit, text)}`,
    mark.inDoubt ? 'inside its doubt' : '',
    mark.ownVariety ? 'within your own variety' : '',
    mark.older ? `read in ${mark.older}` : '',
    mark.nearFloor ? 'near its floor' : '',
    mark.odd ?? '',
  ];
  return `${where}: ${notes.filter(Boolean).join(', ')}`;
}

/** A difference that says nothing: inside its doubt, or no larger than the favourites' own spread. */
const isPale = ({ inDoubt = false, ownVariety = false }: MapMark) => inDoubt || ownVariety;

/** Colours of a number and of the halo that keeps contours off it. */
function colours({ data, quantity, numbersOnly }: StationLook, mark: MapMark) {
  const underMm = gridValue(data, data.valuesMm, mark);
  const bare = numbersOnly || Number.isNaN(underMm) || isPale(mark);
  if (bare) return { ink: `var(--bench-${isPale(mark) ? 'ink3' : 'ink'})`, halo: 'var(--bench-plate)' };
  return { ink: bandInk(quantity, underMm), halo: bandColour(quantity, underMm) };
}

function lozenge(x: number, y: number, radius: number): string {
  return `M${x} ${y - radius}L${x + radius} ${y}L${x} ${y + radius}L${x - radius} ${y}Z`;
}

function station(look: StationLook, mark: MapMark, index: number, y: number): SVGTemplateResult {
  const { drawing, quantity, fontSize } = look;
  const x = drawing.x(mark.fromTipMm, mark.across);
  const trueY = drawing.y(mark.fromTipMm);
  const { ink, halo } = colours(look, mark);
  const text = quantityText(quantity, mark.valueMm, look);
  const size = fontSize * (isPale(mark) ? PALE_SIZE : 1) * (text.length >= LONG.from ? LONG.size : 1);
  const radius = fontSize * 0.98;
  const marked = Boolean(mark.odd) || mark.nearFloor === true;
  const moved = Math.abs(y - trueY) > fontSize * LEADER_FROM;
  return svg`<g role="gridcell" id=${`station-${index}`} tabindex=${index === look.current ? 0 : -1}
      aria-label=${markWords(mark, quantity, look)}>
    ${moved ? svg`<path class="leader" d=${`M${x} ${trueY}V${y}`}></path>` : nothing}
    ${marked ? svg`<path class="lozenge-halo" d=${lozenge(x, y, radius)}></path>` : nothing}
    <rect class="focus-ring" x=${x - 1.25 * fontSize} y=${y - 0.75 * fontSize} width=${2.5 * fontSize}
      height=${1.5 * fontSize} rx="3"></rect>
    <text class=${mark.older ? 'older' : ''} x=${x} y=${y} font-size=${size} fill=${ink} stroke=${halo}
      aria-hidden="true">${text}</text>
    ${marked ? svg`<path class="lozenge" d=${lozenge(x, y, radius)}></path>` : nothing}
  </g>`;
}

/** Rows from the tip, each with its height; rows closer than a figure is high are parted as little as that takes. */
function rowsAndHeights({ drawing, data, fontSize }: Pick<StationLook, 'drawing' | 'data' | 'fontSize'>) {
  const rows = rowsOf(data.marks);
  const ys = spread(
    rows.map((row) => drawing.y(row[0]!.mark.fromTipMm)),
    fontSize * ROW_GAP,
    drawing.y(0) + fontSize * FIRST_ROW,
  );
  return rows.map((row, r) => ({ row, y: ys[r]! }));
}

/** The boxes that the numbers on the wood stand in. */
export function stationBoxes(look: Omit<StationLook, 'numbersOnly' | 'current'>): Box[] {
  const { drawing, quantity, fontSize } = look;
  return rowsAndHeights(look).flatMap(({ row, y }) =>
    row.map(({ mark }) =>
      textBox(
        quantityText(quantity, mark.valueMm, look),
        [drawing.x(mark.fromTipMm, mark.across), y],
        fontSize,
      ),
    ),
  );
}

/** The numbers on the wood, in rows from the tip. */
export function stationLayer(look: StationLook): SVGTemplateResult[] {
  return rowsAndHeights(look).map(
    ({ row, y }) => svg`<g role="row">${row.map(({ mark, index }) => station(look, mark, index, y))}</g>`,
  );
}
