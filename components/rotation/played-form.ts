import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { useSchema, type Use } from '../../shared/room.ts';
import type { Reed } from '../../shared/reed.ts';
import { plainText } from '../../src/words/format.ts';
import { numberIn, textIn } from '../form-fields.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const SERVICES = useSchema.shape.service.options;

/**
 * Keeps one playing of a reed: how long, at what, and how it felt; or mends one that was kept, and puts it into the bin.
 *
 * @event bench-use-removed - The playing went into the bin.
 */
@customElement('bench-played-form')
export class PlayedForm extends BenchElement {
  static override styles = [
    controls,
    forms,
    css`
      label.short {
        flex: 0 1 7em;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  /** The reeds to choose from; one stands alone. */
  @property({ attribute: false }) reeds: readonly Reed[] = [];
  /** The playing that is mended; absent for a new one. */
  @property({ attribute: false }) use: Use | undefined;

  private async handleSubmit(event: SubmitEvent) {
    event.preventDefault();
    const target = event.currentTarget as HTMLFormElement;
    const form = new FormData(target);
    const minutes = numberIn(form, 'minutes');
    const { store } = this.library;
    const reed = this.reeds.find(({ id }) => id === textIn(form, 'reed')) ?? this.reeds[0];
    this.problem =
      minutes !== undefined && useSchema.shape.minutes.safeParse(minutes).success && minutes > 0
        ? ''
        : 'Minutes must be a number from 1 to 1440.';
    if (this.problem || !reed || !store) return;
    const felt = numberIn(form, 'felt');
    const use = {
      ...(this.use ?? { kind: 'use' as const, reedId: reed.id, at: store.ledger.now() }),
      minutes: minutes!,
      service: textIn(form, 'service') as Use['service'],
      felt,
    };
    if ((await store.keep([use], `playing ${reed.label}`)) && !this.use) target.reset();
  }

  private handleRemove() {
    const { use } = this;
    if (!use) return;
    void this.library.store?.remove([use.id], 'a playing');
    this.dispatchEvent(new Event('bench-use-removed'));
  }

  override render() {
    const { reeds, use } = this;
    if (reeds.length === 0) return nothing;
    return html`<form @submit=${this.handleSubmit}>
      ${
        reeds.length > 1
          ? html`<label
              >Reed<select name="reed">
                ${reeds.map(({ id, label }) => html`<option value=${id}>${label}</option>`)}
              </select></label
            >`
          : nothing
      }
      <label class="short"
        >Minutes<input
          name="minutes"
          inputmode="decimal"
          autocomplete="off"
          .value=${use ? plainText(use.minutes, this.library.writing) : ''}
      /></label>
      <label
        >At<select name="service">
          ${SERVICES.map((service) => html`<option ?selected=${service === use?.service}>${service}</option>`)}
        </select></label
      >
      <label
        >Felt<select name="felt">
          <option value="">–</option>
          ${[1, 2, 3, 4, 5].map((step) => html`<option value=${step} ?selected=${step === use?.felt}>${step}${{ 1: ' badly', 5: ' well' }[step] ?? ''}</option>`)}
        </select></label
      >
      <button>Keep this playing</button>
      ${use ? html`<button type="button" @click=${this.handleRemove}>Put it into the bin</button>` : nothing}
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
    </form>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-played-form': PlayedForm;
  }
}
