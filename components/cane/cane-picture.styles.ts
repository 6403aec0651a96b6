import { css } from 'lit';

/** A picture of cane on its plate; its words grow as it gets narrow. */
export const canePicture = css`
  :host {
    container-type: inline-size;
  }
  svg {
    display: block;
    width: 100%;
    border: 1px solid var(--bench-rule);
    background: var(--bench-plate);
  }
  text {
    fill: var(--bench-ink2);
    font-size: 13px;
    font-variant-numeric: tabular-nums;
  }
  @container (max-width: 600px) {
    text {
      font-size: 17px;
    }
  }
  @container (max-width: 400px) {
    text {
      font-size: 21px;
    }
  }
`;
