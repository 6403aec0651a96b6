import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { strokesSchema, type Strokes } from '../../shared/pass.ts';
import { bladesSchema } from '../../shared/remedy.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { boxes } from '../theme/forms.styles.ts';

/** Where the knife went was changed by hand. */
export class ScrapePlacesEvent extends Event {
  readonly places: readonly Strokes[];

  constructor(places: readonly Strokes[]) {
    super('bench-scrape-places');
    this.places = places;
  }
}

const BLADE_WORDS = { A: 'A', B: 'B', both: 'both blades' } as const;
const SIDES = strokesSchema.shape.side.options;
const SIDE_WORDS = { left: 'left', right: 'right', both: 'both sides' } as const;

const placeWords = ({ blade, side, strokes }: Strokes) =>
  `${BLADE_WORDS[blade]}, ${SIDE_WORDS[side]}${strokes === undefined ? '' : `, ${strokes} strokes`}`;

/** How many strokes a text means; undefined for a blank, null for what cannot be. */
function strokesIn(text: string): number | undefined | null {
  if (text.trim() === '') return undefined;
  const strokes = strokesSchema.shape.strokes.safeParse(Number(text));
  return strokes.success ? strokes.data : null;
}

/**
 * Where the knife went and with how many strokes: a button for each zone of the style, a line for each that was chosen;
 * one of them is open at a time.
 *
 * @event bench-scrape-places - The places as they are to be.
 */
@customElement('bench-scrape-places')
export class ScrapePlaces extends BenchElement {
  static override styles = [
    controls,
    boxes,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-1) var(--bench-space-2);
        align-items: center;
        margin-top: var(--bench-space-1);
      }
      .name {
        min-width: 7em;
      }
      input {
        width: 5em;
      }
      input[aria-invalid='true'] {
        border-color: var(--bench-stop);
      }
    `,
  ];

  /** The zone whose blades, sides and strokes are being written; of the others the words alone are shown. */
  @state() private inHand: string | undefined;

  /** Zones of the reed's style, as files and the screen name them. */
  @property({ attribute: false }) zones: readonly { readonly name: string; readonly title: string }[] = [];
  @property({ attribute: false }) places: readonly Strokes[] = [];
  /** Where the knife went before the last pass: offered as a whole. */
  @property({ attribute: false }) last: readonly Strokes[] = [];

  private change(places: readonly Strokes[]) {
    this.dispatchEvent(new ScrapePlacesEvent(places));
  }

  private toggle(zone: string) {
    const others = this.places.filter((place) => place.zone !== zone);
    const isNew = others.length === this.places.length;
    this.inHand = isNew ? zone : undefined;
    this.change(isNew ? [...others, { zone, blade: 'both', side: 'both' }] : others);
  }

  private replace(at: number, changed: Partial<Strokes>) {
    this.change(this.places.map((place, i) => (i === at ? { ...place, ...changed } : place)));
  }

  private handleStrokes(at: number, input: HTMLInputElement) {
    const strokes = strokesIn(input.value);
    input.setAttribute('aria-invalid', String(strokes === null));
    if (strokes === null) return;
    const { strokes: _, ...place } = this.places[at]!;
    this.change(
      this.places.map((one, i) => (i === at ? { ...place, ...(strokes !== undefined && { strokes }) } : one)),
    );
  }

  override render() {
    const { zones, places, last } = this;
    const titleOf = (name: string) => zones.find((zone) => zone.name === name)?.title ?? name;
    return html`<div class="row" role="group" aria-label="Where the knife went">
        ${zones.map(
          ({ name, title }) =>
            html`<button
              aria-pressed=${places.some(({ zone }) => zone === name)}
              @click=${() => this.toggle(name)}
            >
              ${title}
            </button>`,
        )}
        ${
          places.length === 0 && last.length > 0
            ? html`<button @click=${() => this.change(last)}>
                Last time ${last.map(({ zone }) => titleOf(zone).toLowerCase()).join(', ')}
              </button>`
            : nothing
        }
      </div>
      ${places.map((place, at) =>
        place.zone === this.inHand
          ? this.renderPlace(place, titleOf(place.zone), at)
          : html`<div class="row">
              <button @click=${() => (this.inHand = place.zone)}>
                ${titleOf(place.zone)}: ${placeWords(place)}
              </button>
            </div>`,
      )}`;
  }

  private renderPlace({ blade, side, strokes }: Strokes, title: string, at: number) {
    const valueOf = (event: Event) => (event.target as HTMLSelectElement).value;
    return html`<div class="row">
      <span class="name">${title}</span>
      <select
        aria-label=${`${title}, blades`}
        @change=${(event: Event) => this.replace(at, { blade: bladesSchema.parse(valueOf(event)) })}
      >
        ${bladesSchema.options.map(
          (name) => html`<option value=${name} ?selected=${name === blade}>${BLADE_WORDS[name]}</option>`,
        )}
      </select>
      <select
        aria-label=${`${title}, side`}
        @change=${(event: Event) => this.replace(at, { side: strokesSchema.shape.side.parse(valueOf(event)) })}
      >
        ${SIDES.map((name) => html`<option value=${name} ?selected=${name === side}>${SIDE_WORDS[name]}</option>`)}
      </select>
      <input
        aria-label=${`${title}, strokes`}
        inputmode="numeric"
        autocomplete="off"
        .value=${strokes?.toString() ?? ''}
        @change=${(event: Event) => this.handleStrokes(at, event.target as HTMLInputElement)}
      />
      strokes
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-scrape-places': ScrapePlaces;
  }
}
