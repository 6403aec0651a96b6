import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import type { TargetDocument } from '../../shared/target.ts';
import type { Followed } from '../../src/plan/make-target.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { followKept, followNew, targetOptions, type TargetOption } from './target-options.ts';
import './target-maker.ts';
import type { TargetMadeEvent } from './target-maker.ts';
import { fields } from './fields.styles.ts';

const PLACINGS: readonly (readonly [TargetDocument['placing'], string])[] = [
  ['tip', 'from the tip'],
  ['lengths', 'by the ends of tip, heart and scrape'],
];

/** What a reed is set beside: a favourite, a target that was made, or what is usual. Every choice is kept. */
@customElement('bench-target-chooser')
export class TargetChooser extends BenchElement {
  static override styles = [
    controls,
    fields,
    css`
      :host {
        display: grid;
        gap: var(--bench-space-3);
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) followed: Followed | undefined;
  @state() private making = false;

  private get options(): readonly TargetOption[] {
    const { store } = this.library;
    return store && this.reed ? targetOptions(store, this.reed) : [];
  }

  private get chosen(): TargetOption | undefined {
    const { options, reed } = this;
    return (
      options.find(({ target }) => target !== undefined && target.id === reed?.targetId) ??
      options.find(({ value }) => value === 'newest')
    );
  }

  private async handleChoice(event: Event) {
    const { store } = this.library;
    const { value } = event.target as HTMLSelectElement;
    const option = this.options.find((one) => one.value === value);
    if (!store || !this.reed || !option) return;
    const { target, recipe, words } = option;
    if (!target && recipe)
      await followNew(store, this.reed.id, { name: words.slice(0, 80), recipe, placing: 'tip' });
    else await followKept(store, this.reed.id, target?.id);
  }

  private async handlePlacing(event: Event) {
    const { store } = this.library;
    const { followed, reed, chosen } = this;
    const placing = (event.target as HTMLSelectElement).value === 'lengths' ? 'lengths' : 'tip';
    if (!store || !followed || !reed) return;
    if (chosen?.target)
      await store.keep([{ ...chosen.target, placing }], `how ${chosen.target.name} is placed`);
    else
      await followNew(store, reed.id, {
        name: (chosen?.words ?? 'a target').slice(0, 80),
        recipe: followed.recipe,
        placing,
      });
  }

  private async handleMade({ made }: TargetMadeEvent) {
    const { store } = this.library;
    if (store && this.reed && (await followNew(store, this.reed.id, made))) this.making = false;
  }

  private async handleRemove() {
    const { store } = this.library;
    const { chosen, reed } = this;
    if (!store || !reed || !chosen?.target) return;
    await followKept(store, reed.id, undefined);
    await store.remove([chosen.target.id], `the target ${chosen.target.name}`);
  }

  override render() {
    const { chosen, reed } = this;
    if (!reed) return nothing;
    return html`<label
        >Set beside<select @change=${this.handleChoice}>
          ${chosen ? nothing : html`<option value="" selected>nothing yet</option>`}
          ${this.options.map(
            ({ value, words }) =>
              html`<option value=${value} ?selected=${value === chosen?.value}>${words}</option>`,
          )}
        </select></label
      >
      ${
        this.followed
          ? html`<label
              >Placed<select @change=${this.handlePlacing}>
                ${PLACINGS.map(
                  ([placing, words]) =>
                    html`<option value=${placing} ?selected=${placing === this.followed?.placing}>
                      ${words}
                    </option>`,
                )}
              </select></label
            >`
          : nothing
      }
      <div class="acts">
        <button aria-expanded=${this.making ? 'true' : 'false'} @click=${() => (this.making = !this.making)}>
          ${this.making ? 'Make none' : 'Make a target'}
        </button>
        ${chosen?.target ? html`<button @click=${this.handleRemove}>Forget this target</button>` : nothing}
      </div>
      ${
        this.making
          ? html`<bench-target-maker
              .reed=${reed}
              @bench-target-made=${this.handleMade}
            ></bench-target-maker>`
          : nothing
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-target-chooser': TargetChooser;
  }
}
