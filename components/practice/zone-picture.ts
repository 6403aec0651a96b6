import { css, nothing, svg } from 'lit';
import type { OutlinePoint, Zone } from '../../shared/style.ts';
import type { CornerAt, Drawn, DrawnPlace } from '../../src/blade/edit-zone.ts';
import { stationText, type NumberFormat } from '../../src/words/format.ts';

/** What a picture of zones is drawn from. */
export interface ZonePicture {
  readonly zones: readonly Zone[];
  /** The zone whose corners can be taken. */
  readonly chosen: Zone | undefined;
  readonly corner: CornerAt | undefined;
  /** A zone that is being drawn. */
  readonly drawn: Drawn | undefined;
  readonly bladeLengthMm: number;
  readonly halfWidthMm: (fromTipMm: number) => number;
  readonly writing: Pick<NumberFormat, 'decimal'>;
}

const PER_MM = 22;
/** Width is drawn larger than length, as in a round's picture. */
const ACROSS_PER_MM = PER_MM * 1.7;
const [TOP, MIDDLE, WIDTH, BELOW] = [14, 200, 360, 16];
const HANDLE = 8;
/** A finger takes a corner this far from its middle, CSS pixels. */
const REACH = 24;
const STEPS = 40;

type Blade = Pick<ZonePicture, 'bladeLengthMm' | 'halfWidthMm'>;

const at = ({ halfWidthMm }: Blade, { fromTipMm, across }: DrawnPlace) => ({
  x: MIDDLE + across * halfWidthMm(fromTipMm) * ACROSS_PER_MM,
  y: TOP + fromTipMm * PER_MM,
});

const points = (blade: Blade, outline: readonly DrawnPlace[]) =>
  outline
    .map((place) => at(blade, place))
    .map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`)
    .join(' ');

function bladePoints(blade: Blade): string {
  const down = Array.from({ length: STEPS + 1 }, (_, k) => (blade.bladeLengthMm * k) / STEPS);
  const edge = (across: number) => down.map((fromTipMm) => ({ fromTipMm, across }));
  return points(blade, [...edge(-1), ...edge(1).reverse()]);
}

/** Where on the blade a pointer stands; it may lie beyond the edge. */
export function zonePlaceUnder(
  drawing: SVGSVGElement,
  { halfWidthMm }: Blade,
  event: MouseEvent,
): DrawnPlace {
  const matrix = drawing.getScreenCTM()!.inverse();
  const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
  const fromTipMm = (y - TOP) / PER_MM;
  return { fromTipMm, across: (x - MIDDLE) / (halfWidthMm(Math.max(0, fromTipMm)) * ACROSS_PER_MM) };
}

/** The corner of a zone that a pointer means; undefined where none is within a finger's reach. */
export function cornerUnder(
  drawing: SVGSVGElement,
  blade: Blade,
  zone: Zone,
  event: MouseEvent,
): CornerAt | undefined {
  const matrix = drawing.getScreenCTM()!;
  const corners = zone.outlines.flatMap((outline, i) =>
    outline.map((place, corner) => {
      const { x, y } = at(blade, place);
      const seen = new DOMPoint(x, y).matrixTransform(matrix);
      return { outline: i, corner, away: Math.hypot(seen.x - event.clientX, seen.y - event.clientY) };
    }),
  );
  const [nearest] = corners.sort((one, other) => one.away - other.away);
  return nearest && nearest.away <= REACH ? { outline: nearest.outline, corner: nearest.corner } : undefined;
}

/** Where a corner lies, in words. */
export function cornerWords(
  { fromTipMm, across }: OutlinePoint,
  writing: Pick<NumberFormat, 'decimal'>,
): string {
  const side =
    across === 0
      ? 'in the middle'
      : `${Math.round(100 * Math.abs(across))} % out, ${across < 0 ? 'left' : 'right'}`;
  return `${stationText(fromTipMm, writing)}, ${side}`;
}

function ticks({ bladeLengthMm }: Blade) {
  return Array.from({ length: Math.floor(bladeLengthMm / 5) + 1 }, (_, k) => 5 * k).map(
    (mm) =>
      svg`<path class="tick" d="M30 ${TOP + mm * PER_MM}h8" />
        <text x="26" y=${TOP + mm * PER_MM + 5} text-anchor="end">${mm}</text>`,
  );
}

function handles(picture: ZonePicture) {
  const { chosen, corner, writing } = picture;
  return (chosen?.outlines ?? []).map((outline, i) =>
    outline.map((place, k) => {
      const { x, y } = at(picture, place);
      const isTaken = corner?.outline === i && corner.corner === k;
      return svg`<g role="button" tabindex=${isTaken || (!corner && i === 0 && k === 0) ? 0 : -1}
        data-corner=${`${i} ${k}`} aria-pressed=${isTaken ? 'true' : 'false'}
        aria-label=${`Corner ${k + 1}: ${cornerWords(place, writing)}`}>
        <circle class="reach" cx=${x} cy=${y} r=${REACH} />
        <circle class=${isTaken ? 'handle taken' : 'handle'} cx=${x} cy=${y} r=${HANDLE} />
      </g>`;
    }),
  );
}

function rectangle(picture: ZonePicture, { from, to }: Drawn) {
  const corners = [
    from,
    { fromTipMm: from.fromTipMm, across: to.across },
    to,
    { fromTipMm: to.fromTipMm, across: from.across },
  ];
  return svg`<polygon class="chosen" points=${points(picture, corners)} />`;
}

/** Zones on a blade with the style's own lengths, bark side, tip up; the chosen one with its corners. */
export function zonePicture(picture: ZonePicture) {
  const { zones, chosen, drawn, bladeLengthMm } = picture;
  return svg`<svg viewBox=${`0 0 ${WIDTH} ${TOP + bladeLengthMm * PER_MM + BELOW}`} role="group"
      aria-label="Zones on a blade, bark side, tip up">
    <polygon class="blade" points=${bladePoints(picture)} />
    ${ticks(picture)}
    ${zones.map(({ name, outlines }) =>
      name === chosen?.name
        ? nothing
        : outlines.map((outline) => svg`<polygon class="zone" points=${points(picture, outline)} />`),
    )}
    ${(chosen?.outlines ?? []).map((outline) => svg`<polygon class="chosen" points=${points(picture, outline)} />`)}
    ${drawn ? rectangle(picture, drawn) : handles(picture)}
  </svg>`;
}

export const zonePictureStyles = css`
  svg {
    display: block;
    width: 100%;
    max-width: 380px;
    max-height: 640px;
    touch-action: pan-y;
  }
  .drawing svg {
    cursor: crosshair;
    touch-action: none;
  }
  svg text {
    fill: var(--bench-ink2);
    font-size: 14px;
  }
  .tick {
    stroke: var(--bench-ink2);
  }
  .blade {
    fill: var(--bench-plate);
    stroke: var(--bench-ink);
    stroke-width: 1.6;
  }
  .zone {
    fill: none;
    stroke: var(--bench-ink3);
    stroke-width: 1.2;
    stroke-dasharray: 3 3;
  }
  .chosen {
    fill: var(--bench-sunk);
    stroke: var(--bench-ink);
    stroke-width: 2.4;
  }
  g[role='button'] {
    cursor: grab;
    outline: none;
    touch-action: none;
  }
  .reach {
    fill: transparent;
  }
  .handle {
    fill: var(--bench-plate);
    stroke: var(--bench-ink);
    stroke-width: 2;
  }
  .handle.taken {
    fill: var(--bench-ink);
  }
  g:focus-visible .handle {
    stroke: var(--bench-focus);
    stroke-width: 4;
  }
`;
