import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import * as z from 'zod';
import { lotSchema, type Lot, type Piece } from '../../shared/cane.ts';
import { compareGouge, STARTING_GOUGE } from '../../src/cane/wished-gouge.ts';
import { lotYield, type LotYield } from '../../src/cane/lot-yield.ts';
import { gougeNoise } from '../../src/cane/gouge-noise.ts';
import { pieceEvenness } from '../../src/cane/evenness.ts';
import {
  differenceFigure,
  numberText,
  thicknessFigure,
  UNIT_WORDS,
  type FigureText,
} from '../../src/words/format.ts';
import { hrefOf } from '../frame/routes.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls, tables } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import './gouge-drift.ts';
import { LOT_FIELDS } from './lot-fields.ts';

const HARDNESS_FIELDS: readonly Field<'value' | 'unit'>[] = [
  { name: 'value', words: 'Hardness or flex, measured', kind: 'number' },
  { name: 'unit', words: 'in what', kind: 'text' },
];
const HARDNESS = z.object({ value: z.number().optional(), unit: z.string().max(40).optional() });

/** One lot: what is known of it, what became of it, its pieces and the drift of the gouge. */
@customElement('bench-lot-panel')
export class LotPanel extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    fields,
    pages,
    tables,
    css`
      .panel {
        display: grid;
        gap: var(--bench-space-6);
      }
      h2.name {
        margin: 0;
        font: var(--bench-font-reed);
      }
      th a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        padding-right: var(--bench-space-4);
        text-underline-offset: 3px;
      }
      td a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        text-underline-offset: 3px;
        white-space: nowrap;
      }
      td small {
        color: var(--bench-ink3);
      }
      .odd {
        color: var(--bench-excess);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
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
    const { piece, reed, trial } = store.snapshot.live;
    const found = lotYield(lot, { pieces: piece, reeds: reed, trials: trial });
    return html`<div class="panel">
      <section>
        <h2 class="name">${lot.code}</h2>
        <p class="aside">${this.yieldWords(found)}</p>
        ${lot.invented ? html`<p class="quiet">Invented, as an example.</p>` : nothing}
        <div class="acts"><button class="main" @click=${this.handleNewPiece}>New piece</button></div>
      </section>
      ${this.renderPieces()}
      <bench-gouge-drift .pieces=${this.pieces}></bench-gouge-drift>
      <details ?open=${this.pieces.length === 0}>
        <summary>About this lot</summary>
        ${this.renderForm(lot)}
      </details>
    </div>`;
  }

  private percent({ share, lower, upper }: NonNullable<LotYield['keptShare']>): string {
    const text = (value: number) => numberText(100 * value, 0, this.library.writing);
    return `${text(share)}\u00a0% (${text(lower)} to ${text(upper)})`;
  }

  private yieldWords({ pieces, kept, rejected, reasons, reeds, goodReeds, keptShare, goodShare }: LotYield) {
    if (pieces === 0 && reeds === 0) return 'Nothing is made of it yet.';
    const why = reasons.map(({ reason, count }) => `${count} ${reason}`).join(', ');
    const parts = [
      keptShare && `Kept ${kept} of ${kept + rejected} judged, ${this.percent(keptShare)}`,
      rejected > 0 && `rejected ${rejected}: ${why}`,
      goodShare && `${goodReeds} of ${reeds} reeds good, ${this.percent(goodShare)}`,
    ].filter(Boolean);
    return parts.length === 0
      ? `${pieces} ${pieces === 1 ? 'piece' : 'pieces'}, none judged yet.`
      : `${parts.join('; ')}. In brackets the range that 95 % of such counts leave open.`;
  }

  private renderPieces() {
    const { pieces } = this;
    if (pieces.length === 0) return nothing;
    const { writing } = this.library;
    return html`<section class="scroll">
      <table>
        <caption>
          Pieces, ${UNIT_WORDS[writing.unit].caption}, ± 95 %. Difference is side 1 less side 2.
        </caption>
        <thead>
          <tr>
            <th scope="col">Piece</th>
            <th scope="col">Centre</th>
            <th scope="col">Sides</th>
            <th scope="col">Difference</th>
            <th scope="col">Fate</th>
          </tr>
        </thead>
        <tbody>
          ${pieces.map((piece) => this.renderPiece(piece))}
        </tbody>
      </table>
    </section>`;
  }

  private renderPiece(piece: Piece) {
    const { writing } = this.library;
    const wished = this.library.choices.gouge ?? STARTING_GOUGE;
    const noise = gougeNoise(this.library.store!.snapshot.live.gauge.at(-1));
    const cell = (text: FigureText | undefined) =>
      text ? html`${text.value} <small>${text.doubt}</small>` : '–';
    const { centre, sides, sideDifference } = pieceEvenness(piece.readings, noise);
    const { sides: judged } = compareGouge({ ...(sideDifference && { sideDifference }) }, undefined, wished);
    return html`<tr>
      <th scope="row">
        <a href=${hrefOf({ at: 'cane', shown: { kind: 'piece', id: piece.id } })}>${piece.number}</a>
      </th>
      <td>${cell(centre && thicknessFigure(centre, writing))}</td>
      <td>${cell(sides && thicknessFigure(sides, writing))}</td>
      <td class=${judged === 'too different' ? 'odd' : ''}>
        ${judged === 'too different' ? '◊ ' : ''}${cell(sideDifference && differenceFigure(sideDifference, writing))}
      </td>
      <td>${[piece.fate, piece.reason].filter(Boolean).join(', ') || '–'} ${this.renderReed(piece)}</td>
    </tr>`;
  }

  private renderReed({ id }: Piece) {
    const made = this.library.store!.reeds.find(({ pieceId }) => pieceId === id);
    return made
      ? html`<a href=${hrefOf({ at: 'bench', reedId: made.id, question: 'there' })}>${made.label}</a>`
      : nothing;
  }

  private renderForm(lot: Lot) {
    return html`<form @submit=${this.handleKeep}>
      <div class="fields">
        ${renderFields(LOT_FIELDS.slice(0, -1), lot, this.library.writing)}
        ${renderFields(HARDNESS_FIELDS, lot.hardness, this.library.writing)}
        ${renderFields(LOT_FIELDS.slice(-1), lot, this.library.writing)}
      </div>
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
