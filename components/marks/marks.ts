import { svg, type SVGTemplateResult } from 'lit';
import type { ScaleLinear } from 'd3-scale';

export type Scale = ScaleLinear<number, number>;

/**
 * The marks that stand on charts, with one meaning wherever they stand: filled is there, hollow is not, is not sure or is
 * to come. Styles: marks.styles.ts.
 *
 * - `read`: a pass that was read; `knife`: the knife, not read; `trial`; `clip`
 * - `sure`: a figure, an ending; `unsure`: inside its doubt, still going on, or to come
 * - `over`: over a limit by more than its doubt, or odd; `near`: over it, inside its doubt
 */
const GLYPHS = {
  read: svg`<circle r="5.6"></circle><circle class="full" r="3"></circle>`,
  knife: svg`<circle r="4.6"></circle>`,
  trial: svg`<path class="full" d="M0 -4.6L4.6 3.6H-4.6Z"></path>`,
  clip: svg`<path d="M-5 6L-1 -6M1 6L5 -6"></path>`,
  sure: svg`<circle class="full" r="3.6"></circle>`,
  unsure: svg`<circle r="5"></circle>`,
  over: svg`<path class="odd full" d="M0 -6.5L6.5 0L0 6.5L-6.5 0Z"></path>`,
  near: svg`<path class="odd" d="M0 -6L6 0L0 6L-6 0Z"></path>`,
} as const;
export type MarkKind = keyof typeof GLYPHS;

/** @param size Of its usual size: smaller where many stand together. */
export function mark(kind: MarkKind, x: number, y: number, size = 1): SVGTemplateResult {
  const place = `translate(${x.toFixed(1)} ${y.toFixed(1)})`;
  return svg`<g class="mark" transform=${size === 1 ? place : `${place} scale(${size})`}>${GLYPHS[kind]}</g>`;
}

/** The 95 % doubt of a figure, upright, with feet. */
export function whisker(x: number, low: number, high: number): SVGTemplateResult {
  return svg`<path class="whisker" d=${`M${x} ${low}V${high}M${x - 3} ${low}h6M${x - 3} ${high}h6`}></path>`;
}

/** What every chart may fill with: doubt is dots on bare paper. Ids are each shadow's own. */
export const textures = svg`<defs>
  <pattern id="doubt" width="6" height="6" patternUnits="userSpaceOnUse">
    <circle class="speck" cx="1.5" cy="1.5" r="0.9"></circle><circle class="speck" cx="4.5" cy="4.5" r="0.9"></circle>
  </pattern>
  <pattern id="more" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
    <path class="more" d="M3.5 0V7"></path>
  </pattern>
  <pattern id="less" width="8" height="8" patternUnits="userSpaceOnUse">
    <circle class="less" cx="4" cy="4" r="2"></circle>
  </pattern>
  <pattern id="upright" width="5" height="5" patternUnits="userSpaceOnUse">
    <path class="upright" d="M2.5 0V5"></path>
  </pattern>
</defs>`;
