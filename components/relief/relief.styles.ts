import { css } from 'lit';

export const styles = css`
  :host {
    position: relative;
    height: 100%;
    min-height: 120px;
  }
  .frame {
    position: absolute;
    inset: 0;
    overflow: hidden;
  }
  canvas {
    display: block;
    width: 100%;
    height: 100%;
    touch-action: pan-y;
    cursor: grab;
  }
  canvas:active {
    cursor: grabbing;
  }
  .labels span {
    position: absolute;
    top: 0;
    left: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
    pointer-events: none;
    white-space: nowrap;
    will-change: transform;
  }
  .labels i {
    display: block;
    font-style: normal;
    transform: translate(-50%, -50%);
  }
  .labels .name i {
    display: var(--bench-relief-name, block);
    color: var(--bench-ink);
    font: 400 26px var(--bench-serif);
    transform: translate(-50%, -50%);
  }
  .labels .distance i {
    display: var(--bench-relief-distance, block);
  }
  .labels .side i {
    display: var(--bench-relief-name, block);
  }
  @container (max-width: 459px) {
    .labels .side i {
      width: min-content;
      line-height: 1.1;
      text-align: center;
      white-space: normal;
    }
  }
  .labels .corner i {
    color: var(--bench-ink);
  }
  .labels .reading i,
  .labels .spare i,
  .labels .mark i {
    color: var(--on-wood);
    font: 500 13px var(--bench-sans);
    text-shadow:
      0 0 2px var(--wood),
      0 0 2px var(--wood),
      0 0 3px var(--wood);
  }
  .labels .dot i {
    width: 3px;
    height: 3px;
    overflow: hidden;
    border-radius: 50%;
    background: var(--on-wood);
    color: transparent;
    text-shadow: none;
  }
  .labels .difference i {
    color: var(--bench-excess);
    font: 600 15px var(--bench-sans);
    text-shadow:
      0 0 3px var(--bench-plate),
      0 0 3px var(--bench-plate),
      0 0 4px var(--bench-plate);
  }
  .labels .less i {
    color: var(--bench-lack);
  }
  .labels .difference.dot {
    visibility: hidden;
  }
  .labels .mark i {
    position: relative;
    display: grid;
    place-items: center;
    width: 28px;
    height: 28px;
    color: var(--bench-ink);
    text-shadow: none;
  }
  .labels .mark i::before {
    position: absolute;
    z-index: -1;
    inset: 4px;
    border: 2px solid var(--bench-excess);
    outline: 2px solid var(--bench-plate);
    background: var(--bench-plate);
    content: '';
    rotate: 45deg;
  }
  .turned {
    position: absolute;
    right: 0;
    bottom: 0;
    left: 0;
    margin: 0;
    color: var(--bench-ink);
    font: var(--bench-font-caption);
    text-align: center;
  }
  @media (forced-colors: active) {
    .frame {
      border: 1px solid CanvasText;
    }
    /* Shadows of letters are taken away: figures get a ground. */
    .labels span:not(.dot) i {
      background: Canvas;
      color: CanvasText;
    }
  }
`;
