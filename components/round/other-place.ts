import { css, html } from 'lit';
import { bladeSchema } from '../../shared/fields.ts';
import { customElement, property, query, state } from 'lit/decorators.js';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import { STEPS } from '../../src/round/place-words.ts';
import { plainText, type NumberFormat } from '../../src/words/format.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { boxes } from '../theme/forms.styles.ts';

/** The next reading is of a place that the maker names. */
export class OtherPlaceEvent extends Event {
  readonly place: Place;

  constructor(place: Place) {
    super('bench-other-place');
    this.place = place;
  }
}

const MOST_MM = 60;

/**
 * A place besides those asked for, named by keyboard: distance, blade, and where across.
 *
 * @event bench-other-place - Carries the place.
 */
@customElement('bench-other-place')
export class OtherPlace extends BenchElement {
  static override styles = [
    controls,
    boxes,
    css`
      summary {
        width: fit-content;
        padding: var(--bench-space-2) 0;
        color: var(--bench-ink2);
        text-decoration: underline;
        text-underline-offset: 3px;
      }
      form {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-3);
        align-items: end;
      }
      label {
        display: grid;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      input {
        width: 6em;
      }
      p {
        margin: 0;
        color: var(--bench-stop);
      }
    `,
  ];

  /** The blade on which the maker stands. */
  @property() blade: Blade = 'A';
  @property() decimal: NumberFormat['decimal'] = 'point';
  @query('details') private readonly details!: HTMLDetailsElement;
  @state() private problem = '';

  private handleGo(event: SubmitEvent) {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const text = String(form.get('from-tip')).trim();
    const fromTipMm = Number(text.replace(',', '.'));
    const isPlace = text !== '' && fromTipMm >= 0 && fromTipMm <= MOST_MM;
    this.problem = isPlace ? '' : `Type its distance from the tip in mm, such as ${plainText(4.5, this)}.`;
    if (!isPlace) return;
    this.details.open = false;
    const blade = bladeSchema.parse(form.get('blade'));
    this.dispatchEvent(new OtherPlaceEvent({ blade, fromTipMm, across: Number(form.get('across')) }));
  }

  override render() {
    return html`<details>
      <summary>Another place</summary>
      <form @submit=${this.handleGo}>
        <label>mm from the tip <input name="from-tip" inputmode="decimal" autocomplete="off" /></label>
        <label>
          Blade
          <select name="blade">
            ${BLADES.map((blade) => html`<option ?selected=${blade === this.blade}>${blade}</option>`)}
          </select>
        </label>
        <label>
          Across
          <select name="across">
            ${STEPS.map(({ across, words }) => html`<option value=${across} ?selected=${across === 0}>${words}</option>`)}
          </select>
        </label>
        <button>Read there</button>
        <p role="status">${this.problem}</p>
      </form>
    </details>`;
  }
}
