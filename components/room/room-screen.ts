import { css, html, LitElement, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { airReadingSchema, type AirReading } from '../../shared/room.ts';
import { airLog, todayAndBefore, type AirEntry } from '../../src/climate/air-log.ts';
import { airChange } from '../../src/climate/travel.ts';
import { numberText } from '../../src/words/format.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls, tables } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import './air-figures.ts';
import { weatherWords } from './air-words.ts';
import './travel-panel.ts';

const FIELDS: readonly Field<Extract<keyof AirReading, string>>[] = [
  { name: 'temperatureC', words: 'Temperature, °C', kind: 'number' },
  { name: 'humidityPct', words: 'Humidity, %', kind: 'number' },
  { name: 'elevationM', words: 'Height above the sea, m', kind: 'number' },
  { name: 'place', words: 'Where', kind: 'text' },
];
const SHOWN = 14;
const FROM_WORDS: Readonly<Record<AirEntry['from'], string>> = {
  room: 'room',
  trial: 'with a trial',
  pass: 'with a pass',
};

/** The room: will today's air change my reeds, and what about the place I travel to? */
@customElement('bench-room')
export class RoomScreen extends LitElement {
  static override styles = [
    base,
    controls,
    tables,
    forms,
    fields,
    pages,
    css`
      h1 em {
        color: var(--bench-ink2);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @state() private problem = '';

  private get entries(): AirEntry[] {
    const { air, trial, pass } = this.library.store!.snapshot.live;
    return airLog({ air, trials: trial, passes: pass });
  }

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const store = this.library.store!;
    const typed = readFields(new FormData(form), FIELDS, airReadingSchema);
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(form, 'problem' in typed ? typed.name : undefined);
    if ('problem' in typed) return;
    const { temperatureC, humidityPct, elevationM, place } = typed.values;
    if (temperatureC === undefined && humidityPct === undefined) {
      this.problem = 'Write the temperature, the humidity or both.';
      markField(form, 'temperatureC');
      return;
    }
    const reading = {
      kind: 'air' as const,
      at: store.ledger.now(),
      ...(temperatureC !== undefined && { temperatureC }),
      ...(humidityPct !== undefined && { humidityPct }),
      ...(elevationM !== undefined && { elevationM }),
      ...(place !== undefined && { place }),
    };
    if (!(await store.keep([reading], 'the air of the room'))) return;
    // Height and place stay for the next time.
    for (const name of ['temperatureC', 'humidityPct']) {
      const field = form.elements.namedItem(name);
      if (field instanceof HTMLInputElement) field.value = '';
    }
  }

  override render() {
    if (!this.library.store) return nothing;
    const { entries } = this;
    const { today, before } = todayAndBefore(entries);
    return html`<div class="page">
      <h1>${this.sentence(today, before)}</h1>
      <div class="two">
        <section>
          <h2>The air now</h2>
          <form @submit=${this.handleKeep}>
            <div class="fields">${renderFields(FIELDS, this.usual(entries), this.library.writing)}</div>
            ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
            <div class="acts"><button class="main">Keep</button></div>
          </form>
          ${this.renderFigures(today)} ${this.renderLog(entries)}
        </section>
        <bench-travel .here=${today?.air}></bench-travel>
      </div>
    </div>`;
  }

  /** Height and place seldom change: the last ones are offered. */
  private usual(entries: readonly AirEntry[]) {
    const last = [...entries].reverse().find(({ from }) => from === 'room');
    return last ? { place: last.place, ...(!last.heightAssumed && { elevationM: last.air.elevationM }) } : {};
  }

  private sentence(today: AirEntry | undefined, before: AirEntry | undefined) {
    if (!today) return 'No reading of the room. Type one.';
    const { writing } = this.library;
    const { temperatureC, humidityPct } = today.air;
    const now = `${numberText(humidityPct, 0, writing)}\u00a0% and ${numberText(temperatureC, 1, writing)}\u00a0°C.`;
    if (!before) return html`${now} <em>Nothing was written the day before to hold it against.</em>`;
    const [say, caution] = weatherWords(airChange(before.air, today.air));
    return html`${now} ${say} <em>${caution}</em>`;
  }

  private renderFigures(today: AirEntry | undefined) {
    if (!today) return nothing;
    return html`<details>
      <summary>What follows from it</summary>
      <bench-air-figures .here=${today.air} .decimal=${this.library.choices.decimal}></bench-air-figures>
      ${today.heightAssumed ? html`<p class="quiet">No height is written: sea level is assumed.</p>` : nothing}
    </details>`;
  }

  private renderLog(entries: readonly AirEntry[]) {
    if (entries.length === 0) return nothing;
    const { writing } = this.library;
    return html`<div class="scroll" tabindex="0" role="region" aria-label="Air that was written down">
      <table>
        <caption>
          The last ${Math.min(SHOWN, entries.length)} of ${entries.length}, the latest first
        </caption>
        <thead>
          <tr>
            <th scope="col">When</th>
            <th scope="col">°C</th>
            <th scope="col">%</th>
            <th scope="col">m</th>
            <th scope="col">Where</th>
          </tr>
        </thead>
        <tbody>
          ${entries
            .slice(-SHOWN)
            .reverse()
            .map(
              ({ at, air, place, from, heightAssumed }) =>
                html`<tr>
                  <th scope="row">${at.slice(0, 16).replace('T', ' ')}</th>
                  <td>${numberText(air.temperatureC, 1, writing)}</td>
                  <td>${numberText(air.humidityPct, 0, writing)}</td>
                  <td>${heightAssumed ? '–' : numberText(air.elevationM, 0, writing)}</td>
                  <td>
                    ${[place, from === 'room' ? '' : FROM_WORDS[from]].filter(Boolean).join(', ') || FROM_WORDS[from]}
                  </td>
                </tr>`,
            )}
        </tbody>
      </table>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-room': RoomScreen;
  }
}
