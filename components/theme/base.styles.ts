import { css } from 'lit';

/** What every element of the bench shares: figures that line up, one focus ring, hidden text for screen readers. */
export const base = css`
  :host {
    display: block;
    color: var(--bench-ink);
    color-scheme: var(--bench-color-scheme);
    font: var(--bench-font-body);
    font-variant-numeric: tabular-nums lining-nums;
  }
  :host([hidden]) {
    display: none;
  }
  *,
  ::before,
  ::after {
    box-sizing: border-box;
    /* A font shorthand sets figures back to whatever the font has first. */
    font-variant-numeric: tabular-nums lining-nums !important;
  }
  a {
    color: inherit;
  }
  /* What a heading counts, and in what. */
  h2 small {
    margin-left: var(--bench-space-2);
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  :focus-visible {
    outline: 3px solid var(--bench-focus);
    outline-offset: 2px;
    box-shadow: 0 0 0 2px var(--bench-paper);
  }
  /* What folds out is pressed as a button is. */
  summary {
    min-height: var(--bench-touch);
    align-content: center;
    cursor: pointer;
  }
  .said {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  /* Hidden text inside what scrolls must not widen the page. */
  .scroll {
    position: relative;
  }
  /* Paper cannot be pressed, typed into or unfolded; what is typed in a table, and what a list says, is printed. */
  @media print {
    :is(button, select, textarea, summary, input):not(td *, li > *),
    label:not(td *):has(input, select, textarea),
    .acts {
      display: none !important;
    }
  }
`;

/** Buttons and rows of choices: ink on paper, a chosen one paper on ink. */
export const controls = css`
  button {
    min-height: var(--bench-touch);
    padding: 0 var(--bench-space-4);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-button);
    background: none;
    color: var(--bench-ink);
    font: var(--bench-font-body);
    cursor: pointer;
  }
  button[aria-pressed='true'],
  button[aria-checked='true'] {
    border-color: var(--bench-ink);
    background: var(--bench-ink);
    color: var(--bench-paper);
  }
  ::file-selector-button {
    min-height: var(--bench-touch);
    margin-right: var(--bench-space-3);
    padding: 0 var(--bench-space-4);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-button);
    background: none;
    color: var(--bench-ink);
    font: var(--bench-font-body);
    cursor: pointer;
  }
  button:disabled {
    color: var(--bench-ink3);
    cursor: default;
  }
  .choice {
    display: inline-flex;
    flex-wrap: wrap;
    max-width: 100%;
  }
  .choice > button:not(:first-child) {
    margin-left: -1px;
    border-top-left-radius: 0;
    border-bottom-left-radius: 0;
  }
  .choice > button:not(:last-child) {
    border-top-right-radius: 0;
    border-bottom-right-radius: 0;
  }
  @media (forced-colors: active) {
    button[aria-pressed='true'],
    button[aria-checked='true'] {
      forced-color-adjust: none;
      border-color: Highlight;
      background: Highlight;
      color: HighlightText;
    }
  }
`;

/** Choices that fold out, and sliders, with their names before them. */
export const adjusters = css`
  label {
    display: inline-flex;
    flex-wrap: wrap;
    gap: var(--bench-space-1) var(--bench-space-2);
    align-items: center;
    min-height: var(--bench-touch);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  select {
    min-height: var(--bench-touch);
    max-width: 100%;
    padding: 0 var(--bench-space-2);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-control);
    background: var(--bench-plate);
    color: var(--bench-ink);
    font: var(--bench-font-caption);
  }
  input {
    accent-color: var(--bench-ink);
  }
  input[type='checkbox'] {
    width: 20px;
    height: 20px;
    margin: 0;
  }
  input[type='range'] {
    flex: 1 1 140px;
    min-width: 0;
    min-height: var(--bench-touch);
  }
`;

/** Tables of figures beside and under pictures. */
export const tables = css`
  table {
    width: 100%;
    border-collapse: collapse;
    font: var(--bench-font-table);
  }
  caption {
    padding-bottom: var(--bench-space-1);
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
    text-align: left;
  }
  th {
    font-weight: 400;
    text-align: left;
  }
  thead th {
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  th,
  td {
    padding: var(--bench-space-1) var(--bench-space-2) var(--bench-space-1) 0;
    border-bottom: 1px solid var(--bench-rule);
  }
  td,
  thead th:not(:first-child) {
    text-align: right;
  }
`;
