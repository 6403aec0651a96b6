import { css } from 'lit';
import { boxes } from '../theme/forms.styles.ts';

export const gridsStyles = css`
  ${boxes}
  .line {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3) var(--bench-space-4);
    align-items: end;
    margin-bottom: var(--bench-space-3);
  }
  label {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--bench-space-1);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  label.tick {
    display: flex;
    gap: var(--bench-space-2);
    align-items: center;
    min-height: var(--bench-touch);
  }
  input.short {
    width: 5em;
  }
  td,
  thead th:not(:first-child) {
    text-align: left;
  }
  label,
  .line select,
  .line input {
    max-width: 100%;
  }
  .scroll {
    overflow-x: auto;
  }
  .problem {
    min-height: 1.4em;
    margin: var(--bench-space-2) 0;
    color: var(--bench-stop);
  }
  /* A row of the table takes two lines on a telephone. */
  @media (max-width: 640px) {
    .rows tr {
      display: grid;
      grid-template-columns: 76px 104px minmax(0, 1fr);
      gap: var(--bench-space-1) var(--bench-space-2);
      padding: var(--bench-space-2) 0;
      border-bottom: 1px solid var(--bench-rule);
    }
    .rows :is(th, td) {
      padding: 0;
      border: 0;
    }
    .rows :is(th, td):nth-child(4) {
      grid-column: span 2;
    }
    .rows :is(input, select) {
      width: 100%;
    }
  }
`;
