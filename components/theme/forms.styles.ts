import { css } from 'lit';

/** What is typed into or chosen from, as high as a finger is wide. */
export const boxes = css`
  input,
  select,
  textarea {
    min-height: var(--bench-touch);
    padding: 0 var(--bench-space-2);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-control);
    background: var(--bench-plate);
    color: var(--bench-ink);
    font: var(--bench-font-body);
  }
  input[type='checkbox'] {
    width: 20px;
    min-height: 20px;
    accent-color: var(--bench-ink);
  }
`;

/** What folds out, pressed like a link. */
export const folds = css`
  details > summary {
    display: flex;
    align-items: center;
    min-height: var(--bench-touch);
    color: var(--bench-ink2);
    cursor: pointer;
    text-decoration: underline;
    text-underline-offset: 3px;
  }
`;

/** Fields with their names above them, as wide as their column, and what is wrong with them. */
export const forms = css`
  ${boxes}
  form {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3);
    align-items: end;
  }
  label {
    display: grid;
    flex: 1 1 8em;
    gap: var(--bench-space-1);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  label.wide {
    flex-basis: 100%;
  }
  label.tick {
    display: flex;
    flex: 0 0 auto;
    gap: var(--bench-space-2);
    align-items: center;
    min-height: var(--bench-touch);
  }
  input,
  select,
  textarea {
    width: 100%;
    padding-block: var(--bench-space-1);
  }
  .problem {
    flex-basis: 100%;
    margin: 0;
    color: var(--bench-stop);
  }
`;

/** Dialogs over the page. */
export const dialogs = css`
  dialog {
    width: min(480px, 92vw);
    padding: var(--bench-space-5);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-case);
    background: var(--bench-plate);
    color: var(--bench-ink);
  }
  dialog::backdrop {
    background: rgb(0 0 0 / 0.4);
  }
  dialog h2 {
    margin: 0 0 var(--bench-space-3);
    font: var(--bench-font-say);
  }
`;

/** The one act that a page is for. */
export const mainActs = css`
  button.main,
  .acts a.main {
    border-color: var(--bench-ink);
    background: var(--bench-ink);
    color: var(--bench-paper);
    font-weight: 600;
  }
  @media (forced-colors: active) {
    button.main:not(:disabled),
    .acts a.main {
      forced-color-adjust: none;
      border-color: Highlight;
      background: Highlight;
      color: HighlightText;
    }
  }
  button.main:disabled {
    border-color: var(--bench-rule2);
    background: none;
    color: var(--bench-ink3);
  }
`;

/** Forms of many fields in columns, and the dialogs that ask for a few. */
export const fields = css`
  form {
    display: grid;
    gap: var(--bench-space-4);
  }
  .fields {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 168px), 1fr));
    gap: var(--bench-space-3) var(--bench-space-4);
    align-items: end;
    margin: 0;
    padding: 0;
    border: 0;
  }
  .fields .wide {
    grid-column: 1 / -1;
  }
  legend {
    padding: 0 0 var(--bench-space-2);
    font: var(--bench-font-head);
  }
  .steps {
    min-width: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }
  .steps legend {
    padding: 0 0 var(--bench-space-1);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .steps div {
    display: flex;
    flex-wrap: wrap;
  }
  .steps label {
    position: relative;
    display: grid;
    flex: 0 0 auto;
    place-items: center;
    min-width: var(--bench-touch);
    min-height: var(--bench-touch);
    color: var(--bench-ink);
    font: var(--bench-font-body);
  }
  .steps input {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
    min-height: 0;
    margin: 0;
    opacity: 0;
    cursor: pointer;
  }
  .steps span:not(.said) {
    display: grid;
    place-items: center;
    min-width: 32px;
    height: 32px;
    border: 1px solid var(--bench-rule2);
    border-radius: 16px;
  }
  .steps .named span:not(.said) {
    margin-right: var(--bench-space-1);
    padding: 0 var(--bench-space-3);
    border-radius: var(--bench-radius-control);
  }
  .steps label.none span:not(.said) {
    border-color: transparent;
    color: var(--bench-ink3);
  }
  .steps label:not(.none) :checked + span {
    border-color: var(--bench-ink);
    background: var(--bench-ink);
    color: var(--bench-paper);
    font-weight: 600;
  }
  .steps :focus-visible + span {
    outline: 3px solid var(--bench-focus);
    outline-offset: 2px;
  }
  @media (forced-colors: active) {
    .steps label:not(.none) :checked + span {
      forced-color-adjust: none;
      border-color: Highlight;
      background: Highlight;
      color: HighlightText;
    }
  }
  .pages {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-1);
  }
  textarea {
    padding: var(--bench-space-2);
    resize: vertical;
  }
  [aria-invalid='true'] {
    border: 2px solid var(--bench-stop);
  }
  ${mainActs}
  ${dialogs}
`;

/** A head with what belongs beside it, below it where there is no room. */
export const heads = css`
  .head {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2) var(--bench-space-5);
    align-items: center;
    justify-content: space-between;
  }
`;

/** A list of sentences between rules, each with its figures below it. */
export const sentences = css`
  ol {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  li {
    display: grid;
    gap: 2px;
    padding: var(--bench-space-2) 0;
    border-top: 1px solid var(--bench-rule);
  }
  li small {
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
`;

/** A page of sections under one sentence. */
export const pages = css`
  .page {
    display: grid;
    gap: var(--bench-space-5);
    align-content: start;
    padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
  }
  .two {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(420px, 100%), 1fr));
    gap: var(--bench-space-6) 36px;
    align-items: start;
  }
  .two > * {
    min-width: 0;
  }
  section {
    display: grid;
    gap: var(--bench-space-3);
    align-content: start;
    min-width: 0;
  }
  h1 {
    margin: 0;
    max-width: 48em;
    font: var(--bench-font-say);
    text-wrap: pretty;
  }
  h2 {
    margin: 0;
    font: var(--bench-font-head);
  }
  .say {
    margin: 0;
    font: var(--bench-font-aside);
    text-wrap: pretty;
  }
  .note {
    margin: 0;
    max-width: 60em;
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  .scroll {
    overflow-x: auto;
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3);
    align-items: center;
  }
  .acts a {
    display: inline-flex;
    align-items: center;
    min-height: var(--bench-touch);
    text-underline-offset: 3px;
  }
  .aside {
    max-width: 60ch;
    margin: 0;
    font: var(--bench-font-aside);
  }
  .quiet {
    max-width: 60ch;
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  ${folds}
`;
