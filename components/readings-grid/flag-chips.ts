import { html } from 'lit';
import { flagSchema, type Flag, type Reading } from '../../shared/reading.ts';
import { meanMm } from './grid-cells.ts';
import { FLAG_WORDS } from './grid-words.ts';

/** Marks that need a reading to stand on. */
const OF_A_READING: readonly Flag[] = ['weak', 'doubtful'];

/** A button for each mark of the station on which the keys stand. */
export function flagChips(station: string, readings: readonly Reading[], press: (flag: Flag) => void) {
  const isRead = meanMm(readings) !== undefined;
  return html`<div class="chips" role="group" aria-label=${`Mark ${station}`}>
    ${flagSchema.options.map(
      (flag) =>
        html`<button
          ?disabled=${!isRead && OF_A_READING.includes(flag)}
          aria-pressed=${readings[0]?.flag === flag}
          @click=${() => press(flag)}
        >
          ${FLAG_WORDS[flag]}
        </button>`,
    )}
  </div>`;
}
