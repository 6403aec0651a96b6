import { css } from 'lit';

export const flowStyles = css`
  .stage {
    fill: var(--bench-ink);
  }
  .on {
    fill: var(--bench-rule);
  }
  .open,
  .gone {
    stroke: var(--bench-ink2);
  }
`;
