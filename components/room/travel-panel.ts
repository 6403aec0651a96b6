import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { airReadingSchema, type Engagement } from '../../shared/room.ts';
import { airChange, preparations, type Air } from '../../src/climate/travel.ts';
import { numberText, signedText, withUnit } from '../../src/words/format.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './air-figures.ts';

const FIELDS: readonly Field<'temperatureC' | 'humidityPct' | 'elevationM'>[] = [
  { name: 'temperatureC', words: 'Temperature there, °C', kind: 'number' },
  { name: 'humidityPct', words: 'Humidity there, %', kind: 'number' },
  { name: 'elevationM', words: 'Height there, m', kind: 'number' },
];

/** What changes between the air here and the air of a place to travel to, and what makers do about it. */
@customElement('bench-travel')
export class TravelPanel extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    pages,
    css`
      ul {
        display: grid;
        gap: var(--bench-space-2);
        max-width: 60ch;
        margin: 0;
        padding-left: 1.2em;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @query('form') private readonly form!: HTMLFormElement;
  @state() private problem = '';
  @state() private there: Air | undefined;

  @property({ attribute: false }) here: Air | undefined;

  private handleCompare(event: SubmitEvent) {
    event.preventDefault();
    const typed = readFields(new FormData(this.form), FIELDS, airReadingSchema);
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(this.form, 'problem' in typed ? typed.name : undefined);
    if ('problem' in typed) return;
    const { temperatureC, humidityPct, elevationM } = typed.values;
    if (temperatureC === undefined || humidityPct === undefined) {
      this.problem = 'Write the temperature and the humidity that you expect there.';
      markField(this.form, temperatureC === undefined ? 'temperatureC' : 'humidityPct');
      return;
    }
    this.there = { temperatureC, humidityPct, elevationM: elevationM ?? 0 };
  }

  /** Engagements of which the air is written. */
  private get known(): Engagement[] {
    const { engagement } = this.library.store!.snapshot.live;
    return engagement.filter(
      ({ temperatureC, humidityPct }) => temperatureC !== undefined && humidityPct !== undefined,
    );
  }

  private handleEngagement(event: Event) {
    const chosen = this.known.find(({ id }) => id === (event.target as HTMLSelectElement).value);
    for (const { name } of FIELDS) {
      const field = this.form.elements.namedItem(name);
      if (field instanceof HTMLInputElement) field.value = String(chosen?.[name] ?? '');
    }
  }

  override render() {
    if (!this.library.store) return nothing;
    const { known } = this;
    return html`<section>
      <h2>If you travel</h2>
      <form @submit=${this.handleCompare}>
        <div class="fields">
          ${
            known.length > 0
              ? html`<label
                  >As for an engagement<select @change=${this.handleEngagement}>
                    <option value="">–</option>
                    ${known.map(({ id, title }) => html`<option value=${id}>${title}</option>`)}
                  </select></label
                >`
              : nothing
          }
          ${renderFields(FIELDS)}
        </div>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts"><button class="main" ?disabled=${!this.here}>Compare</button></div>
        ${this.here ? nothing : html`<p class="quiet">Write the air here first.</p>`}
      </form>
      <div role="status">${this.renderChange()}</div>
    </section>`;
  }

  private renderChange() {
    const { here, there } = this;
    if (!here || !there) return nothing;
    const change = airChange(here, there);
    const { writing } = this.library;
    const prepared = preparations(change);
    return html`<section>
      <p class="aside">
        ${withUnit(signedText(change.humidityPct, 0, writing), '% humidity')},
        ${withUnit(signedText(there.temperatureC - here.temperatureC, 0, writing), '°C')},
        ${withUnit(signedText(change.elevationM, 0, writing), 'm')}.
        ${Math.abs(change.pitchCents) < 0.05 ? 'No drift of pitch from the temperature.' : `An air column goes ${numberText(Math.abs(change.pitchCents), 0, writing)} cents ${change.pitchCents > 0 ? 'sharp' : 'flat'}; a played instrument, warmed by breath, less.`}
      </p>
      ${
        prepared.length > 0
          ? html`<ul>
              ${prepared.map((line) => html`<li>${line}</li>`)}
            </ul>`
          : html`<p>Too small a change to prepare for.</p>`
      }
      <p class="quiet">
        Likely directions, as makers tell them; schools differ, and every reed goes its own way.
      </p>
      <bench-air-figures .here=${here} .there=${there} .decimal=${writing.decimal}></bench-air-figures>
    </section>`;
  }
}
