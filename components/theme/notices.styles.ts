import { css } from 'lit';

/** What the bench has to say by itself, over every place: a bar with its words and its acts. */
export const notices = css`
  section {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3) var(--bench-space-4);
    align-items: center;
    margin: var(--bench-space-4) var(--bench-page-margin) 0;
    padding: var(--bench-space-3) var(--bench-space-4);
    border-left: 3px solid var(--bench-rule2);
    background: var(--bench-plate);
  }
  p {
    flex: 1 1 320px;
    margin: 0;
  }
`;
