import { css } from 'lit';

/** A reed's life on the screen, and as one sheet when it is printed. */
export const styles = css`
  header {
    display: grid;
    grid-template-columns: auto minmax(0, 1fr) auto;
    gap: var(--bench-space-2) var(--bench-space-5);
    align-items: center;
  }
  .page {
    gap: var(--bench-space-3);
  }
  h1 {
    display: flex;
    gap: var(--bench-space-3);
    align-items: center;
  }
  h1 img {
    width: auto;
    height: 72px;
  }
  .facts {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .facts .say {
    display: block;
    color: var(--bench-ink);
    font: var(--bench-font-say);
  }
  bench-picture {
    min-width: 0;
  }
  @media (max-width: 860px) {
    header {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  h1 {
    font: var(--bench-font-reed);
  }
  td,
  thead th:not(:first-child) {
    text-align: left;
  }
  td em {
    display: block;
    font: var(--bench-font-aside);
    font-style: italic;
  }
  td:first-child {
    white-space: nowrap;
  }
  .sheet {
    display: none;
  }
  @media print {
    .screen {
      display: none;
    }
    .sheet {
      display: table;
    }
    .two > section:not(.life),
    .pictures + .two,
    .pictures > .say,
    .acts {
      display: none;
    }
    .page,
    .two,
    .life {
      display: block;
      padding: 0;
    }
    h1 {
      font-size: 24pt;
    }
    tr {
      break-inside: avoid;
    }
  }
`;
