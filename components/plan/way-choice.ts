import { html, type TemplateResult } from 'lit';
import type { Way } from '../../src/plan/ways.ts';

const WAYS: readonly (readonly [Way, string])[] = [
  ['plain', 'Plain'],
  ['share', 'Share of the cane'],
  ['shape', 'Shape only'],
];

/** The three ways to compare, one of them chosen. */
export function wayChoice(chosen: Way, choose: (way: Way) => void): TemplateResult {
  return html`<div class="choice" role="radiogroup" aria-label="Compared">
    ${WAYS.map(
      ([way, words]) =>
        html`<button role="radio" aria-checked=${way === chosen} @click=${() => choose(way)}>
          ${words}
        </button>`,
    )}
  </div>`;
}
