import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Station } from '../../shared/grid.ts';
import { zonesAt, type FittedReed } from '../../src/answers/fitted-reed.ts';
import { readNext, type ReadNext } from '../../src/answers/read-next.ts';
import { placeKey } from '../../src/round/place-words.ts';
import { signedText, stationText, doubtText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { adjusters, controls } from '../theme/base.styles.ts';
import { RoundStartEvent } from '../round/round-start-event.ts';
import { BenchElement } from '../theme/bench-element.ts';

/**
 * The few places whose reading would most sharpen the mean of a zone, with the doubt that is left after each.
 *
 * @event bench-round-start - A round of exactly these places is wanted; carries its plan.
 */
@customElement('bench-read-next')
export class ReadNextPlaces extends BenchElement {
  static override styles = [
    controls,
    adjusters,
    css`
      ol {
        margin: var(--bench-space-3) 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: var(--bench-space-3);
        padding: var(--bench-space-2) 0;
        border-top: 1px solid var(--bench-rule);
        font-variant-numeric: tabular-nums;
      }
      .note {
        margin: 0 0 var(--bench-space-3);
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
    `,
  ];

  /** The reed; it must have been read. */
  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass in which the readings would be taken. */
  @property({ type: Number }) pass = 0;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  /** Offer a round of the places: of a reed's latest pass, with no round half done. */
  @property({ type: Boolean, attribute: 'can-start' }) canStart = false;

  @state() private zone = 'heart';
  private found: ReadNext | undefined;

  override willUpdate(changed: PropertyValues) {
    const { benched, pass } = this;
    if (!benched) return;
    const zones = zonesAt(benched, pass);
    if (!zones.some(({ name }) => name === this.zone)) this.zone = zones[0]?.name ?? '';
    const names = ['benched', 'pass', 'zone'] as const;
    if (names.some((name) => changed.has(name))) this.found = readNext(benched, pass, this.zone);
  }

  private handleZone(event: Event) {
    this.zone = (event.currentTarget as HTMLSelectElement).value;
  }

  private handleStart({ places }: ReadNext) {
    const { title } = zonesAt(this.benched!, this.pass).find(({ name }) => name === this.zone)!;
    const stations = places.map(({ blade, fromTipMm, across }) => ({
      blade,
      fromTipMm,
      across,
      role: 'station' as const,
    }));
    const isFirst = (station: Station, i: number) =>
      stations.findIndex((other) => placeKey(other) === placeKey(station)) === i;
    this.dispatchEvent(
      new RoundStartEvent({ name: `To know the ${title.toLowerCase()}`, stations: stations.filter(isFirst) }),
    );
  }

  private renderPlaces(found: ReadNext) {
    const { places, uMm, isWorthIt } = found;
    const { writing } = this;
    return html`<ol>
        ${places.map(
          (place) =>
            html`<li>
              <span
                >${place.where} at ${stationText(place.fromTipMm, writing)},
                ${place.across === 0 ? 'centre' : signedText(place.across, 1, writing)}</span
              >
              <span>${doubtText(place.uMm, writing)}</span>
            </li>`,
        )}
      </ol>
      <p class="note">
        ${isWorthIt ? '' : 'Reading on would hardly sharpen it. '}Now ${doubtText(uMm, writing)}; beside each
        place what is left of it once that place and those above it are read. ± is 95 %,
        ${UNIT_WORDS[writing.unit].caption}. Across: part of the half-width, − left, + right.
      </p>
      ${
        this.canStart
          ? html`<button @click=${() => this.handleStart(found)}>Start a round of these places</button>`
          : nothing
      }`;
  }

  override render() {
    const { benched } = this;
    if (!benched?.model) return nothing;
    return html`<label
        >To know the mean of
        <select @change=${this.handleZone}>
          ${zonesAt(benched, this.pass).map(
            ({ name, title }) =>
              html`<option value=${name} ?selected=${name === this.zone}>${title.toLowerCase()}</option>`,
          )}
        </select></label
      >
      <div role="status">${this.found ? this.renderPlaces(this.found) : 'This zone has no area here.'}</div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-read-next': ReadNextPlaces;
  }
}
