import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PassFacts } from '../../shared/pass.ts';
import { reedSchema, reedStateSchema, type Reed } from '../../shared/reed.ts';
import { withBelongings } from '../../src/reed/belonging.ts';
import '../bench/reed-files.ts';
import '../caution/caution.ts';
import { hrefOf } from '../frame/routes.ts';
import { hiddenProblem } from '../form-fields.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './own-lengths.ts';

/** The reed itself: its label, its state, whether it is an example to follow, where its zones end, its files, the bin. */
@customElement('bench-reed-form')
export class ReedForm extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    pages,
    css`
      :host {
        display: grid;
        gap: var(--bench-space-5);
      }
      h2 {
        font: var(--bench-font-say);
      }
      .acts label {
        flex: 0 1 12em;
      }
      .acts {
        align-items: end;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) pass: PassFacts | undefined;

  private keep(change: Partial<Reed>, label: string) {
    const [reed, store] = [this.reed!, this.library.store!];
    void store.keepLatest(() => [{ ...(store.reed(reed.id) ?? reed), ...change }], label);
  }

  private handleLabel(event: Event) {
    const input = event.target as HTMLInputElement;
    const reed = this.reed!;
    this.problem = input.value === reed.label ? '' : hiddenProblem(input);
    if (this.problem) return;
    const label = reedSchema.shape.label.safeParse(input.value);
    const isTaken = this.library.store!.reeds.some(
      (other) => other.id !== reed.id && other.label === input.value.trim(),
    );
    this.problem = isTaken
      ? `There is a ${input.value.trim()} already. Labels are never used twice.`
      : label.success
        ? ''
        : 'A label has 1 to 80 letters: it stands on the thread.';
    if (this.problem) input.value = reed.label;
    else if (label.success && label.data !== reed.label)
      this.keep({ label: label.data }, `${reed.label} is now ${label.data}`);
  }

  private handleState(event: Event) {
    const now = reedStateSchema.parse((event.target as HTMLSelectElement).value);
    this.keep({ state: now }, `state of ${this.reed!.label}`);
  }

  private handleFavourite() {
    const { reed, pass } = this;
    if (!reed || !pass) return;
    const since = this.library.store!.ledger.now();
    if (reed.favourite) this.keep({ favourite: undefined }, `${reed.label} no longer a favourite`);
    else this.keep({ favourite: { passIndex: pass.index, since } }, `${reed.label} as a favourite`);
  }

  private handleRemove() {
    const [reed, store] = [this.reed!, this.library.store!];
    const documents = Object.values(store.snapshot.live).flat();
    void store.remove(withBelongings(documents, reed.id), `${reed.label} into the bin`);
    location.hash = hrefOf({ at: 'case' });
  }

  override render() {
    const { reed, pass, problem } = this;
    if (!reed || !this.library.store) return nothing;
    return html`<section>
        <h2>The reed</h2>
        <div class="acts">
          <label
            >Label, as on the thread<input
              name="label"
              maxlength="80"
              autocomplete="off"
              .value=${reed.label}
              @change=${this.handleLabel}
          /></label>
          <label
            >State<select name="state" @change=${this.handleState}>
              ${reedStateSchema.options
                .filter((name) => name !== 'retired' || reed.state === name)
                .map((name) => html`<option ?selected=${name === reed.state}>${name}</option>`)}
            </select></label
          >
          <button
            ?disabled=${!pass}
            aria-pressed=${reed.favourite ? 'true' : 'false'}
            @click=${this.handleFavourite}
          >
            ${reed.favourite ? `Favourite, as of pass ${reed.favourite.passIndex}` : 'Mark as favourite'}
          </button>
          <button @click=${this.handleRemove}>Put into the bin</button>
        </div>
        ${problem ? html`<p class="problem" role="alert">${problem}</p>` : nothing}
        <bench-caution about="mould"></bench-caution>
      </section>
      <bench-own-lengths .reed=${reed} .pass=${pass}></bench-own-lengths>
      <bench-reed-files .reed=${reed} .pass=${pass}></bench-reed-files>`;
  }
}
