import { css } from 'lit';

export const styles = css`
  .frame {
    position: relative;
    overflow: hidden;
  }
  canvas {
    display: block;
    width: 100%;
    aspect-ratio: 4 / 3;
    touch-action: pan-y;
    cursor: grab;
  }
  .labels span {
    position: absolute;
    top: var(--top);
    left: var(--left);
    padding: 0 2px;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
    pointer-events: none;
    text-shadow:
      0 0 3px var(--bench-paper),
      0 0 3px var(--bench-paper);
    transform: translate(8px, -20%);
  }
  .labels .name {
    color: var(--bench-ink);
    font: 400 20px var(--bench-serif);
    transform: translate(-50%, -105%);
  }
  .labels .level {
    color: var(--bench-ink);
    font-size: 11px;
    transform: translate(-50%, -50%);
  }
  summary {
    width: fit-content;
    min-height: 24px;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
    cursor: pointer;
  }
  .controls {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
    margin-top: var(--bench-space-2);
  }
  .controls button {
    min-width: var(--bench-touch);
    padding-inline: var(--bench-space-2);
    font: var(--bench-font-caption);
  }
  @media (forced-colors: active) {
    .frame {
      border: 1px solid CanvasText;
    }
  }
`;
