import { css } from 'lit';

/** One printed page: its margins and the room inside them, by name. */
export const PAPERS = {
  A4: { words: 'A4', size: 'A4 portrait', marginMm: 12, widthMm: 186, heightMm: 273 },
  letter: { words: 'Letter', size: 'letter portrait', marginMm: 12, widthMm: 191.9, heightMm: 255.4 },
} as const;
export type Paper = keyof typeof PAPERS;

export const sheetStyles = css`
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3);
    align-items: center;
    padding: var(--bench-space-4) var(--bench-page-margin) 0;
  }
  .scroll {
    overflow-x: auto;
    padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
  }
  .sheet {
    display: grid;
    grid-template-columns: 461px minmax(0, 1fr);
    grid-auto-rows: max-content;
    gap: 8px 14px;
    box-sizing: content-box;
    width: var(--sheet-width);
    padding: 12mm;
    border: 1px solid var(--bench-rule2);
    background: #ffffff;
    color: var(--bench-ink);
    --bench-plate: #ffffff;
    --bench-paper: #ffffff;
    --bench-row-padding: 2px;
    --bench-copy-display: none;
    --bench-font-table: 400 11.5px / 1.35 var(--bench-sans);
    --bench-font-aside: 400 13px / 1.35 var(--bench-serif);
    --bench-font-caption: 400 10.5px / 1.35 var(--bench-sans);
    --bench-font-say: 400 16px / 1.35 var(--bench-serif);
    print-color-adjust: exact;
  }
  header {
    position: relative;
    display: flex;
    grid-column: 1 / -1;
    flex-wrap: wrap;
    gap: 0 14px;
    align-items: baseline;
    padding-bottom: 6px;
    border-bottom: 1px solid var(--bench-ink);
  }
  /* Reaches into the margin: the page is as long as without it. */
  header img {
    position: absolute;
    right: 0;
    bottom: 2px;
    width: auto;
    height: 64px;
  }
  h1 {
    margin: 0;
    font: 400 30px / 1.1 var(--bench-serif);
    white-space: nowrap;
  }
  header p,
  .foot p {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .sheet h2 {
    margin: 0 0 4px;
    font: 600 13px / 1.3 var(--bench-sans);
  }
  .say {
    grid-column: 1 / -1;
  }
  .maps {
    min-width: 0;
  }
  bench-reed-map::part(blades) {
    width: 78%;
  }
  /* On paper nothing of the caption is cut: it may take two lines. */
  bench-reed-map::part(words) {
    white-space: normal;
  }
  .side,
  .low {
    display: grid;
    gap: 12px;
    align-content: start;
    min-width: 0;
  }
  .foot {
    display: grid;
    grid-column: 1 / -1;
    gap: 2px;
    padding-top: 6px;
    border-top: 1px solid var(--bench-ink);
  }
  .write {
    display: grid;
    gap: 17px;
    padding-top: 14px;
  }
  .write span {
    border-bottom: 1px solid var(--bench-rule2);
  }
  @media print {
    .acts {
      display: none;
    }
    .scroll {
      overflow: visible;
      padding: 0;
    }
    .sheet {
      padding: 0;
      border: 0;
      break-inside: avoid;
    }
  }
`;
