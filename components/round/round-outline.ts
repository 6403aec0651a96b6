import { html, nothing, svg } from 'lit';
import { classMap } from 'lit/directives/class-map.js';
import type { Blade } from '../../shared/blade.ts';
import { dotSide } from '../../src/round/place-words.ts';
import type { OnBlade } from '../../src/round/snap-place.ts';

/** How a station stands in the round. */
export interface OutlineStation {
  readonly key: string;
  readonly fromTipMm: number;
  readonly across: number;
  /** The value read, as it is written; absent where there is none. */
  readonly text?: string;
  readonly is: 'to-come' | 'waiting' | 'taken' | 'skipped';
  readonly isOdd: boolean;
  readonly isUnsure: boolean;
}

/** What an earlier pass read at a place that this round does not ask for. */
export interface OlderFigure extends OnBlade {
  readonly text: string;
  /** When it was read, in words. */
  readonly since: string;
}

/** What the picture of the blade being read shows. */
export interface Outline {
  readonly blade: Blade;
  /** In the order of going. */
  readonly stations: readonly OutlineStation[];
  /** Number of the station to be read next, where it lies on this blade. */
  readonly next?: number;
  readonly older?: readonly OlderFigure[];
  /** Where the keys stand in a picture that is walked over. */
  readonly cursor?: OnBlade;
  readonly bladeLengthMm: number;
  readonly halfWidthMm: (fromTipMm: number) => number;
  /** What the picture shows, in words. */
  readonly label: string;
  /** Shows only a part of the blade: its nearest and farthest distance from the tip, mm. */
  readonly part?: readonly [fromMm: number, toMm: number];
}

const PER_MM = 28;
/** Width is drawn larger than length, so that two digits fit. */
const ACROSS_PER_MM = PER_MM * 1.55;
const TOP = 62;
const MIDDLE = 232;
const WIDTH = 400;
const THREAD = 30;
const BELOW = 26;
/** Numbers of rows nearer than this are written smaller. */
const CLOSE_ROWS_MM = 0.75;

const y = (fromTipMm: number) => TOP + fromTipMm * PER_MM;

function edge({ bladeLengthMm, halfWidthMm }: Outline, side: -1 | 1) {
  const steps = Array.from({ length: 41 }, (_, i) => (bladeLengthMm * i) / 40);
  return steps.map(
    (mm) => `${(MIDDLE + side * halfWidthMm(mm) * ACROSS_PER_MM).toFixed(1)} ${y(mm).toFixed(1)}`,
  );
}

function blade(outline: Outline) {
  const right = edge(outline, 1);
  return svg`<path class="blade" d="M${[...edge(outline, -1), ...right.reverse()].join('L')}Z" />`;
}

function thread({ blade: name, bladeLengthMm, halfWidthMm }: Outline) {
  const half = halfWidthMm(bladeLengthMm) * ACROSS_PER_MM;
  const [left, right, top] = [MIDDLE - half - 2, MIDDLE + half + 2, y(bladeLengthMm)];
  const side = dotSide(name) === 'left' ? -1 : 1;
  const word = side < 0 ? { x: left - 8, anchor: 'end' } : { x: right + 8, anchor: 'start' };
  return svg`
    ${[5, 10, 15, 20, 25, 30].map(
      (down) =>
        svg`<path class="thread" d="M${left} ${top + down}Q${MIDDLE} ${top + down + 2} ${right} ${top + down}" />`,
    )}
    <circle class="side-1" cx=${MIDDLE + side * (half - 8)} cy=${top + 19} r="5.5" />
    <text class="word" x=${word.x} y=${top + 23} text-anchor=${word.anchor}>side 1</text>`;
}

function scale({ bladeLengthMm }: Outline) {
  const ticks = Array.from({ length: Math.floor(bladeLengthMm) + 1 }, (_, mm) => mm);
  return ticks.map((mm) => {
    const long = mm % 5 === 0;
    return svg`<path class="tick" d="M${long ? 52 : 56} ${y(mm)}H60" />
      ${long ? svg`<text class="word" x="46" y=${y(mm) + 4.5} text-anchor="end">${mm}</text>` : nothing}`;
  });
}

type Placed = OutlineStation & { readonly x: number; readonly y: number; readonly small: boolean };

function placed({ stations, halfWidthMm }: Outline): Placed[] {
  const rows = [...new Set(stations.map(({ fromTipMm }) => fromTipMm))];
  const isClose = (mm: number) => rows.some((row) => row !== mm && Math.abs(row - mm) < CLOSE_ROWS_MM);
  return stations.map((station) => ({
    ...station,
    x: MIDDLE + station.across * halfWidthMm(station.fromTipMm) * ACROSS_PER_MM,
    y: y(station.fromTipMm),
    small: isClose(station.fromTipMm),
  }));
}

const line = (points: readonly Placed[]) =>
  points.map((point) => `${point.x.toFixed(1)},${point.y.toFixed(1)}`).join(' ');

function path(points: readonly Placed[], next: number | undefined) {
  const split = next ?? points.length;
  return svg`<polyline class="done" points=${line(points.slice(0, split + 1))} />
    <polyline class="to-go" points=${line(points.slice(split))} />`;
}

function lozenge({ x, y: at }: Placed) {
  return svg`<path class="lozenge" d="M${x} ${at - 20}l20 20l-20 20l-20 -20Z" />`;
}

function mark(point: Placed) {
  const { key, is, isOdd, isUnsure, text, x, y: at, small } = point;
  const classes = classMap({ number: true, small, waiting: is === 'waiting' });
  return svg`<g data-key=${key} data-is=${is}>
    ${isOdd ? lozenge(point) : nothing}
    <circle class=${is} cx=${x} cy=${at} r="2.6" />
    ${text === undefined ? nothing : svg`<text class=${classes} x=${x} y=${at + (small ? 4 : 5.5)}>${text}${isUnsure ? '?' : ''}</text>`}
    ${is === 'skipped' ? svg`<path class="skip" d="M${x - 5} ${at - 5}l10 10m0 -10l-10 10" />` : nothing}
  </g>`;
}

const across = ({ halfWidthMm }: Outline, place: OnBlade) =>
  MIDDLE + place.across * halfWidthMm(place.fromTipMm) * ACROSS_PER_MM;

function olderMarks(outline: Outline) {
  return (outline.older ?? []).map(
    (place) =>
      svg`<text class="older" x=${across(outline, place)} y=${y(place.fromTipMm) + 4}><title>${place.since}</title>${place.text}</text>`,
  );
}

function cursorMark(outline: Outline) {
  if (!outline.cursor) return nothing;
  const [x, at] = [across(outline, outline.cursor), y(outline.cursor.fromTipMm)];
  return svg`<path class="cursor" d="M${x - 16} ${at}h10m12 0h10M${x} ${at - 16}v10m0 12v10" />`;
}

function nextMark({ x, y: at }: Placed) {
  return svg`<circle class="next-ring" cx=${x} cy=${at} r="14.5" /><circle class="next" cx=${x} cy=${at} r="8.5" />`;
}

function viewBox({ bladeLengthMm, part }: Outline): string {
  if (!part) return `0 0 ${WIDTH} ${y(bladeLengthMm) + THREAD + BELOW}`;
  return `0 ${y(part[0])} ${WIDTH} ${(part[1] - part[0]) * PER_MM}`;
}

/** The blade being read: outline, path, what was taken and what is to come, the next station and the dot of side 1. */
export function roundOutline(outline: Outline) {
  const points = placed(outline);
  const next = outline.next === undefined || outline.part ? undefined : points[outline.next];
  return html`<svg viewBox=${viewBox(outline)} role="img" aria-label=${outline.label}>
    <text class="name" x=${MIDDLE} y="36">${outline.blade}</text>
    ${scale(outline)} ${blade(outline)} ${thread(outline)} ${olderMarks(outline)}
    ${path(points, outline.next)} ${points.map(mark)} ${next ? nextMark(next) : nothing}
    ${cursorMark(outline)}
  </svg>`;
}

/** Where on the blade a pointer stands; it may lie beyond the edge. */
export function placeUnder(
  svgElement: SVGSVGElement,
  { halfWidthMm }: Pick<Outline, 'halfWidthMm'>,
  event: MouseEvent,
): OnBlade {
  const matrix = svgElement.getScreenCTM()!.inverse();
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
  const fromTipMm = (point.y - TOP) / PER_MM;
  return { fromTipMm, across: (point.x - MIDDLE) / (halfWidthMm(Math.max(0, fromTipMm)) * ACROSS_PER_MM) };
}
