import { svg, type SVGTemplateResult } from 'lit';
import type { Stop } from './mark-walk.ts';

const LINE_PX = 19;
const CHARACTER_PX = 6.7;
const EDGE_PX = 12;

/** The card of a mark, beside it and within the drawing: its name, then what is known of it. */
export function markCard(
  { x, y, lines }: Stop,
  bounds: { readonly width: number; readonly height: number },
): SVGTemplateResult {
  const width = Math.min(
    bounds.width - 8,
    Math.max(...lines.map((line) => line.length)) * CHARACTER_PX + 2 * EDGE_PX,
  );
  const height = lines.length * LINE_PX + EDGE_PX;
  const left = x + 16 + width < bounds.width ? x + 16 : Math.max(4, x - 16 - width);
  const top = Math.max(4, Math.min(y + 12, bounds.height - height - 4));
  return svg`<g class="card" aria-hidden="true">
    <rect x=${left} y=${top} width=${width} height=${height} rx="3"></rect>
    ${lines.map(
      (line, k) => svg`<text class=${k === 0 ? 'name' : ''} x=${left + EDGE_PX} y=${top + 15 + k * LINE_PX}
        >${line}</text>`,
    )}</g>`;
}
