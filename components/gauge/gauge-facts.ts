import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { gaugeSchema } from '../../shared/gauge.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { GaugeFactsEvent, type GaugeFacts } from './gauge-events.ts';

const FIELDS: readonly Field<keyof GaugeFacts>[] = [
  { name: 'name', words: 'Name', kind: 'text' },
  { name: 'tongueMm', words: 'Thickness of the tongue where it was zeroed without it, mm', kind: 'number' },
  {
    name: 'seatingSdMm',
    words: 'Scatter of one reading as promised, one standard deviation, mm',
    kind: 'number',
  },
  {
    name: 'placementSdMm',
    words: 'How well a place is found again, one standard deviation, mm',
    kind: 'number',
  },
  { name: 'ballDiameterMm', words: 'Ball, mm across', kind: 'number' },
  { name: 'forceN', words: 'Force of the ball, newtons', kind: 'number' },
];

/**
 * What the maker knows of the gauge without reading anything: it enters every figure until studies say better.
 *
 * @event bench-gauge-facts - What was typed, checked.
 */
@customElement('bench-gauge-facts')
export class GaugeFactsForm extends BenchElement {
  static override styles = [controls, forms, fields, pages];

  @property({ attribute: false }) gauge: GaugeFacts | undefined;
  @state() private problem = '';

  private handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const typed = readFields(new FormData(form), FIELDS, gaugeSchema);
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(form, 'name' in typed ? typed.name : undefined);
    if ('values' in typed) this.dispatchEvent(new GaugeFactsEvent(typed.values));
  }

  override render() {
    return html`<details>
      <summary>What you know of it</summary>
      <form @submit=${this.handleKeep}>
        <div class="fields">${renderFields(FIELDS, this.gauge)}</div>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button class="main">Keep</button>
          <span class="quiet">
            It enters every pass that was read with this gauge. A blank is what is usual; your repeat studies
            go before a promised scatter.
          </span>
        </div>
      </form>
    </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gauge-facts': GaugeFactsForm;
  }
}
