import { scaleLinear } from 'd3-scale';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { WishedGouge } from '../../shared/settings.ts';
import type { PieceColumn } from '../../src/cane/lot-pieces.ts';
import { unbroken } from '../bench/question-element.ts';
import { bandColour } from '../map/colour-layer.ts';

/** Where the rows of a lot stand, CSS pixels from the top of its picture, and its height. */
export const ROWS = { centre: [10, 70], sides: [84, 156], cut: [172, 242], fate: 258 } as const;
export const HEIGHT = 312;
/** The cut is shown from this thickness. */
export const SHOWN_FROM_MM = 0.3;
const STRIPS = 7;

/** A piece as its column of the lot: the cut across, its number or its reed, why it was thrown, what became of it. */
export function pieceColumn(
  one: PieceColumn,
  { middle, pitch }: { readonly middle: number; readonly pitch: number },
  wished: WishedGouge,
): SVGTemplateResult {
  const { piece, fate, reed } = one;
  const half = Math.min(24, pitch * 0.38);
  const wide = pitch > 52;
  const name = reed && wide ? unbroken(reed.label) : String(piece.number);
  return svg`<rect class="ring" x=${middle - pitch / 2} y="0" width=${pitch} height=${HEIGHT}></rect>
    ${cut(one, middle, half, wished)}
    <text class=${reed && wide ? 'reed' : 'strong'} x=${middle} y=${ROWS.fate + 6} text-anchor="middle">${name}</text>
    ${wide ? svg`<text x=${middle} y=${ROWS.fate + 24} text-anchor="middle">${reed ? `piece ${piece.number}` : wholeWords(piece.reason ?? '', pitch / 6.4)}</text>` : nothing}
    ${fateMark(fate, middle, half, ROWS.fate + 44)}`;
}

function cut({ centre, sides }: PieceColumn, middle: number, half: number, wished: WishedGouge) {
  if (!centre || !sides) return nothing;
  const y = scaleLinear([SHOWN_FROM_MM, 0.64], ROWS.cut);
  const found = parabola(sides.side1Mm, centre.valueMm, sides.side2Mm);
  const want = parabola(wished.sideMm, wished.centreMm, wished.sideMm);
  const path = (at: (share: number) => number) =>
    Array.from({ length: 17 }, (_, k) => {
      const share = k / 8 - 1;
      return `${k ? 'L' : 'M'}${(middle + share * half).toFixed(1)} ${y(at(share)).toFixed(1)}`;
    }).join('');
  return svg`<g class="cane">${Array.from({ length: STRIPS }, (_, k) => {
    const [from, to] = [(2 * k) / STRIPS - 1, (2 * (k + 1)) / STRIPS - 1];
    const mm = found((from + to) / 2);
    return svg`<path fill=${bandColour('thickness', mm)} d=${`M${middle + from * half} ${ROWS.cut[0]}H${middle + to * half}V${y(found(to))}L${middle + from * half} ${y(found(from))}Z`}></path>`;
  })}</g>
    <path class="line dashed" d=${path(want)}></path><path class="cut" d=${path(found)}></path>`;
}

/** As many whole words as have room for their letters. */
function wholeWords(text: string, letters: number): string {
  const parts = text.split(' ');
  while (parts.join(' ').length > letters) parts.pop();
  return parts.join(' ');
}

/** A curve through both sides and the middle, over a share of the half-width. */
function parabola(side1: number, middle: number, side2: number) {
  const [tilt, bend] = [(side2 - side1) / 2, (side1 + side2) / 2 - middle];
  return (share: number) => middle + tilt * share + bend * share * share;
}

function fateMark(fate: PieceColumn['fate'], middle: number, half: number, y: number) {
  if (fate === 'not judged') return nothing;
  if (fate === 'thrown')
    return svg`<path class="outline" d=${`M${middle - half} ${y}H${middle + half}M${middle - 5} ${y + 5}L${middle + 5} ${y - 5}`}></path>`;
  const name = { 'in the drawer': 'drawer', alive: 'solid', blank: 'outline dashed', ended: 'outline' }[fate];
  return svg`<path class=${name} d=${`M${middle - half} ${y - 4}H${middle - half / 3}L${middle + half} ${y - 6}V${y + 6}L${middle - half / 3} ${y + 4}H${middle - half}Z`}></path>`;
}
