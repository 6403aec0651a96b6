import { css } from 'lit';

export const styles = css`
  .page {
    display: grid;
    gap: var(--bench-space-4);
    justify-items: start;
    max-width: 1200px;
    padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
  }
  h1,
  .say {
    margin: 0;
    font: var(--bench-font-say);
  }
  .drop {
    display: grid;
    gap: var(--bench-space-3);
    justify-items: start;
    width: 100%;
    padding: var(--bench-space-5);
    border: 1px dashed var(--bench-rule2);
    border-radius: var(--bench-radius-case);
    background: var(--bench-plate);
  }
  .drop[data-over] {
    border-style: solid;
    border-color: var(--bench-ink);
  }
  input[type='file'] {
    min-height: var(--bench-touch);
    font: var(--bench-font-body);
    color: var(--bench-ink);
  }
  textarea,
  select,
  input[type='text'] {
    width: 100%;
    min-height: var(--bench-touch);
    padding: var(--bench-space-2);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-control);
    background: var(--bench-paper);
    color: var(--bench-ink);
    font: var(--bench-font-body);
  }
  label {
    display: grid;
    gap: var(--bench-space-1);
    width: 100%;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .columns {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(220px, 1fr));
    gap: var(--bench-space-3);
    width: 100%;
  }
  .mend,
  details,
  section {
    width: 100%;
  }
  .mend textarea {
    font-family: ui-monospace, monospace;
    white-space: pre;
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3);
  }
  ul {
    margin: 0;
    padding-left: var(--bench-space-4);
  }
  .problems {
    padding: var(--bench-space-3) var(--bench-space-4);
    border-left: 3px solid var(--bench-stop);
    background: var(--bench-plate);
  }
  .reading {
    display: grid;
    gap: var(--bench-space-2);
    justify-items: start;
    width: 100%;
  }
  .reading p {
    margin: 0;
  }
  progress {
    width: min(360px, 100%);
    accent-color: var(--bench-ink);
  }
`;
