import { css } from 'lit';

/** Ink of the textures in `PATTERNS`. */
export const textures = css`
  .dot {
    fill: var(--bench-ink);
    opacity: 0.22;
  }
  .hatch {
    stroke: var(--bench-ink);
    stroke-width: 1;
    opacity: 0.2;
  }
  .dash {
    stroke: var(--bench-ink);
    stroke-width: 1;
    opacity: 0.26;
  }
  .between {
    stroke: var(--bench-ink);
    stroke-width: 1.2;
    opacity: 0.4;
  }
  .level {
    stroke: var(--bench-ink);
    stroke-width: 0.9;
    opacity: 0.38;
  }
  .upright {
    stroke: var(--bench-favourite);
    stroke-width: 1;
    opacity: 0.6;
  }
  .ring-mark {
    fill: none;
    stroke: var(--bench-ink);
    stroke-width: 0.9;
    opacity: 0.42;
  }
`;

export const styles = css`
  svg {
    display: block;
    width: 100%;
    height: auto;
    overflow: visible;
    fill: none;
    touch-action: pan-y pinch-zoom;
  }
  text {
    font-family: var(--bench-sans);
    dominant-baseline: central;
  }
  .name {
    fill: var(--bench-ink);
    font: 400 24px var(--bench-serif);
    text-anchor: middle;
  }
  .scale path {
    stroke: var(--bench-rule2);
  }
  .scale text,
  .thread text {
    fill: var(--bench-ink3);
    font-size: 12.5px;
  }
  .wood {
    forced-color-adjust: none;
  }
  .wood .board {
    fill: var(--bench-plate);
  }
  .wood path[fill] {
    stroke: none;
  }
  .bands path {
    transition: opacity 120ms;
  }
  .contour {
    stroke-width: 0.6;
    opacity: 0.2;
  }
  .contour.strong {
    stroke-width: 0.9;
    opacity: 0.55;
  }
  :host([numbers-only]) .contour {
    stroke: var(--bench-ink);
  }
  .zone-names text {
    fill: var(--bench-ink2);
    stroke: var(--bench-plate);
    stroke-opacity: 0.75;
    stroke-width: 2.6;
    stroke-linejoin: round;
    paint-order: stroke;
    text-anchor: middle;
  }
  .levels {
    forced-color-adjust: none;
  }
  .levels text {
    text-anchor: middle;
    stroke-width: 3;
    stroke-linejoin: round;
    paint-order: stroke;
    fill-opacity: 0.8;
  }
  .zone {
    stroke: var(--bench-ink);
    stroke-width: 1.15;
  }
  .zone.cane {
    stroke-width: 1.1;
    stroke-dasharray: 1.2 3.4;
    stroke-linecap: round;
  }
  .zone-halo {
    stroke: light-dark(transparent, var(--bench-plate));
    stroke-width: 2.4;
    opacity: 0.32;
  }
  .outline {
    stroke: var(--bench-ink);
    stroke-width: 1.6;
  }
  /* Small pictures keep lines that can be seen. */
  :host([plain]) .outline,
  :host([plain]) .strokes,
  :host([plain]) .strokes-halo,
  :host([plain]) .thread path,
  :host([plain]) .staple {
    vector-effect: non-scaling-stroke;
  }
  :host([plain]) .outline {
    stroke-width: 1.3;
  }
  :host([plain]) .thread path {
    stroke-width: 0.9;
  }
  .outline.blank {
    fill: var(--bench-sunk);
    stroke-dasharray: 5 5;
  }
  .rim {
    stroke: var(--bench-ink);
    stroke-width: 1.2;
    stroke-dasharray: 1.5 3.5;
    stroke-linecap: round;
  }
  .thread path,
  .staple {
    stroke: var(--bench-ink2);
    stroke-width: 1.1;
  }
  .staple {
    fill: var(--bench-sunk);
    stroke: var(--bench-rule2);
  }
  .side-1 {
    fill: var(--bench-ink);
    stroke: var(--bench-plate);
    stroke-width: 3;
    paint-order: stroke;
  }
  .strokes-halo {
    stroke: var(--bench-plate);
    stroke-width: 7.4;
    stroke-linejoin: round;
  }
  .strokes {
    stroke: var(--bench-ink);
    stroke-width: 2.4;
    stroke-linejoin: round;
  }
  .stations {
    forced-color-adjust: none;
  }
  .stations text {
    text-anchor: middle;
    stroke-width: 4;
    stroke-linejoin: round;
    paint-order: stroke;
  }
  :host([quantity='difference']) .stations text {
    stroke-width: 2.6;
  }
  .stations .older {
    font-style: italic;
  }
  .lozenge {
    stroke: var(--bench-excess);
    stroke-width: 1.9;
  }
  .lozenge-halo {
    stroke: var(--bench-plate);
    stroke-width: 5.2;
  }
  .leader {
    stroke: var(--bench-ink2);
    stroke-width: 0.8;
    stroke-linecap: round;
  }
  [role='gridcell'] {
    outline: none;
    box-shadow: none;
    cursor: pointer;
  }
  .focus-ring {
    fill: none;
    stroke: none;
  }
  [role='gridcell']:focus-visible .focus-ring {
    fill: var(--bench-paper);
    stroke: var(--bench-focus);
    stroke-width: 3;
  }
  [role='gridcell']:focus-visible text {
    fill: var(--bench-ink);
    stroke: var(--bench-paper);
  }
  .route path {
    stroke: var(--bench-ink2);
    stroke-width: 1;
  }
  .route .ahead {
    stroke: var(--bench-ink3);
    stroke-dasharray: 1.2 4;
    stroke-linecap: round;
  }
  .route .to-go {
    fill: var(--bench-ink3);
  }
  .route .next,
  .route .next-ring {
    fill: var(--bench-ink);
  }
  .route .next-ring {
    fill: var(--bench-plate);
    stroke: var(--bench-ink);
    stroke-width: 2;
  }
  .route .next-halo {
    fill: var(--bench-plate);
  }
  .probe path {
    stroke: var(--bench-ink);
    stroke-width: 1.8;
  }
  .probe .halo {
    stroke: var(--bench-plate);
    stroke-width: 5;
  }
  .line path {
    stroke: var(--bench-ink);
    stroke-width: 1.6;
  }
  .line .halo {
    stroke: var(--bench-plate);
    stroke-width: 4.4;
    opacity: 0.6;
  }
  /* On the centre line, where it starts, only its grip is seen until it is taken up. */
  .line.resting:not(:hover, :focus-within) :is(.halo, .course) {
    display: none;
  }
  .line [role='slider'] {
    outline: none;
    cursor: grab;
    touch-action: none;
  }
  .line .grip {
    fill: var(--bench-ink);
    stroke: var(--bench-plate);
    stroke-width: 2;
  }
  .line .reach {
    fill: transparent;
  }
  .line [role='slider']:focus-visible .grip {
    stroke: var(--bench-focus);
    stroke-width: 3;
  }
  @media (prefers-reduced-motion: reduce) {
    .bands path {
      transition: none;
    }
  }
`;
