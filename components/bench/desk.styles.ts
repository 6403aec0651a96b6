import { css } from 'lit';

export const styles = css`
  header {
    display: grid;
    grid-template-columns: auto minmax(0, 1fr);
    gap: var(--bench-space-5);
    align-items: start;
    padding: var(--bench-space-3) var(--bench-page-margin) 0;
  }
  .reed {
    display: flex;
    gap: var(--bench-space-4);
    align-items: center;
  }
  h1 {
    margin: 0;
    font: var(--bench-font-reed);
    white-space: nowrap;
  }
  .facts a {
    display: inline-block;
    min-height: var(--bench-touch);
    align-content: center;
  }
  .facts {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .tabs {
    display: flex;
    gap: var(--bench-space-5);
    padding: 0 var(--bench-page-margin);
    overflow-x: auto;
    border-bottom: 1px solid var(--bench-rule);
  }
  .tabs a:focus-visible {
    outline-offset: -3px;
  }
  .tabs a {
    display: inline-flex;
    align-items: center;
    min-height: var(--bench-touch);
    padding: 0 var(--bench-space-2);
    border-bottom: 3px solid transparent;
    color: var(--bench-ink2);
    text-decoration: none;
    white-space: nowrap;
  }
  .tabs a[aria-current] {
    border-bottom-color: var(--bench-ink);
    color: var(--bench-ink);
    font-weight: 600;
  }
  .tabs .apart {
    margin-left: auto;
  }
  .empty {
    display: grid;
    gap: var(--bench-space-4);
    justify-items: start;
    max-width: 36em;
    padding: var(--bench-space-6) var(--bench-page-margin);
    font: var(--bench-font-say);
  }
  .empty p {
    margin: 0;
  }
  .refining {
    padding: var(--bench-space-2) var(--bench-page-margin) 0;
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  .facts .refining {
    padding: 0;
    font: inherit;
  }
  /* System colours know nothing transparent: every tab would look like the current one. */
  @media (forced-colors: active) {
    .tabs a:not([aria-current]) {
      border-bottom-color: Canvas;
    }
  }
  @media print {
    .tabs,
    :host([data-sheet]) header {
      display: none;
    }
  }
  @media (max-width: 860px) {
    header {
      grid-template-columns: minmax(0, 1fr);
      gap: var(--bench-space-2);
    }
  }
`;
