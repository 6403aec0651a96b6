import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Gauge } from '../../shared/gauge.ts';
import { MM_PER } from '../../shared/units.ts';
import { partReversal, type Reversal, type TurnedPair } from '../../src/gauge/reversal.ts';
import { differenceFigure, joined, UNIT_WORDS } from '../../src/words/format.ts';
import '../figures-table/copy-table.ts';
import { numberIn } from '../form-fields.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const PLACES = 3;

/** Six readings at three distances, as usual and with the reed turned, that tell the knife hand from a tilted tongue. */
@customElement('bench-turned-form')
export class TurnedForm extends BenchElement {
  static override styles = [
    controls,
    tables,
    forms,
    css`
      form {
        display: grid;
        justify-items: start;
      }
      td input {
        width: 4.6em;
      }
      .scroll {
        width: 100%;
        overflow-x: auto;
      }
      p {
        margin: 0;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private problem = '';
  @state() private found: Reversal | undefined;

  /** The gauge that the tilt is kept with. */
  @property({ attribute: false }) gauge: Gauge | undefined;

  private handleSubmit(event: SubmitEvent) {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const per = MM_PER[this.library.writing.unit];
    const pairs = Array.from({ length: PLACES }, (_, i): TurnedPair => {
      const value = (name: string) => (numberIn(form, `${name} ${i}`) ?? NaN) * per;
      return {
        usualMm: value('usual right') - value('usual left'),
        turnedMm: value('turned right') - value('turned left'),
      };
    });
    const isWhole = pairs.every(({ usualMm, turnedMm }) => Number.isFinite(usualMm + turnedMm));
    this.problem = isWhole ? '' : 'All twelve numbers are needed, each a thickness.';
    this.found = isWhole ? partReversal(pairs) : undefined;
  }

  private handleKeep() {
    const { gauge, found } = this;
    if (!gauge || !found) return;
    void this.library.store?.keep(
      [{ ...gauge, reversalHandMm: found.tilt.valueMm }],
      `tilt of ${gauge.name}`,
    );
  }

  override render() {
    const { unit } = this.library.writing;
    const cell = (name: string, i: number) =>
      html`<td>
        <input
          name=${`${name} ${i}`}
          aria-label=${`Place ${i + 1}, ${name}`}
          inputmode="decimal"
          autocomplete="off"
        />
      </td>`;
    return html`<form @submit=${this.handleSubmit}>
      <div class="scroll">
        <table>
          <caption>
            One blade, left and right at three distances, ${UNIT_WORDS[unit].caption}; then pushed on from the
            other direction and read again, left and right still in the blade’s own view
            <bench-copy></bench-copy>
          </caption>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">left</th>
              <th scope="col">right</th>
              <th scope="col">turned, left</th>
              <th scope="col">turned, right</th>
            </tr>
          </thead>
          <tbody>
            ${Array.from(
              { length: PLACES },
              (_, i) =>
                html`<tr>
                  <th scope="row">${i + 1}</th>
                  ${['usual left', 'usual right', 'turned left', 'turned right'].map((name) => cell(name, i))}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <button>Tell hand from tilt</button>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      ${this.renderFound()}
    </form>`;
  }

  private renderFound() {
    const { found, gauge } = this;
    if (!found) return nothing;
    const text = (part: Reversal['hand']) => joined(differenceFigure(part, this.library.writing));
    const words = found.tilt.told
      ? 'The gauge itself makes a part of the difference.'
      : found.hand.told
        ? 'It is the reed: the gauge makes no difference that these readings can tell.'
        : 'These readings tell neither from nothing.';
    return html`<p role="status">
        ${words} The reed’s own ${text(found.hand)}, the gauge’s ${text(found.tilt)}, right less left.
      </p>
      ${
        gauge && found.tilt.told
          ? html`<button type="button" @click=${this.handleKeep}>Keep the tilt with ${gauge.name}</button>`
          : nothing
      }`;
  }
}
