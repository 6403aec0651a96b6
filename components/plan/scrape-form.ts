import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { strokesSchema, type Pass, type Strokes } from '../../shared/pass.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { fields } from './fields.styles.ts';

/** A zone by its name and its word. */
interface Named {
  readonly name: string;
  readonly title: string;
}

const BLADE_WORDS = { A: 'A', B: 'B', both: 'both blades' } as const;
const SIDE_WORDS = { left: 'left', right: 'right', both: 'both sides' } as const;

/** What the knife did before a pass was read: the knife, and the strokes in each place. Kept with the pass. */
@customElement('bench-scrape-form')
export class ScrapeForm extends BenchElement {
  static override styles = [
    controls,
    fields,
    css`
      form {
        display: grid;
        gap: var(--bench-space-3);
      }
      .place {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(104px, 1fr));
        gap: var(--bench-space-2);
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) pass: Pass | undefined;
  @property({ attribute: false }) zones: readonly Named[] = [];
  /** Where strokes were meant, offered while nothing is written down. */
  @property({ attribute: false }) meant: readonly Strokes[] = [];
  /** The knife that was meant, or the last one used. */
  @property() knife = '';
  @state() private places: readonly Strokes[] = [];
  @state() private said = '';

  override willUpdate(changed: PropertyValues<this>) {
    if (!changed.has('pass') || changed.get('pass')?.id === this.pass?.id) return;
    const written = this.pass?.scrape?.places ?? [];
    this.places = written.length > 0 ? written : this.meant;
    this.said = '';
  }

  private get blank(): Strokes {
    return { zone: this.zones[0]?.name ?? 'tip', blade: 'both', side: 'both' };
  }

  private placesIn(form: FormData): Strokes[] | undefined {
    const places = this.places.map((_, i) => {
      const strokes = String(form.get(`strokes ${i}`) ?? '').trim();
      return strokesSchema.safeParse({
        zone: form.get(`zone ${i}`),
        blade: form.get(`blade ${i}`),
        side: form.get(`side ${i}`),
        ...(strokes !== '' && { strokes: Number(strokes) }),
      });
    });
    return places.every(({ success }) => success) ? places.flatMap(({ data }) => data ?? []) : undefined;
  }

  private async handleSubmit(event: SubmitEvent) {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const { pass } = this;
    const { store } = this.library;
    const places = this.placesIn(form);
    if (!places) {
      this.said = 'Strokes are whole numbers from 0 to 1000. Nothing was changed.';
      return;
    }
    if (!store || !pass) return;
    const knife = String(form.get('knife') ?? '').trim();
    const kept = await store.keepLatest(() => {
      const now = store.passesOf(pass.reedId).find(({ id }) => id === pass.id);
      if (!now) return [];
      const { knife: _knife, ...rest } = now.scrape ?? { places: [] };
      return [{ ...now, scrape: { ...rest, places, ...(knife && { knife }) } }];
    }, `what the knife did before pass ${pass.index}`);
    this.said = kept ? 'Kept with the pass.' : '';
  }

  override render() {
    const { pass } = this;
    if (!pass) return nothing;
    return html`<form @submit=${this.handleSubmit}>
      <label
        >Knife<input
          name="knife"
          maxlength="80"
          autocomplete="off"
          .value=${pass.scrape?.knife ?? this.knife}
      /></label>
      ${this.places.map((place, i) => this.renderPlace(place, i))}
      <div class="acts">
        <button type="button" @click=${() => (this.places = [...this.places, this.blank])}>
          ${this.places.length > 0 ? 'Another place' : 'Add a place'}
        </button>
        <button>Keep the strokes</button>
      </div>
      <p class="note" role="status">${this.said}</p>
    </form>`;
  }

  private renderPlace(place: Strokes, i: number) {
    const select = (name: 'blade' | 'side', label: string, words: Readonly<Record<string, string>>) =>
      html`<label
        >${label}<select name=${`${name} ${i}`}>
          ${Object.entries(words).map(
            ([value, word]) =>
              html`<option value=${value} ?selected=${value === place[name]}>${word}</option>`,
          )}
        </select></label
      >`;
    const known = this.zones.some(({ name }) => name === place.zone);
    const zones = known ? this.zones : [...this.zones, { name: place.zone, title: place.zone }];
    return html`<div class="place" role="group" aria-label=${`Place ${i + 1}`}>
      <label
        >Where<select name=${`zone ${i}`}>
          ${zones.map(
            ({ name, title }) =>
              html`<option value=${name} ?selected=${name === place.zone}>${title}</option>`,
          )}
        </select></label
      >
      ${select('blade', 'Blade', BLADE_WORDS)} ${select('side', 'Side', SIDE_WORDS)}
      <label
        >Strokes in each<input
          name=${`strokes ${i}`}
          inputmode="numeric"
          autocomplete="off"
          .value=${place.strokes?.toString() ?? ''}
      /></label>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-scrape-form': ScrapeForm;
  }
}
