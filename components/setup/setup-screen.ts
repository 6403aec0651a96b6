import { css, html, LitElement, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { UNIT_WORDS } from '../../src/words/format.ts';
import { hrefOf } from '../frame/routes.ts';
import type { Choices } from '../store/choices.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import './bin.ts';
import './check-all.ts';
import './copies.ts';
import './keeping-state.ts';
import './not-chosen.ts';
import '../keeping/set-aside-pieces.ts';
import './set-aside.ts';
import { boxes } from '../theme/forms.styles.ts';
import { rows } from './setup.styles.ts';
import './two-sides.ts';

/** A row of the list: a choice, its words, and what may be chosen. */
interface Row<K extends keyof Choices> {
  readonly key: K;
  readonly words: string;
  readonly options: readonly (readonly [value: Choices[K], words: string])[];
}

const row = <K extends keyof Choices>(key: K, words: string, options: Row<K>['options']): Row<K> => ({
  key,
  words,
  options,
});

const ROWS = [
  row('unit', 'Unit of thickness', [
    ['hundredths', UNIT_WORDS.hundredths.name],
    ['mm', UNIT_WORDS.mm.name],
    ['thou', UNIT_WORDS.thou.name],
  ]),
  row('decimal', 'Decimal sign', [
    ['point', 'point: 0.46'],
    ['comma', 'comma: 0,46'],
  ]),
  row('theme', 'Look', [
    ['system', 'as the system'],
    ['day', 'day'],
    ['dark', 'dark'],
    ['lamp', 'lamp: warm and dim'],
  ]),
  row('textScale', 'Size of text', [
    [0.9, 'smaller'],
    [1, 'usual'],
    [1.2, 'larger'],
    [1.5, 'largest'],
  ]),
  row('handedness', 'Hand that holds the knife', [
    ['right', 'right'],
    ['left', 'left'],
  ]),
  row(
    'pitchHz',
    'Your A',
    [438, 440, 441, 442, 443, 444, 446].map((hz) => [hz, `${hz} Hz`] as const),
  ),
  row('tipLast', 'The tip', [
    [true, 'is left until last'],
    [false, 'is scraped in its turn'],
  ]),
  row(
    'marginMm',
    'Strokes stay away from a floor or a lack by',
    [1, 2, 3, 4].map((mm) => [mm, `${mm} mm`] as const),
  ),
  row('letterKeys', 'Single-letter keys', [
    [true, 'on'],
    [false, 'off'],
  ]),
  row('sounds', 'Sounds in a round', [
    ['off', 'none'],
    ['tones', 'tones'],
    ['speech', 'spoken'],
  ]),
  row('takes', 'A reading in a round is taken', [
    ['enter', 'by Enter'],
    ['digits', 'by its last digit: two, or three in thousandths of a mm'],
  ]),
  row('digits', 'Digits on the screen', [
    ['telephone', 'as on a telephone: 1 at the top'],
    ['number-pad', 'as on a number pad: 7 at the top'],
  ]),
] as const;

/** The maker's choices, how the library is kept, copies of it, and the bin. */
@customElement('bench-setup')
export class SetupScreen extends LitElement {
  static override styles = [
    base,
    controls,
    rows,
    boxes,
    css`
      .page {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--bench-space-5);
        max-width: 760px;
        padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
      }
      h1 {
        margin: 0;
        font: var(--bench-font-say);
      }
      select {
        max-width: min(100%, calc(100vw - 2 * var(--bench-page-margin)));
        min-width: 14em;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  /** Raised by every copy that is made: what is said of the keeping is looked up anew. */
  @state() private copies = 0;

  private handleChoice(key: keyof Choices, event: Event) {
    const at = Number((event.target as HTMLSelectElement).value);
    const options = ROWS.find((one) => one.key === key)!.options;
    void this.library.store?.choose({ [key]: options[at]![0] });
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { choices } = this.library;
    return html`<div class="page">
      <h1>Setup</h1>
      <section>
        ${ROWS.map(
          ({ key, words, options }) =>
            html`<div class="row">
              <label for=${key}>${words}</label>
              <select id=${key} @change=${(event: Event) => this.handleChoice(key, event)}>
                ${options.map(
                  ([value, name], i) =>
                    html`<option value=${i} ?selected=${value === choices[key]}>${name}</option>`,
                )}
              </select>
            </div>`,
        )}
        <div class="row">
          <span>Grids and rounds</span>
          <a href=${hrefOf({ at: 'grids' })}>Change the rounds and their stations</a>
        </div>
        <div class="row">
          <span>Floors and habits</span>
          <a href=${hrefOf({ at: 'practice' })}>Change floors and what to try</a>
        </div>
      </section>
      <section @bench-copy-made=${() => this.copies++}>
        <h2>Keeping and copies</h2>
        <bench-keeping-state .copies=${this.copies}></bench-keeping-state>
        <bench-copies></bench-copies>
        <bench-check-all></bench-check-all>
      </section>
      <bench-two-sides></bench-two-sides>
      <bench-not-chosen></bench-not-chosen>
      <bench-set-aside></bench-set-aside>
      <bench-set-aside-pieces></bench-set-aside-pieces>
      <bench-bin></bench-bin>
      <section>
        <h2>Licences</h2>
        <div class="row">
          <span>What the bench is built from</span>
          <a href="./licences.html" target="_blank" rel="noopener">Licences, in full</a>
        </div>
      </section>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-setup': SetupScreen;
  }
}
