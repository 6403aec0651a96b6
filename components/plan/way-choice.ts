import { html, type TemplateResult } from 'lit';
import type { ComparisonMode } from '../../src/plan/ways.ts';

const WAYS: readonly (readonly [ComparisonMode, string])[] = [
  ['plain', 'Plain'],
  ['share', 'Share of the cane'],
  ['shape', 'Shape only'],
];

/** The three ways to compare, one of them chosen. */
export function wayChoice(chosen: ComparisonMode, choose: (way: ComparisonMode) => void): TemplateResult {
  return html`<div class="choice" role="radiogroup" aria-label="Compared">
    ${WAYS.map(
      ([way, words]) =>
        html`<button role="radio" aria-checked=${way === chosen} @click=${() => choose(way)}>
          ${words}
        </button>`,
    )}
  </div>`;
}
