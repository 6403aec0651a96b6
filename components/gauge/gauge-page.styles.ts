import { css } from 'lit';

/** Where the parts of the gauge's page stand. */
export const styles = css`
  :host {
    padding: var(--bench-space-4) var(--bench-page-margin);
  }
  .parts {
    display: grid;
    grid-template-columns: minmax(0, 1.6fr) minmax(0, 1fr);
    gap: var(--bench-space-3) var(--bench-space-4);
    margin-top: var(--bench-space-3);
  }
  .writing {
    display: grid;
    grid-column: 1 / -1;
    grid-template-columns: repeat(auto-fit, minmax(min(300px, 100%), 1fr));
    gap: 0 28px;
    align-items: start;
  }
  .plate > p {
    max-width: none;
    margin: 0;
    font: var(--bench-font-caption);
  }
  bench-caution {
    grid-column: 1 / -1;
  }
  .problem:empty {
    display: none;
  }
  h1 {
    margin: 0;
    max-width: none;
  }
  @media (max-width: 1000px) {
    .parts {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  section {
    min-width: 0;
  }
`;
