import { html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { reedSchema, type Reed } from '../../shared/reed.ts';
import { numberIn, textIn } from '../form-fields.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Gives a reed its slot in the case, or takes it out. */
@customElement('bench-slot-form')
export class SlotForm extends BenchElement {
  static override styles = [controls, forms];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) reeds: readonly Reed[] = [];

  private async handleSubmit(event: SubmitEvent) {
    event.preventDefault();
    const target = event.currentTarget as HTMLFormElement;
    const form = new FormData(target);
    const slot = numberIn(form, 'slot');
    const reed = this.reeds.find(({ id }) => id === textIn(form, 'reed')) ?? this.reeds[0];
    const isRight = reedSchema.shape.slot.safeParse(slot).success;
    this.problem = isRight ? '' : 'A slot is a whole number from 1 to 60, or blank.';
    if (!isRight || !reed || !this.library.store) return;
    const { slot: _before, ...rest } = reed;
    const kept = await this.library.store.keep(
      [slot === undefined ? rest : { ...rest, slot }],
      `slot of ${reed.label}`,
    );
    if (kept) target.reset();
  }

  override render() {
    return html`<form @submit=${this.handleSubmit}>
      <label
        >Reed<select name="reed">
          ${this.reeds.map(({ id, label }) => html`<option value=${id}>${label}</option>`)}
        </select></label
      >
      <label>Slot, blank for none<input name="slot" inputmode="numeric" autocomplete="off" /></label>
      <button>Keep the slot</button>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : ''}
    </form>`;
  }
}
