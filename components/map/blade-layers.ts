import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { Blade } from '../../shared/blade.ts';
import { plainText, type NumberFormat } from '../../src/words/format.ts';
import { outlinePath, placesPath, side1Of, WIDTH_FACTOR, type BladeDrawing } from './blade-drawing.ts';
import { fieldPath } from './colour-layer.ts';
import type { BladeMapData, MapRoute, MapZone, OutlinePoint } from './map-data.ts';

/**
 * Textures that carry a meaning without colour: dots for doubt, hatching for more, rings for less, uprights for variety, a
 * crossing hatch over the rest of a patch, level lines over a whole zone, dashes beyond the outermost readings.
 */
export const PATTERNS = svg`
  <pattern id="dots" width="6" height="6" patternUnits="userSpaceOnUse">
    <circle class="dot" cx="1.5" cy="1.5" r="0.7"></circle><circle class="dot" cx="4.5" cy="4.5" r="0.7"></circle>
  </pattern>
  <pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
    <path class="hatch" d="M0 0V7"></path>
  </pattern>
  <pattern id="variety" width="5" height="5" patternUnits="userSpaceOnUse">
    <path class="upright" d="M2.5 0V5"></path>
  </pattern>
  <pattern id="between" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
    <path class="between" d="M0 0V6"></path>
  </pattern>
  <pattern id="whole" width="8" height="6" patternUnits="userSpaceOnUse">
    <path class="level" d="M0 3H8"></path>
  </pattern>
  <pattern id="beyond" width="9" height="10" patternUnits="userSpaceOnUse">
    <path class="dash" d="M0 2.5H5M4.5 7.5H9"></path>
  </pattern>
  <pattern id="rings" width="8" height="8" patternUnits="userSpaceOnUse">
    <circle class="ring-mark" cx="4" cy="4" r="2"></circle>
  </pattern>`;

const LABEL_EACH_MM = 5;

/** Where the long ticks of the distances begin and end, and the short ones, from the picture's outer edge. */
const TICKS = { long: [20, 29], short: [23, 28], label: 16 } as const;

/** Millimetres from the tip, on the outer side of the blade. */
export function scaleLayer(drawing: BladeDrawing): SVGTemplateResult {
  const ticks = Array.from({ length: Math.floor(drawing.lengthMm + 1e-6) + 1 }, (_, mm) => mm);
  const x = (fromEdge: number) => (drawing.outer < 0 ? fromEdge : drawing.width - fromEdge);
  const path = ticks
    .map((mm) => {
      const [from, to] = mm % LABEL_EACH_MM === 0 ? TICKS.long : TICKS.short;
      return `M${x(from)} ${drawing.y(mm)}H${x(to)}`;
    })
    .join('');
  const anchor = drawing.outer < 0 ? 'end' : 'start';
  const labels = ticks.filter((mm) => mm % LABEL_EACH_MM === 0);
  return svg`<g class="scale" aria-hidden="true"><path d=${path}></path>
    ${labels.map((mm) => svg`<text x=${x(TICKS.label)} y=${drawing.y(mm)} text-anchor=${anchor}>${mm}</text>`)}</g>`;
}

/** Turns of thread that are drawn and the distance between them; fewer and wider where the whole picture is small. */
const THREAD = { usual: { turns: 6, step: 4.2, dot: 4 }, small: { turns: 4, step: 8, dot: 7 } };

/** The thread under the blade, with the dot that marks side 1. */
export function threadLayer(drawing: BladeDrawing, blade: Blade, bladeLengthMm: number, isSmall: boolean) {
  const { turns: count, step, dot } = isSmall ? THREAD.small : THREAD.usual;
  const top = drawing.y(bladeLengthMm) + 3;
  const half = drawing.x(bladeLengthMm, 1) - drawing.centre + 1;
  const [left, right] = [drawing.centre - half, drawing.centre + half];
  const turns = Array.from({ length: count }, (_, k) => {
    const y = top + k * step;
    return `M${left} ${y}Q${drawing.centre} ${y + 1.6} ${right} ${y - 0.6}`;
  }).join('');
  const side = side1Of(blade);
  const dotY = top + ((count - 1) * step) / 2;
  const dotX = drawing.centre + side * (half - dot - 3);
  return svg`<g class="thread" aria-hidden="true"><path d=${turns}></path>
    <circle class="side-1" cx=${dotX} cy=${dotY} r=${dot}></circle>
    ${
      isSmall
        ? nothing
        : svg`<text x=${drawing.centre + side * (half + 6)} y=${dotY} text-anchor=${side < 0 ? 'end' : 'start'}
            >side 1</text>`
    }</g>`;
}

/** The staple's end under the thread, where a blade is drawn as a whole reed. */
export function stapleLayer(drawing: BladeDrawing, bladeLengthMm: number): SVGTemplateResult {
  const top = drawing.y(bladeLengthMm) + 3 + THREAD.small.turns * THREAD.small.step;
  const half = drawing.x(bladeLengthMm, 1) - drawing.centre + 4;
  const [left, right] = [drawing.centre - half, drawing.centre + half];
  const teeth = [1, 2, 3, 4, 5]
    .map((k) => `L${right - (k * 2 * half) / 6} ${top + (k % 2 ? 40 : 48)}`)
    .join('');
  return svg`<path class="staple" d=${`M${left} ${top + 46}V${top + 6}Q${left} ${top} ${left + 6} ${top}
    H${right - 6}Q${right} ${top} ${right} ${top + 6}V${top + 46}${teeth}Z`}></path>`;
}

/** Cane that a clip took away, as a dotted rim above the tip. */
export function rimLayer(drawing: BladeDrawing, clippedMm: number): SVGTemplateResult {
  const [left, right] = [drawing.x(0, -1), drawing.x(0, 1)];
  return svg`<path class="rim" d=${`M${left} ${drawing.y(0)}V${drawing.y(-clippedMm)}H${right}V${drawing.y(0)}`}></path>`;
}

export function zonesLayer(drawing: BladeDrawing, zones: readonly MapZone[]): SVGTemplateResult[] {
  return zones.flatMap(({ segments }) =>
    segments.map(({ hangsFrom, points }) => {
      const path = placesPath(drawing, points);
      return svg`<path class="zone-halo" d=${path}></path><path class=${`zone ${hangsFrom}`} d=${path}></path>`;
    }),
  );
}

export function strokesLayer(drawing: BladeDrawing, outlines: readonly (readonly OutlinePoint[])[]) {
  return outlines.map((outline) => {
    const path = placesPath(drawing, outline, true);
    return svg`<path class="strokes-halo" d=${path}></path><path class="strokes" d=${path}></path>`;
  });
}

/** The way of a round: solid behind, dotted ahead, a large dot in a ring at the station that is next. */
export function routeLayer(drawing: BladeDrawing, { done, next, toGo }: MapRoute): SVGTemplateResult {
  const at = ({ fromTipMm, across }: OutlinePoint) =>
    [drawing.x(fromTipMm, across), drawing.y(fromTipMm)] as const;
  const here = next ? [next] : [];
  return svg`<g class="route" aria-hidden="true">
    <path class="done" d=${placesPath(drawing, [...done, ...here])}></path>
    <path class="ahead" d=${placesPath(drawing, [...here, ...toGo])}></path>
    ${toGo.map(at).map(([x, y]) => svg`<circle class="to-go" cx=${x} cy=${y} r="2.2"></circle>`)}
    ${here.map(at).map(
      ([x, y]) => svg`<circle class="next-halo" cx=${x} cy=${y} r="13"></circle>
        <circle class="next-ring" cx=${x} cy=${y} r="11"></circle><circle class="next" cx=${x} cy=${y} r="6.5"></circle>`,
    )}</g>`;
}

/** Level lines over zones that surely lost cane as wholes. */
export function lostZonesLayer(drawing: BladeDrawing, zones: readonly MapZone[]): SVGTemplateResult[] {
  return zones
    .filter(({ isLost }) => isLost)
    .flatMap(({ outlines = [] }) =>
      outlines.map(
        (outline) =>
          svg`<path class="whole" fill="url(#whole)" d=${placesPath(drawing, outline, true)}></path>`,
      ),
    );
}

/** Edges of an outline are drawn in steps of this, so that they keep their place across as the blade narrows, mm. */
const EDGE_STEP_MM = 0.5;

/** Dashes over what has a value and yet lies beyond the outermost readings; nothing where nothing is said of these. */
export function beyondLayer(drawing: BladeDrawing, data: BladeMapData): SVGTemplateResult | typeof nothing {
  const { reach, bladeLengthMm } = data;
  if (!reach) return nothing;
  const edges = reach.flatMap((from, i) => {
    const to = reach[(i + 1) % reach.length]!;
    const steps = Math.max(1, Math.ceil(Math.abs(to.fromTipMm - from.fromTipMm) / EDGE_STEP_MM));
    return Array.from({ length: steps }, (_, k) => ({
      fromTipMm: from.fromTipMm + ((to.fromTipMm - from.fromTipMm) * k) / steps,
      across: from.across + ((to.across - from.across) * k) / steps,
    }));
  });
  const d = `${outlinePath(drawing, data, bladeLengthMm)}${placesPath(drawing, edges, true)}`;
  return svg`<clipPath id="field"><path d=${fieldPath(drawing, data)}></path></clipPath>
    <g clip-path="url(#field)"><path class="beyond" fill="url(#beyond)" fill-rule="evenodd" d=${d}></path></g>`;
}

/** Where the probe rests. */
export function probeLayer(drawing: BladeDrawing, { fromTipMm, across }: OutlinePoint): SVGTemplateResult {
  const [x, y] = [drawing.x(fromTipMm, across), drawing.y(fromTipMm)];
  const path = `M${x - 11} ${y}h7m8 0h7M${x} ${y - 11}v7m0 8v7`;
  return svg`<g class="probe" aria-hidden="true"><path class="halo" d=${path}></path><path d=${path}></path></g>`;
}

export const widthNote = (writing: Pick<NumberFormat, 'decimal'>) =>
  `Width ${plainText(WIDTH_FACTOR, writing)} \u00d7`;
