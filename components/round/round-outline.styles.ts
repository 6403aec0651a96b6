import { css } from 'lit';

/** The picture of the blade being read. */
export const outlineStyles = css`
  .outline svg {
    display: block;
    width: 100%;
    max-height: calc(100vh - 150px);
  }
  .outline .blade {
    stroke: var(--bench-ink);
    stroke-width: 1.6;
    fill: none;
  }
  .outline .thread,
  .outline .tick {
    stroke: var(--bench-ink2);
    stroke-width: 1.2;
    fill: none;
  }
  .outline text {
    fill: var(--bench-ink2);
    font-size: 15px;
  }
  .outline .name {
    fill: var(--bench-ink);
    font-family: var(--bench-serif);
    font-size: 30px;
    text-anchor: middle;
  }
  .outline .side-1,
  .outline .next {
    fill: var(--bench-ink);
    stroke: var(--bench-plate);
    stroke-width: 2.4;
  }
  .outline .next-ring {
    fill: var(--bench-plate);
    stroke: var(--bench-ink);
    stroke-width: 2.4;
  }
  .outline .older {
    fill: var(--bench-ink3);
    font-size: 12px;
    font-style: italic;
    text-anchor: middle;
  }
  .outline .cursor {
    stroke: var(--bench-focus);
    stroke-width: 3;
    fill: none;
  }
  .outline polyline {
    fill: none;
    stroke: var(--bench-ink2);
    stroke-width: 1.1;
  }
  .outline .to-go {
    stroke: var(--bench-ink3);
    stroke-dasharray: 2 4;
  }
  .outline circle.to-come {
    fill: var(--bench-ink3);
  }
  .outline circle.taken,
  .outline circle.waiting,
  .outline circle.skipped {
    fill: none;
  }
  .outline .number {
    fill: var(--bench-ink);
    stroke: var(--bench-plate);
    stroke-width: 7px;
    font-size: 16px;
    text-anchor: middle;
    paint-order: stroke;
  }
  .outline .number.small {
    stroke-width: 4px;
    font-size: 13px;
  }
  .outline .number.waiting {
    fill: var(--bench-ink3);
    font-style: italic;
  }
  .outline .lozenge {
    width: auto;
    height: auto;
    stroke-width: 2.4;
    fill: var(--bench-plate);
  }
  .outline .skip {
    stroke: var(--bench-ink2);
    stroke-width: 1.6;
  }

  @media (forced-colors: active) {
    .outline .lozenge {
      stroke: CanvasText;
    }
  }
`;
