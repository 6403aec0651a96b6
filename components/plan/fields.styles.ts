import { css } from 'lit';

/** Fields with their words above them, and rows of buttons. */
export const fields = css`
  label {
    display: grid;
    gap: var(--bench-space-1);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  input,
  select,
  textarea {
    width: 100%;
    min-height: var(--bench-touch);
    padding: 0 var(--bench-space-2);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-control);
    background: var(--bench-plate);
    color: var(--bench-ink);
    font: var(--bench-font-body);
  }
  input[type='checkbox'],
  input[type='radio'] {
    width: 20px;
    min-height: 20px;
    accent-color: var(--bench-ink);
  }
  .line {
    display: flex;
    gap: var(--bench-space-2);
    align-items: center;
    min-height: var(--bench-touch);
    color: var(--bench-ink);
    font: var(--bench-font-body);
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
  }
  .problem {
    margin: 0;
    color: var(--bench-stop);
  }
  .note {
    margin: 0;
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
`;
