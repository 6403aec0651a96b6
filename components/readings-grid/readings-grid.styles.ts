import { css } from 'lit';

export const gridStyles = css`
  .blades {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-5);
  }
  .scroll {
    contain: layout style;
    overflow-x: auto;
  }
  h2 {
    margin: 0 0 var(--bench-space-2);
    font: var(--bench-font-aside);
  }
  table {
    border-collapse: collapse;
    font: var(--bench-font-table);
  }
  th {
    padding: 0 var(--bench-space-2);
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
    text-align: right;
    white-space: nowrap;
  }
  td {
    padding: 0;
    border: 1px solid var(--bench-rule);
  }
  input {
    width: 58px;
    min-width: 100%;
    height: var(--bench-touch);
    border: 0;
    background: var(--bench-plate);
    color: var(--bench-ink);
    font: var(--bench-font-table);
    text-align: center;
  }
  input:focus-visible {
    outline: 3px solid var(--bench-focus);
    outline-offset: -3px;
    box-shadow: none;
  }
  input[aria-invalid='true'] {
    text-decoration: underline wavy var(--bench-stop);
  }
  p {
    min-height: 1.5em;
    margin: var(--bench-space-2) 0 0;
    color: var(--bench-ink2);
  }
  td {
    position: relative;
  }
  input::placeholder {
    color: var(--bench-ink3);
    font-style: italic;
    opacity: 1;
  }
  .paler {
    margin: 0;
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  .mark {
    position: absolute;
    top: 1px;
    right: 3px;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
    line-height: 1;
    pointer-events: none;
  }
  .odd {
    color: var(--bench-excess);
  }
  .asked td {
    padding: var(--bench-space-2);
    border-left: 3px solid var(--bench-ink);
    background: var(--bench-sunk);
    text-align: left;
  }
  .asked .chips {
    align-items: center;
    margin: 0;
    max-width: 30em;
  }
  .past h3 {
    margin: var(--bench-space-3) 0 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .past ul {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  .past li {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2) var(--bench-space-4);
    align-items: center;
  }
  .chips {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
    margin-top: var(--bench-space-2);
  }
  /* Five columns fit a telephone. */
  @media (max-width: 640px) {
    th {
      padding: 0 var(--bench-space-1);
      white-space: normal;
    }
    input {
      width: 52px;
    }
  }
`;
