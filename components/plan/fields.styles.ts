import { css } from 'lit';
import { boxes } from '../theme/forms.styles.ts';

/** Fields with their words above them, and rows of buttons. */
export const fields = css`
  ${boxes}
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
