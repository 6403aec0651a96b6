import { css } from 'lit';

export const partStyles = css`
  :host {
    container-type: inline-size;
    /* What is said is English, whatever the page is written in. */
    direction: ltr;
    padding: var(--bench-space-4);
    border-radius: var(--bench-radius-plate);
    background: var(--bench-paper);
    text-align: left;
  }
  /* Inside another element of the package nothing is framed twice. */
  :host([bare]) {
    padding: 0;
    background: none;
  }
  p {
    margin: 0 0 var(--bench-space-3);
  }
  /* What is done within a second needs no way out. */
  .working button {
    animation: 1ms 1s both appear;
  }
  @keyframes appear {
    from {
      visibility: hidden;
    }
  }
  .note {
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  .problem {
    padding-left: var(--bench-space-3);
    border-left: 4px solid var(--bench-stop);
  }
  .problem li {
    margin-bottom: var(--bench-space-2);
    overflow-wrap: anywhere;
  }
  ul {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  fieldset {
    margin: 0;
    padding: 0;
    border: 0;
  }
  legend {
    padding: 0;
    margin-bottom: var(--bench-space-2);
  }
  .scroll {
    overflow-x: auto;
  }
`;
