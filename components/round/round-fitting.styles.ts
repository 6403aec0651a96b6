import { css } from 'lit';

/** How the round at the desk fits smaller screens and forced colours; comes after the styles of its parts. */
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
  @media (forced-colors: active) {
    .lozenge {
      stroke: CanvasText;
    }
    .main-button {
      border: 3px solid Highlight;
    }
  }
`;
