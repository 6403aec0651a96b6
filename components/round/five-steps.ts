import { html, svg } from 'lit';
import { classMap } from 'lit/directives/class-map.js';
import { nearestStep, STEPS } from '../../src/round/place-words.ts';

const MIDDLE = 384;
const PER_UNIT = 360;
const x = (across: number) => MIDDLE + across * PER_UNIT;

/** The line across the blade with its five steps; the place to be read is a large dot where it really lies. */
export function fiveSteps(across: number) {
  const here = nearestStep(across);
  return html`<svg class="steps" viewBox="0 0 768 112" aria-hidden="true">
    <path d="M${x(-1)} 40H${x(1)}" />
    <path class="end" d="M${x(-1)} 24v32M${x(1)} 24v32" />
    ${STEPS.map(({ across: step, words }, i) => {
      const word = classMap({ 'here-word': i === here });
      return svg`<circle cx=${x(step)} cy="40" r="8.5" /><text class=${word} x=${x(step)} y="92">${words}</text>`;
    })}
    <circle class="here" cx=${x(across)} cy="40" r="21" />
  </svg>`;
}
