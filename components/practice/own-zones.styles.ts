import { css } from 'lit';

/** Zones of a style beside their picture. */
export const zonesStyles = css`
  .sides {
    display: grid;
    grid-template-columns: minmax(0, 3fr) minmax(0, 4fr);
    gap: var(--bench-space-4);
    align-items: start;
  }
  .choice {
    margin-bottom: var(--bench-space-3);
  }
  .sides label {
    max-width: 24em;
  }
  .line {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
    align-items: end;
    margin-bottom: var(--bench-space-3);
  }
  p {
    margin: 0 0 var(--bench-space-2);
    color: var(--bench-ink2);
  }
  @media (max-width: 640px) {
    .sides {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
