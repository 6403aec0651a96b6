import { css } from 'lit';

/** How marks, axes, bands, cards and keys of charts look. With `base` and `tables`. */
export const marks = css`
  svg {
    display: block;
    max-width: 100%;
    overflow: visible;
    fill: none;
  }
  text {
    fill: var(--bench-ink2);
    font: 12.5px var(--bench-sans);
    dominant-baseline: central;
  }
  text.reed {
    fill: var(--bench-ink);
    font: 17px var(--bench-serif);
  }
  text.strong {
    fill: var(--bench-ink);
    font-weight: 600;
  }
  text.large {
    fill: var(--bench-ink);
    font: 600 22px var(--bench-sans);
  }
  text.say {
    fill: var(--bench-ink2);
    font: 17px var(--bench-serif);
  }
  .haloed {
    stroke: var(--bench-plate);
    stroke-width: 4;
    stroke-linejoin: round;
    paint-order: stroke;
  }
  .hair {
    stroke: var(--bench-rule);
  }
  .rule {
    stroke: var(--bench-rule2);
  }
  .line {
    stroke: var(--bench-ink);
    stroke-width: 2;
    stroke-linejoin: round;
  }
  .line.cane {
    stroke: light-dark(var(--bench-thickness-24), var(--bench-thickness-12));
    stroke-width: 2.6;
  }
  .line.ahead,
  .line.limit {
    stroke-dasharray: 1.5 4;
    stroke-width: 1.8;
  }
  .line.thin {
    stroke-width: 1;
  }
  .line.dashed {
    stroke-dasharray: 5 3.5;
    stroke-width: 1.5;
  }
  .usual {
    fill: var(--bench-sunk);
  }
  .doubtful {
    fill: url(#doubt);
  }
  .speck {
    fill: var(--bench-ink);
    fill-opacity: 0.34;
  }
  .more {
    stroke: var(--bench-excess);
    stroke-width: 3;
  }
  .less {
    stroke: var(--bench-lack);
    stroke-width: 1.4;
  }
  .favourites {
    fill: var(--bench-favourite);
    fill-opacity: 0.14;
  }
  .upright {
    stroke: var(--bench-favourite);
    stroke-width: 0.8;
  }
  .mark > * {
    fill: var(--bench-plate);
    stroke: var(--bench-ink);
    stroke-width: 1.5;
  }
  .mark > .full {
    fill: var(--bench-ink);
    stroke: none;
  }
  .mark > .odd {
    stroke: var(--bench-excess);
    stroke-width: 1.8;
  }
  .mark > .odd.full {
    fill: var(--bench-excess);
  }
  .whisker {
    stroke: var(--bench-ink2);
    stroke-width: 1.2;
  }
  .stop {
    outline: none;
    cursor: pointer;
  }
  .ring {
    fill: transparent;
  }
  .stop:focus-visible .ring {
    stroke: var(--bench-focus);
    stroke-width: 3;
  }
  .card rect {
    fill: var(--bench-plate);
    stroke: var(--bench-ink);
  }
  .card text {
    fill: var(--bench-ink);
  }
  .card .name {
    font: 16px var(--bench-serif);
  }
  .plate {
    grid-template-columns: minmax(0, 1fr);
    min-width: 0;
    padding: var(--bench-space-3) var(--bench-space-4);
    border: 1px solid var(--bench-rule);
    border-radius: var(--bench-radius-plate);
    background: var(--bench-plate);
  }
  .plate h2 {
    margin: 0;
    font: var(--bench-font-head);
  }
  .key {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--bench-space-4);
    margin: var(--bench-space-1) 0 0;
    padding: 0;
    list-style: none;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .key li {
    display: flex;
    gap: var(--bench-space-1);
    align-items: center;
  }
  .twin {
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .twin summary {
    width: fit-content;
  }
  .twin .scroll {
    overflow-x: auto;
  }
  @media (forced-colors: active) {
    .stop:focus-visible .ring {
      stroke: Highlight;
    }
  }
`;
