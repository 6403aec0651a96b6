import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import * as z from 'zod';
import { lotSchema, type Lot, type Piece } from '../../shared/cane.ts';
import { hrefOf } from '../frame/routes.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './gouge-drift.ts';
import { LOT_FIELDS } from './lot-fields.ts';

const HARDNESS_FIELDS: readonly Field<'value' | 'unit'>[] = [
  { name: 'value', words: 'Hardness or flex, measured', kind: 'number' },
  { name: 'unit', words: 'in what', kind: 'text' },
];
/** As many fields as one looks over; the others are folded. */
const FIRST_FIELDS = 7;
/** Up to those of the tubes. */
const TUBE_FIELDS = 10;
const HARDNESS = z.object({ value: z.number().optional(), unit: z.string().max(40).optional() });

/** One lot: its next piece, what is known of it, and the limits of the gouge over its pieces. */
@customElement('bench-lot-panel')
export class LotPanel extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    pages,
    css`
      :host {
        display: contents;
      }
      details[open],
      .acts {
        grid-column: 1 / -1;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) lot: Lot | undefined;

  private get pieces(): readonly Piece[] {
    return this.library
      .store!.snapshot.live.piece.filter(({ lotId }) => lotId === this.lot?.id)
      .sort((a, b) => a.number - b.number);
  }

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const data = new FormData(form);
    const typed = readFields(data, LOT_FIELDS, lotSchema);
    const hardness = readFields(data, HARDNESS_FIELDS, HARDNESS);
    const bad = [typed, hardness].find((one) => 'problem' in one);
    this.problem = bad && 'problem' in bad ? bad.problem : '';
    markField(form, bad && 'name' in bad ? bad.name : undefined);
    if (!('values' in typed) || !('values' in hardness)) return;
    const { value, unit } = hardness.values;
    const hard = value === undefined ? undefined : { value, unit: unit ?? '' };
    const lot = this.lot!;
    const store = this.library.store!;
    const latest = () => store.snapshot.live.lot.find(({ id }) => id === lot.id) ?? lot;
    await store.keepLatest(() => [{ ...latest(), ...typed.values, hardness: hard }], `lot ${lot.code}`);
  }

  private async handleNewPiece() {
    const store = this.library.store!;
    const id = store.ledger.newId();
    const last = this.pieces.at(-1);
    const kept = await store.keep(
      [
        {
          kind: 'piece',
          id,
          lotId: this.lot!.id,
          number: (last?.number ?? 0) + 1,
          readings: [],
          gougedOn: store.ledger.now().slice(0, 10),
          ...(last?.gouger !== undefined && { gouger: last.gouger }),
          ...(last?.sinceSharpened !== undefined && { sinceSharpened: last.sinceSharpened + 1 }),
        },
      ],
      `a piece of lot ${this.lot!.code}`,
    );
    if (kept) location.hash = hrefOf({ at: 'cane', shown: { kind: 'piece', id } });
  }

  private async handleBin() {
    const lot = this.lot!;
    await this.library.store!.remove(
      [lot.id, ...this.pieces.map(({ id }) => id)],
      `lot ${lot.code} into the bin`,
    );
    location.hash = hrefOf({ at: 'cane' });
  }

  override render() {
    const { lot } = this;
    const { store } = this.library;
    if (!lot || !store) return nothing;
    return html`<div class="acts">
        <button class="main" @click=${this.handleNewPiece}>New piece</button>
        ${lot.invented ? html`<span class="quiet">Invented, as an example.</span>` : nothing}
      </div>
      <details ?open=${this.pieces.length === 0}>
        <summary>About this lot</summary>
        ${this.renderForm(lot)}
      </details>
      <details>
        <summary>Is the gouge drifting? Limits of a control chart</summary>
        <bench-gouge-drift .pieces=${this.pieces}></bench-gouge-drift>
      </details>`;
  }

  private renderForm(lot: Lot) {
    return html`<form @submit=${this.handleKeep}>
      <div class="fields">${renderFields(LOT_FIELDS.slice(0, FIRST_FIELDS), lot, this.library.writing)}</div>
      <details>
        <summary>Its tubes, its hardness</summary>
        <div class="fields">
          ${renderFields(LOT_FIELDS.slice(FIRST_FIELDS, TUBE_FIELDS), lot, this.library.writing)}
          ${renderFields(HARDNESS_FIELDS, lot.hardness, this.library.writing)}
        </div>
      </details>
      <details>
        <summary>How it looks, a note</summary>
        <div class="fields">${renderFields(LOT_FIELDS.slice(TUBE_FIELDS), lot, this.library.writing)}</div>
      </details>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      <div class="acts">
        <button class="main">Keep</button>
        <button type="button" @click=${this.handleBin}>Put into the bin</button>
      </div>
    </form>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lot-panel': LotPanel;
  }
}
