import { css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { passSchema, scrapeSchema, wetnessSchema, type Strokes } from '../../shared/pass.ts';
import type { Round } from '../../shared/round.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { plainText } from '../../src/words/format.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './scrape-places.ts';
import type { ScrapePlaces, ScrapePlacesEvent } from './scrape-places.ts';

/** What is known of a pass besides its readings; all of it may be left out. */
export type PassDetails = Round['about'];

/** What is known of a pass besides its readings was changed by hand. */
export class PassDetailsChangeEvent extends Event {
  readonly details: PassDetails;

  constructor(details: PassDetails) {
    super('bench-pass-details-change');
    this.details = details;
  }
}

const FIELDS = [
  { name: 'overallLengthMm', words: 'Overall length now, mm' },
  { name: 'clipMm', words: 'Clipped since last time, mm' },
  { name: 'soakMin', words: 'Soaked, minutes' },
  { name: 'openingMm', words: 'Opening, mm' },
] as const;
/** Asked for on a word. */
const OF_ROOM_AND_GAUGE = [
  { name: 'zeroBeforeMm', words: 'Bare tongue reads now, mm' },
  { name: 'temperatureC', words: 'Room, degrees C' },
  { name: 'humidityPct', words: 'Room, % humidity' },
] as const;
/** What a new pass cannot have from the one before. */
const NOT_OFFERED: ReadonlySet<string> = new Set(['clipMm', 'zeroBeforeMm']);
const ACCIDENTS = scrapeSchema.shape.accident.unwrap().options;
type Accident = (typeof ACCIDENTS)[number];
type FieldName = (typeof FIELDS | typeof OF_ROOM_AND_GAUGE)[number]['name'];

function without<K extends keyof PassDetails>(details: PassDetails, name: K): PassDetails {
  return Object.fromEntries(Object.entries(details).filter(([key]) => key !== name));
}

/**
 * What a pass is besides its readings: length, clip, wetness, room, knife, strokes, note. Nothing is asked for; the last values
 * are offered as buttons.
 *
 * @event bench-pass-details-change - The details as they are to be; only sound values are in it.
 */
@customElement('bench-pass-details')
export class PassDetailsPanel extends BenchElement {
  static override styles = [
    controls,
    css`
      fieldset,
      .fields {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 200px), 1fr));
        gap: var(--bench-space-3) var(--bench-space-4);
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        padding: 0 0 var(--bench-space-2);
        font: var(--bench-font-head);
      }
      label,
      .group {
        display: grid;
        gap: var(--bench-space-1);
        align-content: start;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .row {
        display: flex;
        gap: var(--bench-space-1);
      }
      input,
      textarea {
        width: 100%;
        min-height: var(--bench-touch);
        padding: var(--bench-space-1) var(--bench-space-2);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-control);
        background: var(--bench-plate);
        color: var(--bench-ink);
        font: var(--bench-font-body);
      }
      .wide {
        grid-column: 1 / -1;
      }
      summary {
        color: var(--bench-ink2);
      }
      p {
        min-height: 1.4em;
        margin: var(--bench-space-2) 0 0;
        color: var(--bench-stop);
      }
    `,
  ];

  @state() private problem = '';

  @property({ attribute: false }) details: PassDetails = {};
  /** What was written with the pass before. */
  @property({ attribute: false }) last: PassDetails = {};
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';
  /** Zones of the reed's style, for where the knife went. */
  @property({ attribute: false }) zones: ScrapePlaces['zones'] = [];

  /** A number as it is typed; nothing for none. */
  private written(value: number | undefined): string {
    return value === undefined ? '' : plainText(value, this);
  }

  private change(details: PassDetails) {
    this.problem = '';
    this.details = details;
    this.dispatchEvent(new PassDetailsChangeEvent(details));
  }

  private handleNumber(name: FieldName, words: string, text: string) {
    if (text.trim() === '') return this.change(without(this.details, name));
    const value = Number(text.trim().replace(',', '.'));
    if (!passSchema.shape[name].safeParse(value).success) {
      this.problem = `${words}: ${text} cannot be. It is left out until it is put right.`;
      return;
    }
    this.change({ ...this.details, [name]: value });
  }

  /** The length before the clip is that of the pass before; it is said, not asked. */
  private get lengthBefore() {
    const { overallLengthMm } = this.last;
    return overallLengthMm === undefined ? '' : `, ${this.written(overallLengthMm)} before`;
  }

  private get places(): readonly Strokes[] {
    return this.details.scrape?.places ?? [];
  }

  private handleAccident(accident: Accident) {
    const { accident: before, ...scrape } = this.details.scrape ?? { places: [] };
    const now = { ...scrape, ...(before !== accident && { accident }) };
    this.change({ ...this.details, scrape: now });
  }

  /** What is written of the scraping; undefined takes it out. */
  private changeScrape(name: 'knife' | 'minutes', value: string | number | undefined) {
    const { places = [], ...others } = this.details.scrape ?? {};
    const rest = Object.fromEntries(Object.entries(others).filter(([key]) => key !== name));
    this.change({
      ...this.details,
      scrape: { ...rest, places, ...(value !== undefined && { [name]: value }) },
    });
  }

  private handleMinutes(text: string) {
    if (text.trim() === '') return this.changeScrape('minutes', undefined);
    const minutes = Number(text.trim().replace(',', '.'));
    if (!scrapeSchema.shape.minutes.safeParse(minutes).success) {
      this.problem = `Minutes with the knife: ${text} cannot be. It is left out until it is put right.`;
      return;
    }
    this.changeScrape('minutes', minutes);
  }

  override render() {
    return html`<fieldset>
        <legend>About this pass, if you like</legend>
        <div class="group" role="group" aria-label="Wetness">
          The reed is
          <div class="row">
            ${wetnessSchema.options.map(
              (wetness) =>
                html`<button
                  aria-pressed=${this.details.wetness === wetness}
                  @click=${() => this.change({ ...this.details, wetness })}
                >
                  ${wetness}${this.last.wetness === wetness && !this.details.wetness ? ', as last time' : ''}
                </button>`,
            )}
          </div>
        </div>
        ${FIELDS.map(({ name, words }) => this.renderNumber(name, words))}
        <div class="group wide">
          Where it went, and how many strokes
          <bench-scrape-places
            .zones=${this.zones}
            .places=${this.places}
            .last=${this.last.scrape?.places ?? []}
            @bench-scrape-places=${({ places }: ScrapePlacesEvent) =>
              this.change({ ...this.details, scrape: { ...this.details.scrape, places: [...places] } })}
          ></bench-scrape-places>
        </div>
        <label class="wide">
          Note
          <textarea
            rows="2"
            maxlength="4000"
            .value=${this.details.note ?? ''}
            @change=${(event: Event) => {
              const note = (event.target as HTMLTextAreaElement).value;
              this.change(note ? { ...this.details, note } : without(this.details, 'note'));
            }}
          ></textarea>
        </label>
        <details class="wide">
          <summary>The knife, minutes, an accident</summary>
          <div class="fields">${this.renderKnife()} ${this.renderMinutes()} ${this.renderAccident()}</div>
        </details>
        <details class="wide">
          <summary>The room and the gauge</summary>
          <div class="fields">
            ${OF_ROOM_AND_GAUGE.map(({ name, words }) => this.renderNumber(name, words))}
          </div>
        </details>
      </fieldset>
      <p role="status">${this.problem}</p>`;
  }

  private renderAccident() {
    return html`<div class="group wide" role="group" aria-label="An accident">
      An accident
      <div class="row">
        ${ACCIDENTS.map(
          (accident) =>
            html`<button
              aria-pressed=${this.details.scrape?.accident === accident}
              @click=${() => this.handleAccident(accident)}
            >
              ${accident}
            </button>`,
        )}
      </div>
    </div>`;
  }

  private renderNumber(name: FieldName, words: string) {
    const last = this.last[name];
    const offer = last !== undefined && this.details[name] === undefined && !NOT_OFFERED.has(name);
    return html`<div class="group">
      <label>
        ${words}${name === 'overallLengthMm' ? this.lengthBefore : ''}
        <input
          name=${name}
          inputmode="decimal"
          autocomplete="off"
          .value=${this.written(this.details[name])}
          @change=${(event: Event) => this.handleNumber(name, words, (event.target as HTMLInputElement).value)}
        />
      </label>
      ${offer ? html`<button @click=${() => this.change({ ...this.details, [name]: last })}>Last time ${this.written(last)}</button>` : ''}
    </div>`;
  }

  private renderKnife() {
    const last = this.last.scrape?.knife;
    const knife = this.details.scrape?.knife;
    return html`<div class="group">
      <label>
        Knife
        <input
          name="knife"
          maxlength="80"
          .value=${knife ?? ''}
          @change=${(event: Event) => this.changeScrape('knife', (event.target as HTMLInputElement).value.trim() || undefined)}
        />
      </label>
      ${last && !knife ? html`<button @click=${() => this.changeScrape('knife', last)}>Last time ${last}</button>` : ''}
    </div>`;
  }

  private renderMinutes() {
    return html`<div class="group">
      <label>
        With the knife, minutes
        <input
          name="minutes"
          inputmode="decimal"
          autocomplete="off"
          .value=${this.written(this.details.scrape?.minutes)}
          @change=${(event: Event) => this.handleMinutes((event.target as HTMLInputElement).value)}
        />
      </label>
    </div>`;
  }
}
