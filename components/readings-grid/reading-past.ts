import { html, nothing } from 'lit';
import type { Replaced } from '../../shared/pass.ts';
import { readingText, type NumberFormat } from '../../src/words/format.ts';
import { momentWords } from '../setup/moment-words.ts';
import { FLAG_WORDS } from './grid-words.ts';

const HOW_WORDS = { round: 'in the round', sheet: 'in the sheet' } as const;

function valueWords({ was }: Replaced, writing: NumberFormat): string {
  return was
    .map(({ thicknessMm, flag }) => {
      const value = thicknessMm === undefined ? '' : readingText(thicknessMm, writing);
      return [value, flag === 'ok' ? '' : FLAG_WORDS[flag].toLowerCase()].filter(Boolean).join(', ');
    })
    .join(' and ');
}

/**
 * What stood at a station before, the latest first, each with the way back to it.
 *
 * @param here This device.
 */
export function readingPast(
  station: string,
  history: readonly Replaced[],
  writing: NumberFormat,
  here: string | undefined,
  back: (was: Replaced['was']) => void,
) {
  if (history.length === 0) return nothing;
  return html`<section class="past" aria-label=${`Before, at ${station}`}>
    <h3>Before, at ${station}</h3>
    <ul>
      ${history.map((one) => {
        const elsewhere = one.deviceId !== undefined && one.deviceId !== here ? ', on another device' : '';
        const value = valueWords(one, writing);
        return html`<li>
          <span
            ><strong>${value}</strong> until ${momentWords(one.at)}, ${HOW_WORDS[one.how]}${elsewhere}</span
          >
          <button @click=${() => back(one.was)}>Back to ${value}</button>
        </li>`;
      })}
    </ul>
  </section>`;
}
