import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Gauge } from '../../shared/gauge.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import { readingText } from '../../src/round/reading-text.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import '../figures-table/copy-table.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { GaugeCheckEvent } from './gauge-events.ts';
import { gaugeStyles } from './gauge.styles.ts';
import { numberText, withUnit, type NumberFormat } from '../../src/words/format.ts';
import './known-line.ts';

type Known = Gauge['checks'][number]['known'];

/** A feeler or slip gauge of the trade is this sure. From memory: ordinary feeler gauges, about 5 micrometres. */
const USUAL_NOMINAL_U_MM = 0.0025;

/**
 * Known thicknesses: what they are and what the gauge shows for them, the line through them and what is left over.
 *
 * @event bench-gauge-check - The known thicknesses are to be kept as a check.
 */
@customElement('bench-known-check')
export class KnownCheck extends BenchElement {
  static override styles = [controls, tables, gaugeStyles];

  @query('[name=nominal]') private readonly nominal!: HTMLInputElement;
  @query('[name=shown]') private readonly shown!: HTMLInputElement;
  @state() private known: Known = [];
  @state() private problem = '';

  @property() count: GaugeCount = 'hundredths';
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  @property({ type: Number, attribute: 'step-mm' }) stepMm = 0.01;
  /** Scatter of one reading, one standard deviation. */
  @property({ type: Number, attribute: 'sd-mm' }) sdMm = 0.005;

  private handleAdd(event: Event) {
    event.preventDefault();
    const nominal = typedReading(this.nominal.value, this.count, this.writing.decimal);
    const shown = this.shown.value
      .split(/[;\s]+/)
      .filter(Boolean)
      .map((text) => typedReading(text, this.count, this.writing.decimal));
    const bad = [nominal, ...shown].find((typed) => typed.kind === 'unclear');
    if (bad?.kind === 'unclear' || nominal.kind !== 'reading' || shown.length === 0) {
      this.problem = bad?.kind === 'unclear' ? bad.why : 'Type what it is and what the gauge shows.';
      return;
    }
    const shownMm = shown.flatMap((typed) => (typed.kind === 'reading' ? [typed.thicknessMm] : []));
    this.known = [...this.known, { nominalMm: nominal.thicknessMm, nominalUMm: USUAL_NOMINAL_U_MM, shownMm }];
    this.problem = '';
    this.nominal.value = '';
    this.shown.value = '';
    this.nominal.focus();
  }

  private handleKeep() {
    this.dispatchEvent(new GaugeCheckEvent({ known: this.known }));
    this.known = [];
  }

  override render() {
    return html`<h2>Known thicknesses</h2>
      <p class="quiet">
        A feeler of ${numberText(0.1, 2, this.writing)} and one of
        ${withUnit(numberText(0.5, 2, this.writing), 'mm')}, once a month. Type several readings with spaces
        between.
      </p>
      <form class="row" @submit=${this.handleAdd}>
        <label>It is <input name="nominal" inputmode="decimal" autocomplete="off" /></label>
        <label>The gauge shows <input name="shown" inputmode="decimal" autocomplete="off" /></label>
        <button>Add</button>
      </form>
      <p class="problem" role="status">${this.problem}</p>
      ${this.known.length > 0 ? this.renderKnown() : nothing}`;
  }

  private renderKnown() {
    const text = (mm: number) => readingText(mm, { count: this.count, decimal: this.writing.decimal });
    return html`<table>
        <caption>
          In ${this.count}
          <bench-copy></bench-copy>
        </caption>
        <thead>
          <tr>
            <th scope="col">It is</th>
            <th scope="col">Shown</th>
          </tr>
        </thead>
        <tbody>
          ${this.known.map(
            ({ nominalMm, shownMm }) =>
              html`<tr>
                <th scope="row">${text(nominalMm)}</th>
                <td>${shownMm.map(text).join(', ')}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      <bench-known-line
        .check=${{ known: [...this.known] }}
        .stepMm=${this.stepMm}
        .sdMm=${this.sdMm}
        .writing=${this.writing}
      ></bench-known-line>
      <div class="row"><button @click=${this.handleKeep}>Keep these</button></div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-known-check': KnownCheck;
  }
}
