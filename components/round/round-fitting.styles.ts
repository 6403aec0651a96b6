import { css } from 'lit';

/** How the round fits smaller screens, larger text and forced colours; comes after the styles of its parts. */
export const fittingStyles = css`
  @media (max-width: 1200px) {
    .main {
      padding: var(--bench-space-4) var(--bench-space-6);
    }
    aside {
      padding: var(--bench-space-4);
    }
    .steps text {
      font-size: 27px;
    }
  }
  @media (max-width: 640px), (max-width: 900px) and (max-height: 520px) {
    .screen {
      display: block;
    }
    .main {
      position: relative;
      gap: var(--bench-space-3);
      min-height: 100vh;
      min-height: 100dvh;
      padding: var(--bench-space-2) var(--bench-page-margin) var(--bench-space-3);
    }
    aside {
      padding: 0;
      border: 0;
      background: none;
    }
    .next-place {
      display: grid;
      grid-template-columns: minmax(0, 1.5fr) minmax(0, 1fr);
    }
    .next-place .words {
      display: flex;
      flex-direction: column;
      gap: var(--bench-space-2);
    }
    .next-place .steps {
      grid-column: 1 / -1;
    }
    .where .unit {
      flex-basis: 100%;
      margin-top: var(--bench-space-3);
      font: var(--bench-font-place);
    }
    .row {
      flex-wrap: wrap;
      min-height: 64px;
    }
    .keys button {
      min-height: 92px;
      padding: var(--bench-space-1);
      text-align: center;
    }
    .keys strong {
      font-size: calc(18px * var(--bench-scale));
    }
    .keys span {
      display: none;
    }
    .steps text {
      font-size: 29px;
    }
  }
  /* Where there is one picture only: beside the next place, or in the margin. */
  .narrow-only {
    display: none;
  }
  @media (max-width: 640px), (max-width: 900px) and (max-height: 520px) {
    .narrow-only {
      display: block;
    }
    .wide-only,
    .plan {
      display: none;
    }
  }
  @media (max-width: 320px) {
    .where {
      font-size: calc(60px * var(--bench-scale));
    }
    .where .unit {
      white-space: normal;
    }
    .next-place,
    .keys {
      display: block;
    }
    .keys button {
      width: 100%;
      margin-bottom: var(--bench-space-2);
    }
    select {
      width: 100%;
    }
    label {
      flex-wrap: wrap;
    }
  }
  @media (forced-colors: active) {
    .lozenge {
      stroke: CanvasText;
    }
    .main-button {
      border: 3px solid Highlight;
    }
  }
`;
