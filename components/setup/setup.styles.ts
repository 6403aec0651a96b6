import { css } from 'lit';

/** A list of rows with rules between them, and what may be done with each at its end. */
export const rows = css`
  h2 {
    margin: 0 0 var(--bench-space-2);
    font: var(--bench-font-head);
  }
  ul {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  .row,
  li {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2) var(--bench-space-4);
    align-items: center;
    justify-content: space-between;
    padding: var(--bench-space-2) 0;
    border-top: 1px solid var(--bench-rule);
  }
  .row > p,
  li > p {
    flex: 1 1 260px;
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
  }
  p {
    margin: 0;
    color: var(--bench-ink2);
  }
  li > p {
    color: var(--bench-ink);
  }
  small {
    display: block;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .warning {
    padding-left: var(--bench-space-3);
    border-left: 3px solid var(--bench-ink);
    color: var(--bench-ink);
  }
`;

/** A table of sides next to each other, a field a row; it scrolls by itself where it is wider than the page. */
export const sideBySide = css`
  .scroll {
    overflow-x: auto;
  }
  td:not(:first-child),
  thead th:not(:first-child) {
    min-width: 9em;
    text-align: left;
    overflow-wrap: anywhere;
    vertical-align: top;
  }
`;
