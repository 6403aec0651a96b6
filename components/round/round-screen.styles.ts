import { css } from 'lit';
import { boxes } from '../theme/forms.styles.ts';

export const styles = css`
  :host {
    min-height: 100%;
    background: var(--bench-paper);
  }
  .screen {
    display: grid;
    grid-template-columns: minmax(0, 2fr) minmax(0, 1fr);
    min-height: 100vh;
    min-height: 100dvh;
  }
  .main {
    display: flex;
    flex-direction: column;
    gap: var(--bench-space-4);
    padding: var(--bench-space-3) var(--bench-space-7) var(--bench-space-4);
  }
  aside {
    padding: var(--bench-space-5) var(--bench-space-5);
    border-left: 1px solid var(--bench-rule);
    background: var(--bench-plate);
  }
  .header {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--bench-space-4);
    align-items: center;
    justify-content: space-between;
    color: var(--bench-ink2);
    font-size: calc(16px * var(--bench-scale));
  }
  .put-down {
    min-height: var(--bench-touch);
    padding: 0;
    border: 0;
    color: inherit;
    font: inherit;
    text-decoration: underline;
    text-underline-offset: 3px;
  }
  progress {
    flex: 1 0 100%;
    height: 6px;
    border: 0;
    border-radius: var(--bench-radius-control);
    appearance: none;
    background: var(--bench-sunk);
  }
  progress::-webkit-progress-bar {
    background: var(--bench-sunk);
  }
  progress::-webkit-progress-value {
    background: var(--bench-ink);
  }
  progress::-moz-progress-bar {
    background: var(--bench-ink);
  }
  h2 {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-body);
    font-size: calc(17px * var(--bench-scale));
  }
  .where {
    display: flex;
    flex-wrap: wrap;
    gap: 0 0.06em;
    align-items: baseline;
    margin: 0;
    font: var(--bench-font-next);
  }
  .where .blade {
    margin-right: 0.1em;
    font-family: var(--bench-serif);
    font-weight: 400;
  }
  .where .unit {
    color: var(--bench-ink2);
    font: var(--bench-font-take);
    font-weight: 400;
    white-space: nowrap;
  }
  .across {
    margin: 0;
    font: var(--bench-font-place);
  }
  .steps {
    max-width: 740px;
    width: 100%;
    overflow: visible;
  }
  .steps path {
    stroke: var(--bench-rule2);
    stroke-width: 2;
    fill: none;
  }
  .steps .end {
    stroke: var(--bench-ink);
    stroke-width: 4;
  }
  .steps circle {
    fill: var(--bench-paper);
    stroke: var(--bench-rule2);
    stroke-width: 2.4;
  }
  .steps .here {
    fill: var(--bench-ink);
    stroke: none;
  }
  .steps text {
    fill: var(--bench-ink3);
    font-size: 23px;
    text-anchor: middle;
  }
  .steps .here-word {
    fill: var(--bench-ink);
    font-weight: 700;
  }
  .heard {
    min-height: 150px;
    margin-top: auto;
    padding-top: var(--bench-space-4);
    border-top: 1px solid var(--bench-rule);
  }
  .row {
    display: flex;
    gap: var(--bench-space-4) var(--bench-space-5);
    align-items: center;
    min-height: 96px;
  }
  .figure {
    position: relative;
    display: flex;
    flex: none;
    gap: var(--bench-space-3);
    align-items: center;
    min-width: 1.2em;
    border-radius: var(--bench-radius-control);
    font: var(--bench-font-heard);
  }
  .figure.typing {
    color: var(--bench-ink2);
  }
  .figure input {
    position: absolute;
    inset: 0;
    width: 100%;
    min-width: 44px;
    height: 100%;
    border: 0;
    opacity: 0;
    background: none;
    color: inherit;
    font: inherit;
  }
  .caret {
    align-self: stretch;
    width: 3px;
  }
  .figure:focus-within .caret {
    background: var(--bench-ink);
  }
  .lozenge {
    flex: none;
    width: 0.52em;
    height: 0.52em;
    stroke: var(--bench-excess);
    stroke-width: 3.4;
    fill: none;
    overflow: visible;
  }
  .sentence {
    max-width: 34em;
    margin: 0;
    font: var(--bench-font-say);
  }
  .keys {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 1fr));
    gap: var(--bench-space-3);
  }
  .keys button {
    min-height: 84px;
    padding: var(--bench-space-2) var(--bench-space-4);
    border-radius: var(--bench-radius-key);
    text-align: left;
  }
  .keys strong {
    display: block;
    font-size: calc(21px * var(--bench-scale));
    font-weight: 600;
  }
  .keys span {
    color: var(--bench-ink2);
  }
  kbd {
    display: inline-block;
    min-width: 1.7em;
    margin-right: var(--bench-space-1);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-control);
    font: inherit;
    font-weight: 600;
    line-height: 1.1;
    text-align: center;
  }
  .chips {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
  }
  .main-button {
    border-color: var(--bench-ink);
    background: var(--bench-ink);
    color: var(--bench-paper);
  }
  .trouble {
    padding: var(--bench-space-3) var(--bench-space-4);
    border-left: 3px solid var(--bench-stop);
    background: var(--bench-plate);
  }
  .trouble p {
    margin: 0 0 var(--bench-space-2);
    font: var(--bench-font-aside);
  }
  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-1) var(--bench-space-4);
    align-items: baseline;
    justify-content: space-between;
    color: var(--bench-ink2);
    font-size: calc(14.5px * var(--bench-scale));
  }
  label {
    display: inline-flex;
    gap: var(--bench-space-2);
    align-items: center;
  }
  ${boxes}
  .end input {
    width: 6em;
  }
  .end .chips {
    align-items: center;
  }
  .end .across {
    margin-bottom: var(--bench-space-4);
    font-family: var(--bench-serif);
  }
`;
