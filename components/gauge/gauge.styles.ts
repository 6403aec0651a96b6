import { css } from 'lit';
import { boxes, folds } from '../theme/forms.styles.ts';

export const gaugeStyles = css`
  ${boxes}
  h2 {
    margin: 0 0 var(--bench-space-2);
    font: var(--bench-font-head);
  }
  p {
    max-width: 60ch;
    margin: 0 0 var(--bench-space-3);
  }
  .say {
    font: var(--bench-font-say);
  }
  .quiet {
    color: var(--bench-ink2);
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3);
    align-items: end;
    margin-bottom: var(--bench-space-3);
  }
  label {
    display: grid;
    gap: var(--bench-space-1);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  input {
    width: 9em;
  }
  .row label {
    flex: 0 1 15em;
    min-width: min-content;
  }
  .row label:has(input) {
    flex: 1 1 9em;
    max-width: 15em;
  }
  .row input {
    width: 100%;
  }
  input[aria-invalid='true'] {
    border-color: var(--bench-stop);
  }
  .problem {
    min-height: 1.4em;
    color: var(--bench-stop);
  }
  .over {
    display: flex;
    gap: var(--bench-space-3);
    align-items: center;
    justify-content: space-between;
  }
  ${folds}
`;
